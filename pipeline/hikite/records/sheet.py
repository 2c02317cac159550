"""What is known of a bout beforehand: a small file beside the recording, or learnt from the talk."""

from pydantic import BaseModel


class Competitor(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One side of a bout: its colour in the rules, and every way the speaker may name the person."""

    side: str
    name: str | None = None
    nation: str | None = None
    aliases: tuple[str, ...] = ()


class Cast(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Who fights from token ``first`` of the talk on, in a recording with several bouts."""

    first: int
    competitors: tuple[Competitor, ...]


class Sheet(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The bout sheet. ``ruleset`` is a file name in ``lexicon/rulesets``; ``date`` is ISO 8601."""

    competitors: tuple[Competitor, ...] = ()
    ruleset: str | None = None
    duration_s: int | None = None
    date: str | None = None
    title: str | None = None
    address: str | None = None
