"""What may be asked of an archive."""

from typing import Annotated, Literal

from pydantic import BaseModel, Field

from hikite.records import ClaimKind, Status

Standing = Literal["leading", "level", "behind"]
Order = Literal["newest", "oldest", "surest"]
Share = Annotated[float, Field(ge=0, le=1)]
Whole = Annotated[int, Field(ge=0)]
Day = Annotated[str, Field(pattern=r"^\d{4}-\d\d-\d\d$")]


class Conditions(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """What one event must be; of several names, statuses or kinds any one.

    Names of techniques, grips and calls are in any spelling or tradition, or what was heard of them; a
    family's name means all its members. ``by`` and ``against`` are words of a competitor's name.
    ``points`` and ``score_class`` are what the action brought, or what was awarded. ``standing`` and
    the lead it was by (``margin_*``, in points) are as the acting side had it before. The clock is in
    seconds left, in golden score those gone. ``attempt`` counts tries of the same technique by one side in
    a bout. ``sure`` is the least confidence of the entry, and of its side and status where those are asked.
    ``said`` are phrases of the statement. Only what happened is found, unless ``told`` or a ``status`` asks
    for recaps, suppositions and denials too. ``but_not`` are conditions none of which holds.
    """

    what: tuple[str, ...] = ()
    kinds: tuple[ClaimKind, ...] = ()
    status: tuple[Status, ...] = ()
    side: Literal["red", "blue", "white"] | None = None
    by: str | None = None
    against: str | None = None
    nation: str | None = None
    holding: tuple[str, ...] = ()
    scored: bool | None = None
    points: Whole | None = None
    score_class: Literal["ippon", "waza-ari", "yuko", "koka"] | None = None
    standing: Standing | None = None
    margin_least: Whole | None = None
    margin_most: Whole | None = None
    clock_from_s: Whole | None = None
    clock_to_s: Whole | None = None
    golden: bool | None = None
    attempt: Annotated[int, Field(ge=1)] | None = None
    sure: Share | None = None
    said: tuple[str, ...] = ()
    told: bool = False
    but_not: tuple["Conditions", ...] = ()


class Link(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Another event of the same bout, that the one found came ``after`` or ``before``.

    ``within_s`` is the longest time between their beginnings; ``whose`` says whether the same side acted.
    """

    relation: Literal["after", "before"]
    step: Conditions
    within_s: Annotated[float, Field(gt=0)] | None = None
    whose: Literal["same", "other"] | None = None


class Query(Conditions, frozen=True, extra="forbid", defer_build=True):
    """What to find, in which recordings, in which order; ``limit`` hits from number ``skip`` on."""

    links: tuple[Link, ...] = ()
    ruleset: str | None = None
    event: str | None = None
    since: Day | None = None
    until: Day | None = None
    order: Order = "newest"
    limit: Annotated[int, Field(ge=1, le=10_000)] = 50
    skip: Whole = 0

    @property
    def of_talk(self) -> bool:
        """Whether it asks for nothing but words: then statements are found, with or without an event."""
        beside = {"said", "ruleset", "event", "since", "until", "order", "limit", "skip", "told"}
        plain = type(self)()
        return bool(self.said) and all(
            getattr(self, name) == getattr(plain, name)
            for name in type(self).model_fields
            if name not in beside
        )
