"""What stands in a shard: one transcript a line, with its bout sheet and where its file lies."""

import gzip
import io
import zlib

from pydantic import BaseModel, ValidationError

from hikite.archive.planning import Place as Held
from hikite.records import Sheet, Transcript
from hikite.shards.errors import ShardError

ENDINGS = (".jsonl", ".jsonl.gz", ".parquet")


class ShardLine(BaseModel, frozen=True, extra="forbid"):
    """One recording: the files that hold it, the first of them read; or the ``reason`` it cannot be read for.

    ``sheet`` is its bout sheet as given, ``sheet_sha256`` the hash of that file's bytes.
    """

    places: tuple[Held, ...]
    transcript: Transcript | None = None
    sheet: Sheet = Sheet()
    sheet_sha256: str = ""
    reason: str | None = None


def name_of(file: str) -> str:
    """A shard's name: its file's without the ending; empty where the file is no shard."""
    for ending in ENDINGS:
        if file.endswith(ending) and not file.startswith("."):
            return file.removesuffix(ending)
    return ""


def packed(lines: list[ShardLine]) -> bytes:
    """Lines as a ``.jsonl.gz`` file; the same lines give the same bytes."""
    text = "".join(line.model_dump_json(exclude_defaults=True) + "\n" for line in lines)
    return gzip.compress(text.encode(), mtime=0)


def lines_of(file: str, body: bytes) -> tuple[ShardLine, ...]:
    """The lines of a shard; ShardError, with the line, where it is not one."""
    try:
        if file.endswith(".parquet"):
            return tuple(_from_table(body))
        text = gzip.decompress(body) if file.endswith(".gz") else body
    except (OSError, EOFError, ValueError, KeyError, zlib.error) as error:
        raise ShardError(f"is no shard: {error}", file=file) from None
    lines = []
    for number, line in enumerate(text.split(b"\n"), 1):
        if line.strip():
            try:
                lines.append(ShardLine.model_validate_json(line))
            except ValidationError as error:
                first = error.errors()[0]
                where = ".".join(map(str, first["loc"]))
                raise ShardError(f"{where}: {first['msg']}".lstrip(": "), file=file, line=number) from None
    return tuple(lines)


def _from_table(body: bytes) -> list[ShardLine]:
    """Parquet: columns ``path`` and ``transcript`` (JSON), perhaps ``sheet`` (JSON), ``sheet_sha256``."""
    import pyarrow.parquet as pq

    return [
        ShardLine(
            places=(Held(path=row["path"]),),
            transcript=Transcript.model_validate_json(row["transcript"]),
            sheet=Sheet.model_validate_json(row.get("sheet") or "{}"),
            sheet_sha256=row.get("sheet_sha256") or "",
        )
        for row in pq.read_table(io.BytesIO(body)).to_pylist()
    ]
