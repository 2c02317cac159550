import io
import sys
from pathlib import Path
from typing import NamedTuple

import pytest

from hikite.cli import run as hikite_run

SAMPLES = Path(__file__).parents[2] / "samples"


class Ran(NamedTuple):
    """How one run of the command ended and what it printed."""

    code: int
    out: str
    err: str


@pytest.fixture
def samples() -> Path:
    return SAMPLES


@pytest.fixture
def hikite(monkeypatch):
    """Run the command with these words, and perhaps bytes on standard input."""

    def run(*words: object, given: bytes = b"") -> Ran:
        monkeypatch.setattr(sys, "argv", ["hikite", *map(str, words)])
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given)))
        monkeypatch.setenv("COLUMNS", "100")
        out, err = io.TextIOWrapper(io.BytesIO(), newline=""), io.TextIOWrapper(io.BytesIO(), newline="")
        monkeypatch.setattr(sys, "stdout", out)
        monkeypatch.setattr(sys, "stderr", err)
        with pytest.raises(SystemExit) as ended:
            hikite_run()
        code = ended.value.code
        texts = []
        for stream in (out, err):
            stream.flush()
            texts.append(stream.buffer.getvalue().decode("utf-8"))
        return Ran(code if isinstance(code, int) else 0, *texts)

    return run
