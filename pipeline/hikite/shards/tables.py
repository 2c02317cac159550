"""What was read from a shard as Parquet tables, and back."""

import io
from collections import defaultdict
from typing import TYPE_CHECKING, NamedTuple, get_args, get_type_hints

from pydantic import TypeAdapter

from hikite.archive.derivations import Derived
from hikite.archive.derivations.rows import BoutRow, CompetitorRow, EventRow, RecordingRow, StatementRow
from hikite.archive.kept import Refusal
from hikite.archive.planning import Place as Held

if TYPE_CHECKING:
    import pyarrow as pa

Row = dict[str, object]
Tables = dict[str, bytes]
"""By name a Parquet file: recordings, statements, bouts, competitors, events, stages, refused."""

_ROWS: dict[str, type] = {
    "statements": StatementRow, "bouts": BoutRow, "competitors": CompetitorRow, "events": EventRow,
}  # fmt: skip
_PLACES = TypeAdapter(tuple[Held, ...])
STAGES = ("transcript", "talk", "mentions", "testimony", "ledger")


class Taken(NamedTuple):
    """One recording as it was read: the files that hold it and the hash of its bout sheet beside its rows."""

    derived: Derived
    places: tuple[Held, ...]
    sheet_sha256: str


def tables_of(taken: list[Taken], refused: list[Refusal]) -> Tables:
    """The Parquet files of a shard; every row has the ``sha256`` of its recording."""
    rows: dict[str, list[Row]] = defaultdict(list)
    for one in taken:
        derived = one.derived
        key: Row = {"sha256": derived.recording.sha256}
        places = _PLACES.dump_json(one.places).decode()
        rows["recordings"].append(
            derived.recording._asdict()
            | {"path": derived.path, "places": places, "lexicon": derived.lexicon}
            | {"sheet_sha256": one.sheet_sha256}
        )
        rows["stages"].append(key | {stage: derived.parts[stage] for stage in STAGES})
        for name, group in (
            ("statements", derived.talk), ("bouts", derived.bouts), ("competitors", derived.competitors),
            ("events", derived.events),
        ):  # fmt: skip
            rows[name] += (key | row._asdict() for row in group)
    rows["refused"] = [one.model_dump() for one in refused]
    return {name: _written(rows[name], schema) for name, schema in _schemas().items()}


def taken_from(tables: Tables) -> list[Taken]:
    """The recordings that were written, in their order."""
    stages = {row.pop("sha256"): row for row in _read(tables["stages"])}
    groups = {name: _grouped(name, tables[name]) for name in _ROWS}
    return [
        Taken(
            Derived(
                path=str(row["path"]),
                recording=RecordingRow(*(row[name] for name in RecordingRow._fields)),  # type: ignore[arg-type]
                parts=stages[row["sha256"]],  # type: ignore[arg-type]
                lexicon=str(row["lexicon"]),
                talk=tuple(groups["statements"][row["sha256"]]),  # type: ignore[arg-type]
                bouts=tuple(groups["bouts"][row["sha256"]]),  # type: ignore[arg-type]
                competitors=tuple(groups["competitors"][row["sha256"]]),  # type: ignore[arg-type]
                events=tuple(groups["events"][row["sha256"]]),  # type: ignore[arg-type]
            ),
            _PLACES.validate_json(str(row["places"])),
            str(row["sheet_sha256"]),
        )
        for row in _read(tables["recordings"])
    ]


def refused_from(tables: Tables) -> list[Refusal]:
    """The files that could not be read."""
    return [Refusal.model_validate(row) for row in _read(tables["refused"])]


def _grouped(name: str, body: bytes) -> dict[object, list[object]]:
    groups: dict[object, list[object]] = defaultdict(list)
    for row in _read(body):
        key = row.pop("sha256")
        groups[key].append(_ROWS[name](**row))
    return groups


def _schemas() -> "dict[str, pa.Schema]":
    import pyarrow as pa

    def text(*names: str) -> "list[tuple[str, pa.DataType]]":
        return [(name, pa.string()) for name in names]

    recordings = [*_columns(RecordingRow), *text("path", "places", "lexicon", "sheet_sha256")]
    return {
        "recordings": pa.schema(recordings),
        "stages": pa.schema([*text("sha256"), *((stage, pa.binary()) for stage in STAGES)]),
        **{name: pa.schema([*text("sha256"), *_columns(row)]) for name, row in _ROWS.items()},
        "refused": pa.schema(text("path", "reason")),
    }


def _columns(row: type) -> "list[tuple[str, pa.DataType]]":
    """A column for each field, of the field's type; all may be empty."""
    import pyarrow as pa

    types = {int: pa.int64(), float: pa.float64(), str: pa.string(), bool: pa.bool_()}
    hints = get_type_hints(row)
    return [(name, types[(get_args(hints[name]) or (hints[name],))[0]]) for name in row._fields]  # type: ignore[attr-defined]


def _written(rows: list[Row], schema: "pa.Schema") -> bytes:
    import pyarrow as pa
    import pyarrow.parquet as pq

    body = io.BytesIO()
    pq.write_table(pa.Table.from_pylist(rows, schema=schema), body, compression="zstd")
    return body.getvalue()


def _read(body: bytes) -> list[Row]:
    import pyarrow.parquet as pq

    rows: list[Row] = pq.read_table(io.BytesIO(body)).to_pylist()
    return rows
