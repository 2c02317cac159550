"""What an archive holds, counted."""

from pydantic import BaseModel

from hikite.archive.kept import Refusal
from hikite.archive.stores import Archive

_COUNTS = {
    "recordings": "SELECT count(*) FROM recordings",
    "hours": "SELECT round(total(duration_ms) / 3600000.0) FROM recordings",
    "statements": "SELECT count(*) FROM talk",
    "bouts": "SELECT count(*) FROM bouts",
    "people": "SELECT count(*) FROM people",
    "events": "SELECT count(*) FROM events",
    "decisions": "SELECT count(*) FROM decisions",
}


class Holdings(BaseModel, frozen=True, extra="forbid"):
    """Counts by name, the files refused, and those of recordings that are found nowhere any more."""

    counts: dict[str, int]
    refused: tuple[Refusal, ...]
    missing: tuple[str, ...]


def holdings_of(archive: Archive) -> Holdings:
    """What is there."""
    missing = archive.db.execute(
        "SELECT max(path) FROM files GROUP BY recording HAVING min(gone_since IS NOT NULL) ORDER BY 1"
    )
    return Holdings(
        counts={name: int(archive.db.execute(query).fetchone()[0]) for name, query in _COUNTS.items()},
        refused=archive.refused(),
        missing=tuple(path for (path,) in missing),
    )
