"""One shard through the stages: what a worker does."""

import atexit
import gc
import hashlib
import shutil
import tempfile
import zlib
from functools import lru_cache
from pathlib import Path

from pydantic import BaseModel, ValidationError

from hikite.archive.derivations import Derived, Task, derive
from hikite.archive.kept import Refusal
from hikite.archive.stamps import Stamps, load_stamps
from hikite.shards.errors import ShardError
from hikite.shards.lines import ShardLine, lines_of, name_of
from hikite.shards.places import Place
from hikite.shards.tables import Taken, tables_of

DONE = "done.json"


class Done(BaseModel, frozen=True, extra="forbid"):
    """What stands beside the tables of a finished shard: of which bytes they were made, and with what."""

    sha256: str
    stamps: Stamps
    recordings: int
    refused: int
    words: int
    events: int


class Worked(BaseModel, frozen=True, extra="forbid"):
    """A shard after its turn; ``before`` says that it was finished already."""

    shard: str
    done: Done
    before: bool


def work(shards: str, file: str, to: str, stamps: Stamps, names: tuple[bytes, ...] = ()) -> Worked:
    """Read one shard and write its tables, unless that has been done with the same bytes and program.

    ``done.json`` comes last: without it the tables do not count, and the shard is done anew. ``names`` are
    what stands in files of corrected names. ShardError where this worker has another program than ``stamps``
    says.
    """
    aliases = _laid_down(names)
    if _own_stamps(aliases) != stamps:
        raise ShardError("this worker has another version of hikite or of its lexicon", file=file)
    body = Place(shards).read(file)
    digest, folder, target = hashlib.sha256(body).hexdigest(), folder_of(file), Place(to)
    done = finished(target, folder)
    if done is not None and (done.sha256, done.stamps) == (digest, stamps):
        return Worked(shard=file, done=done, before=True)
    taken, refused = _through_the_stages(lines_of(file, body), aliases)
    for name, table in tables_of(taken, refused).items():
        target.write(f"{folder}/{name}.parquet", table)
    done = Done(
        sha256=digest, stamps=stamps, recordings=len(taken), refused=len(refused),
        words=sum(len(row.text.split()) for one in taken for row in one.derived.talk),
        events=sum(len(one.derived.events) for one in taken),
    )  # fmt: skip
    target.write(f"{folder}/{DONE}", done.model_dump_json().encode())
    return Worked(shard=file, done=done, before=False)


def folder_of(file: str) -> str:
    """Where a shard's tables lie; ``name=value`` is how Parquet readers know a partition."""
    return f"shard={name_of(file)}"


def finished(target: Place, folder: str) -> Done | None:
    """What is told of a finished shard; nothing where it is not."""
    body = target.read_if_there(f"{folder}/{DONE}")
    try:
        return Done.model_validate_json(body) if body is not None else None
    except ValidationError:
        return None


@lru_cache(maxsize=1)
def _own_stamps(aliases: tuple[Path, ...]) -> Stamps:
    # Once a process, as is the lexicon: a million small objects that live to the end.
    gc.set_threshold(200_000, 20, 20)
    return load_stamps(aliases=aliases)


@lru_cache(maxsize=1)
def _laid_down(names: tuple[bytes, ...]) -> tuple[Path, ...]:
    """Files of corrected names as this worker's own, until its process ends."""
    if not names:
        return ()
    folder = tempfile.mkdtemp(prefix="hikite-")
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    files = tuple(Path(folder, f"{at}.toml") for at in range(len(names)))
    for file, content in zip(files, names, strict=True):
        file.write_bytes(content)
    return files


def _through_the_stages(
    lines: tuple[ShardLine, ...], aliases: tuple[Path, ...]
) -> tuple[list[Taken], list[Refusal]]:
    taken: list[Taken] = []
    refused: list[Refusal] = []
    for line in lines:
        result = _derived(line, aliases)
        if isinstance(result, Derived):
            taken.append(Taken(result, line.places, line.sheet_sha256))
        else:
            refused += (result.model_copy(update={"path": place.path}) for place in line.places)
    return taken, refused


def _derived(line: ShardLine, aliases: tuple[Path, ...]) -> Derived | Refusal:
    if line.transcript is None or not line.places:
        path = line.places[0].path if line.places else ""
        return Refusal(path=path, reason=line.reason or "a line without a transcript")
    transcript = zlib.compress(line.transcript.model_dump_json(exclude_defaults=True).encode())
    return derive(
        Task(
            path=line.places[0].path, since="transcript", parts={"transcript": transcript},
            told=line.sheet.model_dump_json(exclude_defaults=True), aliases=aliases,
        )
    )  # fmt: skip
