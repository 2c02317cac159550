"""The command that opens the reading room."""

import os
import re
import shutil
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest

pytest.importorskip("uvicorn", reason="the reading room needs `pip install 'hikite[room]'`")
pytest.importorskip("starlette", reason="the reading room needs `pip install 'hikite[room]'`")

RUN = "from hikite.cli import run; run()"


@pytest.fixture
def archive(hikite, tmp_path: Path, samples: Path) -> Path:
    shutil.copy(samples / "milo.txt", tmp_path)
    assert hikite("keep", tmp_path, "--archive", tmp_path / "bouts.archive", "--jobs", 1).code == 0
    return tmp_path / "bouts.archive"


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("--archive", "/nowhere/at.all"), "no archive here"),
        (("--archive", "/nowhere/at.all", "--name", "mat.example"), "open to others"),
        (("--archive", "/nowhere/at.all", "--port", "99999"), "--port"),
    ],
)
def test_what_cannot_be_opened(hikite, words: tuple[str, ...], why: str) -> None:
    ran = hikite("room", *words)
    assert ran.code in (1, 2)
    assert why in ran.err


@pytest.mark.parametrize("given", [(), ("--read-only",), ("--token", "a long secret")])
def test_it_opens_and_closes(archive: Path, given: tuple[str, ...]) -> None:
    words = ["hikite", "room", "--archive", str(archive), "--port", "0", *given]
    code = f"import sys; sys.argv = {words!r}; {RUN}"
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path), "PYTHONUNBUFFERED": "1"}
    page = "enter" if "--token" in given else "signs"
    with subprocess.Popen(
        [sys.executable, "-c", code], stdout=subprocess.PIPE, text=True, env=environment
    ) as room:
        try:
            assert room.stdout
            told = room.stdout.readline()
            address = re.search(r"http://127\.0\.0\.1:\d+/", told)
            assert address, told
            with urllib.request.urlopen(f"{address[0]}{page}", timeout=60) as answer:
                assert answer.status == 200
        finally:
            room.send_signal(signal.SIGINT)
            room.wait(20)
