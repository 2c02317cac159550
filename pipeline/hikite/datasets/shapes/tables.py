"""Parquet tables: recordings, bouts and labels, joined by ``recording`` and ``bout``."""

from pathlib import Path
from types import UnionType
from typing import TYPE_CHECKING, Literal, get_args, get_origin

from pydantic import BaseModel

from hikite.datasets.errors import DatasetError
from hikite.datasets.examples import Example
from hikite.datasets.rows import BoutRow, RecordingRow, SpanRow, bout_rows, recording_row, span_row
from hikite.datasets.shapes.shape import Writer

if TYPE_CHECKING:
    import pyarrow

_TABLES: dict[str, type[BaseModel]] = {"recordings": RecordingRow, "bouts": BoutRow, "labels": SpanRow}
_GROUP = 50_000
"""So many rows lie in memory, and together in a file's row group."""


class TablesWriter(Writer):
    """``tables/recordings.parquet``, ``bouts.parquet``, ``labels.parquet``."""

    def __init__(self, folder: Path, language: str) -> None:
        try:
            import pyarrow.parquet
        except ImportError:
            raise DatasetError("tables need pyarrow: pip install 'hikite[tables]'") from None
        super().__init__(folder, language)
        self._schemas = {name: _schema(row) for name, row in _TABLES.items()}
        self._files = {
            name: pyarrow.parquet.ParquetWriter(folder / f"{name}.parquet", schema, compression="zstd")
            for name, schema in self._schemas.items()
        }
        self._rows: dict[str, list[dict[str, object]]] = {name: [] for name in _TABLES}

    def write(self, example: Example) -> None:
        """The rows of one recording."""
        rows: dict[str, tuple[BaseModel, ...]] = {
            "recordings": (recording_row(example),),
            "bouts": bout_rows(example),
            "labels": tuple(span_row(example, entry) for entry in example.entries),
        }
        for name, found in rows.items():
            self._rows[name] += [row.model_dump() for row in found]
            if len(self._rows[name]) >= _GROUP:
                self._put(name)

    def close(self) -> None:
        """What is held is written and the files are ended."""
        for name, file in self._files.items():
            self._put(name)
            file.close()

    def _put(self, name: str) -> None:
        import pyarrow

        self._files[name].write_table(pyarrow.Table.from_pylist(self._rows[name], schema=self._schemas[name]))
        self._rows[name] = []


def _schema(row: type[BaseModel]) -> "pyarrow.Schema":
    """Arrow's types of a row's fields; what may be None is nullable."""
    import pyarrow

    types: dict[object, pyarrow.DataType] = {
        bool: pyarrow.bool_(),
        int: pyarrow.int64(),
        float: pyarrow.float64(),
        str: pyarrow.string(),
    }
    fields = []
    for name, field in row.model_fields.items():
        annotation = field.annotation
        options = get_args(annotation) if isinstance(annotation, UnionType) else (annotation,)
        plain = next(option for option in options if option is not type(None))
        kind = str if get_origin(plain) is Literal else plain
        fields.append(pyarrow.field(name, types[kind], nullable=type(None) in options))
    return pyarrow.schema(fields)
