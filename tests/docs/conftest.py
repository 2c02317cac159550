import pytest


@pytest.fixture(autouse=True)
def an_archive_of_its_own(tmp_path, monkeypatch):
    """The pages speak of one archive, named in the environment; each block has a new one."""
    monkeypatch.setenv("HIKITE_ARCHIVE", str(tmp_path / "bouts.archive"))
