"""What to count, and which entries."""

from typing import Literal

from pydantic import BaseModel, Field

By = Literal[
    "technique", "family", "athlete", "grip", "rules", "minute", "path", "scores", "first", "comeback"
]
"""One table each; ``docs/numbers.md`` tells what their lines are."""


class Ask(BaseModel, frozen=True, extra="forbid"):
    """What a table is made of.

    ``sure`` leaves out what is less sure; ``weighted`` counts each entry by its confidence, as so much of a
    whole one. ``what`` names a technique or family, ``who`` words of an athlete's name, ``rules`` a rule set;
    ``since`` and ``until`` are days (ISO 8601). Lines that rest on fewer than ``least`` are left out.
    """

    by: By
    sure: float = Field(default=0.0, ge=0, le=1)
    weighted: bool = False
    what: str | None = None
    who: str | None = None
    rules: str | None = None
    since: str | None = Field(default=None, pattern=r"^\d{4}-\d\d-\d\d$")
    until: str | None = Field(default=None, pattern=r"^\d{4}-\d\d-\d\d$")
    least: int = Field(default=1, ge=1)
