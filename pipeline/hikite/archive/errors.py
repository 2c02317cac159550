"""What the archive refuses, each in one line."""

from hikite.errors import HikiteError


class ArchiveError(HikiteError):
    """An archive that cannot be opened, is no archive, or is from a later version."""


class QueryError(HikiteError):
    """A search that cannot be understood; ``column`` counts from 1 where an expression is at fault."""

    def __init__(self, problem: str, *, column: int | None = None) -> None:
        self.column = column
        super().__init__(problem if column is None else f"column {column}: {problem}")
