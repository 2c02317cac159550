"""A small archive to read in: one sample that can be heard, one invented talk whose captions hold markup."""

import math
import shutil
import threading
import time
import wave
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

pytest.importorskip("starlette", reason="the reading room needs `pip install 'hikite[room]'`")
pytest.importorskip("uvicorn", reason="the reading room needs `pip install 'hikite[room]'`")
pytest.importorskip("jinja2", reason="the reading room needs `pip install 'hikite[room]'`")

import uvicorn
from starlette.testclient import TestClient

from hikite.archive import Archive
from hikite.archive.keeping import keep_files
from hikite.web import Arrangement, reading_room

SAMPLES = Path(__file__).parents[2] / "samples"
AT = "http://127.0.0.1:8173"
HOSTILE = """WEBVTT

00:00:01.000 --> 00:00:04.000
&lt;script&gt;document.title = "broken into"&lt;/script&gt; red with a hip throw

00:00:05.000 --> 00:00:09.000
blue &lt;img src=x onerror="document.title='broken into'"&gt; tries an ankle pick {{ 7 * 7 }}

00:00:10.000 --> 00:00:14.000
two points red "&gt;&lt;svg onload=alert(1)&gt;
"""

PLAIN = """WEBVTT

00:00:10.000 --> 00:00:14.000
Hip throw by red, and that is two points to red.

00:00:40.000 --> 00:00:43.000
Blue has the collar grip.

00:01:00.000 --> 00:01:05.000
Blue with the double leg, he puts him down, one point to blue.

00:01:30.000 --> 00:01:34.000
Red tries a foot sweep, nothing comes of it.

00:02:00.000 --> 00:02:05.000
Inner thigh throw from blue, flat on his back, four points to blue.
"""
SHEET = """title = "Harbour Belt: second round"
date = "2026-05-11"
ruleset = "sambo.sport.2020"

[[competitors]]
side = "red"
name = "Ilmar Destrow"

[[competitors]]
side = "blue"
name = "Rafe Pennaluk"
"""


def tone(file: Path, seconds: int) -> None:
    """A quiet tone, 8 bits, 4 kHz."""
    with wave.open(str(file), "wb") as out:
        out.setparams((1, 1, 4000, 0, "NONE", "not compressed"))
        out.writeframes(bytes(128 + int(20 * math.sin(i / 9)) for i in range(4000)) * seconds)


@pytest.fixture(scope="session")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with an archive and what is kept in it; to be copied, never written to."""
    folder = tmp_path_factory.mktemp("room")
    talks = folder / "talks"
    talks.mkdir()
    for file in SAMPLES.glob("final-79kg.vtt*"):
        shutil.copy(file, talks)
    for file in SAMPLES.glob("quarter-final-87kg.json*"):
        shutil.copy(file, talks)
    tone(talks / "final-79kg.wav", 390)
    (talks / "plain.vtt").write_text(PLAIN, "utf-8")
    (talks / "plain.vtt.sheet.toml").write_text(SHEET, "utf-8")
    (talks / "markup.vtt").write_text(HOSTILE, "utf-8")
    with Archive.open(folder / "bouts.archive", write=True) as archive:
        keep_files(archive, (talks,))
        archive.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return folder


@pytest.fixture
def archive(filled: Path, tmp_path: Path) -> Path:
    """A copy of the archive; the recordings stay where they lie."""
    return Path(shutil.copy(filled / "bouts.archive", tmp_path / "bouts.archive"))


@pytest.fixture
def client(archive: Path) -> Iterator[TestClient]:
    """A browser without a window, at a room that takes decisions."""
    with TestClient(reading_room(Arrangement(archive=archive)), base_url=AT) as opened:
        yield opened


@pytest.fixture
def serve(archive: Path) -> Iterator[Callable[..., str]]:
    """Opens rooms on free ports; gives the address."""
    servers: list[tuple[uvicorn.Server, threading.Thread]] = []

    def open_(**given: object) -> str:
        made = Arrangement.model_validate({"archive": archive, "port": 0, **given})
        server = uvicorn.Server(uvicorn.Config(reading_room(made), port=0, log_level="error"))
        socket = server.config.bind_socket()
        thread = threading.Thread(target=server.run, args=([socket],), daemon=True)
        thread.start()
        until = time.monotonic() + 60
        while not server.started and time.monotonic() < until:
            time.sleep(0.02)
        assert server.started
        servers.append((server, thread))
        return f"http://127.0.0.1:{socket.getsockname()[1]}"

    yield open_
    for server, thread in servers:
        server.should_exit = True
        thread.join(10)
