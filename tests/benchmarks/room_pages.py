"""How long the reading room works on a page: of a bout of 5,000 words, and of a search in a large archive.

    PYTHONPATH=pipeline python tests/benchmarks/room_pages.py [LARGE.archive]

Processor time of the whole process from a request to the last byte of its answer, without a network. Each
bout is told in other words, so that the first request of each is the first in every respect.
``LARGE.archive`` is one that ``archive_search.py`` made.
"""

import asyncio
import statistics
import sys
import tempfile
import time
from pathlib import Path
from urllib.parse import quote

from starlette.types import Message

from hikite.archive import Archive
from hikite.archive.anchors import anchor_of
from hikite.archive.decisions import decide
from hikite.archive.keeping import keep_files
from hikite.web import Arrangement, reading_room

AIM_MS = 300
BOUTS = 12
TALK = (
    "Red takes the collar grip, blue tries a foot sweep, nothing comes of it for now.",
    "Hip throw from red, number {}, he goes over on his side, two points.",
    "They circle, {} steps or so, and the referee has nothing to say to either of them.",
    "Blue with the double leg, blocked, red has the underhook, still looking for the grip.",
    "Shoulder throw attempted by blue, red steps round it, back to the middle of the mat.",
)
ASKED = (
    "hip throw", "uchi-mata completed", "throw scored", "foot sweep failed clock under 1:00",
    "uchi-mata within 10 s after grip:belt", "ankle pick by red when behind",
)  # fmt: skip


def talk(words: int, seed: int) -> str:
    """A WebVTT file of so many words."""
    lines, said, at = ["WEBVTT\n"], 0, seed
    while said < words:
        text = TALK[(at + seed) % len(TALK)].format(at * seed % 977)
        lines.append(f"{_stamp(at * 4)} --> {_stamp(at * 4 + 3)}\n{text}\n")
        said, at = said + len(text.split()), at + 1
    return "\n".join(lines)


def _stamp(seconds: int) -> str:
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}.000"


class Room:
    """A room asked within this process."""

    def __init__(self, archive: Path, name: str = "") -> None:
        self.app = reading_room(Arrangement(archive=archive, read_only=not name))
        self.headers = [(b"host", b"localhost"), (b"cookie", f"hikite_name={name}".encode())]

    async def get(self, path: str) -> tuple[float, int]:
        """Milliseconds of processor time and bytes of one page."""
        where, _, query = path.partition("?")
        scope = {
            "type": "http", "method": "GET", "path": where, "raw_path": where.encode(), "scheme": "http",
            "query_string": query.encode(), "headers": self.headers, "http_version": "1.1",
            "server": ("127.0.0.1", 8173), "client": ("127.0.0.1", 9), "root_path": "",
        }  # fmt: skip
        size, status = 0, 0

        async def receive() -> Message:
            return {"type": "http.request", "body": b"", "more_body": False}

        async def send(message: Message) -> None:
            nonlocal size, status
            status = message.get("status", status)
            size += len(message.get("body", b""))

        begun = time.process_time()
        await self.app(scope, receive, send)
        spent = (time.process_time() - begun) * 1000
        assert status == 200, (path, status)
        return spent, size


def told(name: str, times: list[float], note: str = "") -> None:
    """One line of the report."""
    most = max(times)
    print(f"{name:42} median {statistics.median(times):6.0f} ms, most {most:6.0f} ms  {note}", flush=True)


async def long_bouts(folder: Path) -> None:
    """Pages of long bouts: first, again, and as a reviewer with decisions has them."""
    files = []
    for seed in range(1, BOUTS + 1):
        files.append(folder / f"bout-{seed}.vtt")
        files[-1].write_text(talk(5_000, seed), "utf-8")
    files.append(folder / "short.vtt")
    files[-1].write_text(talk(40, 3), "utf-8")
    with Archive.open(folder / "bouts.archive", write=True) as archive:
        keep_files(archive, tuple(files))
        numbers = [kept.id for kept in archive.recordings() if kept.cues > 100]
        print(f"{len(numbers)} bouts, the first of {len(archive.reading(numbers[0]).talk.tokens)} tokens")
        for number in numbers:
            event = next(one.id for one in archive.events(number) if one.kind == "technique")
            decide(archive, "Odrun", "accept", anchor_of(archive, event))
    for name, note in (("", "as the machine read it"), ("Odrun", "with a decision: reckoned again")):
        room = Room(folder / "bouts.archive", name)
        async with room.app.router.lifespan_context(room.app):
            first = [await room.get(f"/recordings/{number}") for number in numbers]
            again = [(await room.get(f"/recordings/{number}"))[0] for number in numbers for _ in range(3)]
            told("first page of a bout, first time", [ms for ms, _ in first], note)
            told("the same again", again, f"{first[0][1] // 1000} kB; the aim is {AIM_MS} ms")


async def searches(archive: Path) -> None:
    """The pages of a search in a large archive."""
    room = Room(archive)
    async with room.app.router.lifespan_context(room.app):
        for text in ASKED:
            times = [(await room.get(f"/search?q={quote(text)}"))[0] for _ in range(5)]
            told(f"search: {text}", times[1:], f"the first time {times[0]:.0f} ms")
        told("shelves", [(await room.get("/"))[0] for _ in range(5)])
        times = [(await room.get("/numbers"))[0] for _ in range(3)]
        told("numbers, again", times[1:], f"the first time {times[0]:.0f} ms")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        asyncio.run(long_bouts(Path(folder)))
    if len(sys.argv) > 1:
        asyncio.run(searches(Path(sys.argv[1])))
