"""Folders of recordings dealt into shards."""

import tempfile
from collections.abc import Iterator
from pathlib import Path

from pydantic import BaseModel

from hikite.archive import Archive
from hikite.archive.errors import ArchiveError
from hikite.archive.kept import Refusal
from hikite.archive.planning import Place as Held
from hikite.archive.planning import Work, note_seen, plan
from hikite.archive.scanning import Found, find_files, look_at
from hikite.archive.stamps import load_stamps
from hikite.errors import HikiteError
from hikite.shards.errors import ShardError
from hikite.shards.lines import ShardLine, name_of, packed
from hikite.shards.places import Place
from hikite.sheets import read_sheet
from hikite.transcripts import read

EACH = 200
"""Recordings in a shard: a minute or two of work, beside which the engine's own does not show."""


class Dealt(BaseModel, frozen=True, extra="forbid"):
    """How many shards were written, of how many recordings; ``refused`` stand in them with the reason."""

    shards: int
    recordings: int
    refused: int


def deal(places: tuple[Path, ...], to: str, each: int = EACH) -> Dealt:
    """Write files and folders as shards ``00000.jsonl.gz`` … to an address, so many recordings in each.

    Which files are read, and which are copies of one another, is decided as for an archive. ArchiveError
    where one is missing, ShardError where there are shards already.
    """
    missing = next((place for place in places if not place.exists()), None)
    if missing is not None:
        raise ArchiveError("no such file or folder", file=str(missing))
    target, shard = Place(to), list[ShardLine]()
    if any(map(name_of, target.names())):
        raise ShardError("holds shards already; a new deal wants a place of its own", file=to)
    shards = recordings = refused = 0
    for line in _lines(places):
        shard.append(line)
        recordings += line.transcript is not None
        refused += line.transcript is None
        if len(shard) == each:
            target.write(f"{shards:05d}.jsonl.gz", packed(shard))
            shards, shard = shards + 1, []
    if shard:
        target.write(f"{shards:05d}.jsonl.gz", packed(shard))
        shards += 1
    return Dealt(shards=shards, recordings=recordings, refused=refused)


def _lines(places: tuple[Path, ...]) -> Iterator[ShardLine]:
    """Every recording once, in the order in which an archive would read them."""
    refused: list[Refusal] = []

    def found() -> Iterator[Found]:
        for file in find_files(places):
            one = look_at(file)
            if isinstance(one, Refusal):
                refused.append(one)
            else:
                yield one

    with (
        tempfile.TemporaryDirectory(prefix="hikite-") as folder,
        Archive.open(Path(folder, "plan"), write=True) as empty,
    ):
        note_seen(empty.db, found())
        work = plan(empty.db, load_stamps()).work
    for refusal in refused:
        yield ShardLine(places=(Held(path=refusal.path),), reason=refusal.reason)
    yield from map(_line, work)


def _line(work: Work) -> ShardLine:
    try:
        return ShardLine(
            places=work.places,
            transcript=read(Path(work.places[0].path)),
            sheet=read_sheet(Path(work.sheet)) if work.sheet else ShardLine(places=()).sheet,
            sheet_sha256=work.sheet_sha256,
        )
    except HikiteError as error:
        return ShardLine(places=work.places, reason=str(error))
