"""What each word that opens a clause is followed by, and what that asks for."""

from collections.abc import Callable
from typing import get_args

from hikite.archive.errors import QueryError
from hikite.archive.searches.queries import Standing
from hikite.archive.searches.wordings import Words
from hikite.records import ClaimKind, Status

Given = dict[str, object]
STATUSES = frozenset(get_args(Status))
_KINDS = frozenset(get_args(ClaimKind))
_SIDES = ("red", "blue", "white")
_CLASSES = ("ippon", "waza-ari", "yuko", "koka")


def _by(words: Words) -> Given:
    if (side := words.take(*_SIDES)) is not None:
        return {"side": side}
    if (whose := words.take("same", "other")) is not None:
        return {"whose": whose}
    return {"by": words.name("a side or somebody's name")}


def _kind(words: Words) -> Given:
    kinds = [words.one_of(_KINDS, "kind")]
    while words.take("or"):
        kinds.append(words.one_of(_KINDS, "kind"))
    return {"kinds": tuple(kinds)}


def _worth(words: Words) -> Given:
    if (name := words.take(*_CLASSES)) is not None:
        return {"score_class": name}
    return {"points": words.number("points or a score's name")}


def _when(words: Words) -> Given:
    standing = words.one_of(frozenset(get_args(Standing)), "standing")
    if standing == "level" or not words.counts() or words.take("by") is None:
        return {"standing": standing}
    least = most = words.number("a number of points")
    if words.take("to"):
        return {
            "standing": standing,
            "margin_least": least,
            "margin_most": words.number("a number of points"),
        }
    if words.take("or"):
        bound = words.one_of(frozenset({"more", "less"}), "bound")
        return {"standing": standing, "margin_least" if bound == "more" else "margin_most": least}
    return {"standing": standing, "margin_least": least, "margin_most": most}


def _clock(words: Words) -> Given:
    if words.take("golden"):
        return {"golden": True}
    if words.take("under"):
        return {"clock_to_s": words.clock()}
    if words.take("over"):
        return {"clock_from_s": words.clock()}
    one = words.clock()
    if not words.take("to"):
        raise QueryError("`clock 1:00 to 0:30`, `clock under 1:00`, `clock over 3:00`", column=words.column)
    two = words.clock()
    return {"clock_from_s": min(one, two), "clock_to_s": max(one, two)}


def _on(words: Words) -> Given:
    day = words.day()
    return {"since": day, "until": day}


def _sure(words: Words) -> Given:
    column, percent = words.column, words.number("per cent", unit="%")
    if percent > 100:
        raise QueryError("per cent go from 0 to 100", column=column)
    return {"sure": percent / 100}


CLAUSES: dict[str, Callable[[Words], Given]] = {
    "against": lambda words: {"against": words.name("somebody's name")},
    "at": lambda words: {"event": words.name("words of an event's name")},
    "by": _by,
    "clock": _clock,
    "for": lambda words: {"nation": words.name("a nation")},
    "holding": lambda words: {"holding": words.names("a grip")},
    "kind": _kind,
    "on": _on,
    "said": lambda words: {"said": (words.name("what was said"),)},
    "scored": lambda words: {"scored": True},
    "since": lambda words: {"since": words.day()},
    "sure": _sure,
    "told": lambda words: {"told": True},
    "try": lambda words: {"attempt": words.number()},
    "under": lambda words: {"ruleset": words.word("a rule set")},
    "until": lambda words: {"until": words.day()},
    "when": _when,
    "worth": _worth,
}
LINKS = ("within", "after", "before")
RESERVED = frozenset({*CLAUSES, *STATUSES, *LINKS, "not", "or"})
"""Words that end a name."""
