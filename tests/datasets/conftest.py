from pathlib import Path

import pytest

from hikite.archive import Archive
from hikite.archive.keeping import keep_files
from hikite.process import Lexicon, load_lexicon

SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.fixture(scope="session")
def lexicon() -> Lexicon:
    return load_lexicon()


@pytest.fixture(scope="session")
def kept(tmp_path_factory) -> Path:
    """The samples in an archive, which nobody may write to."""
    file = tmp_path_factory.mktemp("kept") / "bouts.archive"
    with Archive.open(file, write=True) as archive:
        keep_files(archive, (SAMPLES,), jobs=1)
    return file


@pytest.fixture
def archive(kept):
    with Archive.open(kept) as opened:
        yield opened


@pytest.fixture
def own(kept, tmp_path):
    """A copy that may be written to."""
    copy = tmp_path / "own.archive"
    with Archive.open(kept) as opened:
        opened.backup(copy)
    with Archive.open(copy, write=True) as opened:
        yield opened
