"""Conditions to SQL: for each condition a term with its values, all of one event under an alias."""

from typing import NamedTuple

from hikite.archive.errors import QueryError
from hikite.archive.searches.namings import Naming, naming
from hikite.archive.searches.people import nation_of, people_of
from hikite.archive.searches.queries import Conditions
from hikite.archive.stores import Archive

HAPPENED = (
    "attempted", "broken", "completed", "failed", "given", "running", "sought", "stated", "taken",
    "threatened",
)  # fmt: skip
_STANDINGS = {"leading": 1, "level": 0, "behind": -1}

Value = str | int | float


class Term(NamedTuple):
    """A piece of a WHERE clause; ``about`` tells drivers which condition it stands for."""

    about: str
    sql: str
    values: tuple[Value, ...] = ()

    @property
    def sifts(self) -> bool:
        """Whether it compares one column, that another index than the one in use could be for."""
        called = self.sql.startswith(("EXISTS", "NOT", "abs", "coalesce", "instr"))
        return self.sql[0].isalpha() and not called and self.about != "day"


class Compiled(NamedTuple):
    """The terms of one event and how the names in it were understood."""

    terms: tuple[Term, ...]
    namings: tuple[Naming, ...]

    def of(self, *about: str) -> tuple[Term, ...]:
        """The terms that stand for these conditions."""
        return tuple(term for term in self.terms if term.about in about)


def compile_conditions(archive: Archive, asked: Conditions, alias: str) -> Compiled:
    """The terms that one event must meet; QueryError for a name that means nothing."""
    what = tuple(naming(archive, name) for name in asked.what)
    grips = tuple(naming(archive, name) for name in asked.holding)
    terms = [
        *_names(alias, what, grips),
        *_kinds(alias, asked),
        *_people(archive, alias, asked),
        *_score(alias, asked),
        *_clock(alias, asked),
        *_sureness(alias, asked),
        *_words(alias, asked),
    ]
    for one in asked.but_not:
        within = compile_conditions(archive, one.model_copy(update={"told": True}), alias)
        own = [term for term in within.terms if term.about not in ("head", "told")]
        if not own:
            raise QueryError("there is nothing said of what is to be left out")
        both = " AND ".join(f"coalesce({term.sql}, 0)" for term in own)
        terms.append(Term("but_not", f"NOT ({both})", tuple(v for term in own for v in term.values)))
        what += within.namings
    return Compiled(tuple(terms), (*what, *grips))


def phrases(said: tuple[str, ...]) -> str:
    """Phrases for the index of words: all must be there, each with its words in a row.

    QueryError where there is no word in them.
    """
    found = [" ".join("".join(c if c.isalnum() else " " for c in one).split()) for one in said]
    if not all(found):
        raise QueryError("there is no word in what is to have been said")
    return " AND ".join(f'"{one}"' for one in found)


def _among(column: str, values: tuple[Value, ...]) -> str:
    return f"{column} IN ({', '.join('?' * len(values))})"


def _names(alias: str, what: tuple[Naming, ...], grips: tuple[Naming, ...]) -> list[Term]:
    terms = []
    if what:
        meant = tuple(dict.fromkeys(concept for one in what for concept in one.meant))
        terms.append(Term("what", _among(f"{alias}.concept", meant), meant))
    if grips:
        held = tuple(dict.fromkeys(concept for one in grips for concept in one.meant))
        either = " OR ".join(f"instr({alias}.grips, ?)" for _ in held)
        terms.append(Term("holding", f"({either})", tuple(f"|{grip}|" for grip in held)))
    return terms


def _kinds(alias: str, asked: Conditions) -> list[Term]:
    terms = [
        Term("kinds", _among(f"{alias}.kind", asked.kinds), asked.kinds)
        if asked.kinds
        else Term("head", f"{alias}.head = 1")
    ]
    if asked.status:
        terms.append(Term("status", _among(f"{alias}.status", asked.status), asked.status))
    elif not asked.told:
        terms.append(Term("told", _among(f"{alias}.status", HAPPENED), HAPPENED))
    return terms


def _people(archive: Archive, alias: str, asked: Conditions) -> list[Term]:
    terms = [Term("side", f"{alias}.side = ?", (asked.side,))] if asked.side else []
    for name, column, words in (("by", "person", asked.by), ("against", "opponent", asked.against)):
        if words is not None:
            ids = people_of(archive, words)
            terms.append(Term(name, _among(f"{alias}.{column}", ids), ids))
    if asked.nation is not None:
        nation = nation_of(archive, asked.nation)
        terms.append(Term("nation", f"{alias}.nation = ? AND {alias}.nation <> ''", (nation,)))
    return terms


def _score(alias: str, asked: Conditions) -> list[Term]:
    terms = []
    if asked.scored is not None:
        terms.append(Term("scored", f"{alias}.scored = ?", (int(asked.scored),)))
    if asked.points is not None:
        sql = f"{alias}.scored = 1 AND coalesce({alias}.gained, {alias}.points) = ?"
        terms.append(Term("points", sql, (asked.points,)))
    if asked.score_class is not None:
        sql = f"{alias}.scored = 1 AND coalesce({alias}.gained_class, {alias}.score_class) = ?"
        terms.append(Term("score_class", sql, (asked.score_class,)))
    if asked.standing is not None:
        terms.append(Term("standing", f"{alias}.standing = ?", (_STANDINGS[asked.standing],)))
    for sign, margin in ((">=", asked.margin_least), ("<=", asked.margin_most)):
        if margin is not None:
            terms.append(Term("margin", f"abs({alias}.lead) {sign} ?", (margin,)))
    if asked.attempt is not None:
        terms.append(Term("attempt", f"{alias}.attempt = ?", (asked.attempt,)))
    return terms


def _clock(alias: str, asked: Conditions) -> list[Term]:
    terms = []
    for sign, seconds in ((">=", asked.clock_from_s), ("<=", asked.clock_to_s)):
        if seconds is not None:
            terms.append(Term("clock", f"{alias}.clock_best_s {sign} ?", (seconds,)))
    golden = asked.golden if asked.golden is not None or not terms else False
    if golden is not None:
        terms.append(Term("golden", f"coalesce({alias}.golden, 0) = ?", (int(golden),)))
    return terms


def _sureness(alias: str, asked: Conditions) -> list[Term]:
    if asked.sure is None:
        return []
    columns = ["confidence"]
    columns += ["side_confidence"] if asked.side or asked.by or asked.against or asked.nation else []
    columns += ["status_confidence"] if asked.status else []
    return [Term("sure", f"{alias}.{column} >= ?", (asked.sure,)) for column in columns]


def _words(alias: str, asked: Conditions) -> list[Term]:
    if not asked.said:
        return []
    within = f"{alias}.statement IN (SELECT rowid FROM talk_words WHERE talk_words MATCH ?)"
    return [Term("said", within, (phrases(asked.said),))]
