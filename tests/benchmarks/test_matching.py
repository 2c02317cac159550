"""How fast names are found, with every stage of matching on; run with ``--benchmark-enable``."""

import sys
from pathlib import Path
from typing import Any

import pytest

sys.path.insert(0, str(Path(__file__).parent))
from matching import Text, by_hikite, make

from hikite.terms import load_terms


@pytest.fixture(scope="module")
def text() -> Text:
    return make(load_terms(), 5000)


def test_matching(benchmark: Any, text: Text) -> None:
    finder = by_hikite(load_terms())
    found = benchmark(finder, text)
    written = [name for name in text.names if name[3] == "written"]
    hits = sum(any(one < stop and first < two for one, two, _ in found) for first, stop, _, _ in written)
    # What stands there as written is found whatever the speed.
    assert hits >= 0.95 * len(written)
