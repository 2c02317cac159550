"""Searches written down: clauses of plain words, each opened by one that says what follows.

    expression = step { [ "within" number ( "s" | "min" ) ] ( "after" | "before" ) step }
    step       = { [ "not" ] clause }
    clause     = name { "or" name } | status | opener … (``CLAUSES`` has them all)

A name runs to the next word that opens something; in quotation marks it may hold such words itself.
"""

import re
from collections.abc import Callable
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from hikite.archive.errors import QueryError
from hikite.archive.searches.clauses import CLAUSES, LINKS, RESERVED, STATUSES, Given
from hikite.archive.searches.queries import Conditions, Link, Query
from hikite.archive.searches.wordings import Words

Made = TypeVar("Made", bound=BaseModel)

_OF_THE_RECORDING = frozenset({"ruleset", "event", "since", "until"})
_SEVERAL = frozenset({"status", "kinds", "said", "but_not"})


def read_expression(text: str, knows: Callable[[str], bool] = lambda name: False) -> Query:
    """The query that an expression means; QueryError with the column where it means none.

    ``knows`` tells names, so that one may hold a word that else opens a clause: `arm under`.
    """
    words = Words(text, RESERVED, knows)
    given = _step(words)
    links = []
    while words.left:
        links.append(_link(words))
    if not given:
        raise QueryError("there is nothing to look for here", column=1)
    if "whose" in given:
        raise QueryError("`by same` and `by other` belong after an `after` or `before`", column=1)
    return _made(Query, {**given, "links": tuple(links)}, 1)


def read_after(text: str, knows: Callable[[str], bool] = lambda name: False) -> Link:
    """What an event came after: the clauses of that other event; QueryError where they mean none."""
    words = Words(f"after {text}", RESERVED, knows)
    link = _link(words)
    if words.left:
        raise QueryError("only one other event can be told here")
    return link


def _link(words: Words) -> Link:
    column, within = words.column, None
    if words.take("within"):
        within = _seconds(words)
    relation = words.take("after", "before")
    if relation is None:
        raise QueryError("`after` or `before` is wanted here", column=words.column)
    opened = words.column
    given = _step(words)
    whose = given.pop("whose", None)
    if _OF_THE_RECORDING & given.keys():
        raise QueryError(f"what is of the whole recording belongs before `{relation}`", column=opened)
    if not given:
        raise QueryError(f"something that it came {relation} is wanted here", column=opened)
    step = _made(Conditions, given, opened)
    return _made(Link, {"relation": relation, "step": step, "within_s": within, "whose": whose}, column)


def _seconds(words: Words) -> float:
    column, word = words.column, words.word("a time")
    found = re.fullmatch(r"(\d+(?:\.\d+)?)(s|min)?", word, re.ASCII)
    unit = found and (found[2] or words.take("s", "min"))
    if found is None or unit is None:
        raise QueryError("a time is like `10 s` or `2 min`", column=column)
    return float(found[1]) * (60 if unit == "min" else 1)


def _step(words: Words) -> Given:
    """All clauses to the next link."""
    given: Given = {}
    while words.left and not words.opens(LINKS):
        column = words.column
        if words.take("not"):
            more: Given = {"but_not": (_without(words, column),)}
        else:
            more = _clause(words)
        for name, value in more.items():
            before = given.get(name)
            if name in given and name not in _SEVERAL:
                raise QueryError("this was said already; between names stands `or`", column=column)
            joins = isinstance(before, tuple) and isinstance(value, tuple)
            given[name] = (*before, *value) if joins else value  # type: ignore[misc]
    return given


def _without(words: Words, column: int) -> Conditions:
    given = _clause(words)
    if (_OF_THE_RECORDING | {"whose", "told"}) & given.keys():
        raise QueryError("this cannot be left out with `not`", column=column)
    return _made(Conditions, given, column)


def _clause(words: Words) -> Given:
    """The next clause; a word that opens none begins a name."""
    if not words.left:
        raise QueryError("something more is wanted here", column=words.column)
    if words.opens(STATUSES):
        return {"status": (words.word("a status"),)}
    if words.opens(frozenset(CLAUSES)):
        return CLAUSES[words.word("")](words)
    if words.opens(RESERVED):
        column, word = words.column, words.word("")
        raise QueryError(
            f"`{word}` is out of place; a name that holds it wants quotation marks", column=column
        )
    return {"what": words.names("a name")}


def _made(model: type[Made], given: Given, column: int) -> Made:
    try:
        return model.model_validate(given)
    except ValidationError as error:
        first = error.errors()[0]
        raise QueryError(f"{'.'.join(map(str, first['loc']))}: {first['msg']}", column=column) from None
