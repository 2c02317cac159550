from pathlib import Path

import pytest

from hikite.outputs import record_of
from hikite.outputs.entries import BoutRecord
from hikite.process import Lexicon, load_lexicon, process
from hikite.records import Recording
from hikite.sheets import find_sheet, read_sheet
from hikite.transcripts import read

SAMPLES = Path(__file__).parents[2] / "samples"
NAMES = sorted(
    path.name.removesuffix(".sheet.toml") for path in SAMPLES.glob("*.sheet.toml")
)  # a sheet lies beside every sample


@pytest.fixture(scope="session")
def lexicon() -> Lexicon:
    return load_lexicon()


@pytest.fixture(scope="session")
def recordings(lexicon) -> dict[str, Recording]:
    found = {}
    for name in NAMES:
        sheet = find_sheet(SAMPLES / name)
        assert sheet is not None
        found[name] = process(read(SAMPLES / name), lexicon, read_sheet(sheet))
    return found


@pytest.fixture(params=NAMES)
def recording(request, recordings) -> Recording:
    return recordings[request.param]


@pytest.fixture
def record(recording, lexicon) -> BoutRecord:
    return record_of(recording, lexicon)
