"""Records made without a check, by the thousand, of values that the code right there has worked out."""

from collections.abc import Iterable
from typing import TypeVar

from pydantic import BaseModel

Record = TypeVar("Record", bound=BaseModel)


def made(kind: type[Record], rows: Iterable[dict[str, object]]) -> tuple[Record, ...]:
    """A record of each row, which has every field and each of the right type: nobody looks.

    For words and tokens alone: to check all of them takes longer than to find them.
    """
    new, put, known = kind.__new__, object.__setattr__, set(kind.model_fields)
    records = []
    for row in rows:
        record = new(kind)
        put(record, "__dict__", row)
        put(record, "__pydantic_fields_set__", known)
        put(record, "__pydantic_extra__", None)
        put(record, "__pydantic_private__", None)
        records.append(record)
    return tuple(records)
