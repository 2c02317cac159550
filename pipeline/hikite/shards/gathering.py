"""Finished shards into an archive."""

from pydantic import BaseModel

from hikite.archive import Archive
from hikite.archive.derivations.deriving import loaded
from hikite.archive.keeping import corrections
from hikite.archive.kept import Refusal
from hikite.archive.lexicons import put_lexicon
from hikite.archive.stamps import Stamps, load_stamps
from hikite.archive.writing import put, put_file, put_refusal, put_tallies
from hikite.shards.errors import ShardError
from hikite.shards.places import Place
from hikite.shards.tables import Taken, refused_from, taken_from
from hikite.shards.working import finished

_TABLES = ("recordings", "stages", "statements", "bouts", "competitors", "events", "refused")


class Gathered(BaseModel, frozen=True, extra="forbid"):
    """How many shards were gathered; ``put`` recordings were written, ``same`` were there already."""

    shards: int
    unfinished: int
    put: int
    same: int
    refused: int


def gather(archive: Archive, place: str) -> Gathered:
    """Put what the finished shards at an address hold into an archive, a recording a transaction.

    ShardError where they were read with other words, rules or another program than this one: done anew they
    are as if read here. The names corrected over the archive count as words.
    """
    names = corrections(archive.file)
    source, stamps = Place(place), load_stamps(aliases=names)
    folders = [name for name in source.names() if name.startswith("shard=")]
    done = {folder: finished(source, folder) for folder in folders}
    for folder, told in done.items():
        if told is not None and told.stamps != stamps:
            raise ShardError(
                "was read with other words, rules or program; spread it again"
                + (f" with --aliases {names[0]}" if names else ""),
                file=f"{place}/{folder}",
            )
    with archive.writing() as db:
        put_lexicon(db, loaded(names), stamps.words)
    counts = {"put": 0, "same": 0, "refused": 0}
    # What a power cut takes is gathered again.
    archive.db.execute("PRAGMA synchronous = NORMAL")
    for folder in (folder for folder in folders if done[folder]):
        tables = {name: source.read(f"{folder}/{name}.parquet") for name in _TABLES}
        for one in taken_from(tables):
            counts["put" if _put(archive, one, stamps) else "same"] += 1
        counts["refused"] += _refuse(archive, refused_from(tables))
    with archive.writing() as db:
        put_tallies(db)
    archive.db.execute("PRAGMA synchronous = FULL")
    finished_ones = sum(told is not None for told in done.values())
    return Gathered(shards=finished_ones, unfinished=len(folders) - finished_ones, **counts)


def _put(archive: Archive, one: Taken, stamps: Stamps) -> bool:
    """Whether it had to be written; what is there from the same words and rules stays as it is."""
    row = one.derived.recording
    known = archive.db.execute(
        "SELECT id, tool, words, rules, sheet_sha256 FROM recordings WHERE sha256 = ?", (row.sha256,)
    ).fetchone()
    wanted = (stamps.tool, stamps.words, stamps.rules(row.ruleset), one.sheet_sha256)
    if known is None or tuple(known[1:]) != wanted:
        put(archive, one.derived, one.places, one.sheet_sha256, stamps)
        return True
    with archive.writing() as db:
        for place in one.places:
            put_file(db, known[0], place)
    return False


def _refuse(archive: Archive, refused: list[Refusal]) -> int:
    with archive.writing() as db:
        for one in refused:
            put_refusal(db, one)
    return len(refused)
