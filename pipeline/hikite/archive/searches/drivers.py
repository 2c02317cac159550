"""The ways to come to an event: each leads from an index, and answers some of the terms by it."""

from typing import NamedTuple

from hikite.archive.searches.compiling import Compiled, Term, Value
from hikite.archive.searches.queries import Link
from hikite.archive.stores import Archive

PROMISE = 20_000
"""How far the rows of an index are counted before one that leads to fewer is chosen."""


class Driver(NamedTuple):
    """A FROM clause that ends in the events ``e``, with the terms that its index answers.

    ``answers`` are the conditions that need not be asked again, ``link`` the number of a link likewise.
    """

    source: str
    terms: tuple[Term, ...]
    answers: tuple[str, ...] = ()
    link: int | None = None


def best_driver(archive: Archive, terms: Compiled, links: tuple[tuple[Link, Compiled], ...]) -> Driver:
    """The driver that promises the fewest rows; counting stops where it is no longer worth it."""
    best, fewest = Driver("events e INDEXED BY events_day", ()), PROMISE
    for driver in _drivers(terms, "e"):
        count = _count(archive, driver, fewest)
        if count < fewest:
            best, fewest = driver, count
    for at, (link, step) in enumerate(links):
        alias = f"l{at}"
        for driver in _drivers(step, alias):
            # Each leads to the events around it, of which there are some.
            count = 4 * _count(archive, driver, fewest // 4 + 1)
            if count < fewest:
                tie = link_term(link, step, alias)
                source = (
                    f"{driver.source} CROSS JOIN events e INDEXED BY events_bout ON e.bout = {alias}.bout"
                )
                best, fewest = Driver(source, (*driver.terms, tie), (), at), count
    return best


def link_term(link: Link, step: Compiled, alias: str) -> Term:
    """What ties the event of a link to the one searched for, ``e``."""
    early, late = (alias, "e") if link.relation == "after" else ("e", alias)
    ties = [f"{alias}.bout = e.bout", f"{early}.id < {late}.id", f"{alias}.moment <> e.moment"]
    values: tuple[Value, ...] = ()
    if link.within_s is not None:
        # Both bounds, of both: whichever of the two events is come to first, the other is found by its time.
        ms = round(link.within_s * 1000)
        ties += [
            f"{early}.start_ms BETWEEN {late}.start_ms - ? AND {late}.start_ms",
            f"{late}.start_ms BETWEEN {early}.start_ms AND {early}.start_ms + ?",
        ]
        values = (ms, ms)
    if link.whose is not None:
        ties.append(f"{alias}.side {'=' if link.whose == 'same' else '<>'} e.side")
    rest = joined(step.terms)
    return Term("link", f"{' AND '.join(ties)} AND {rest.sql}", values + rest.values)


def joined(terms: tuple[Term, ...]) -> Term:
    """All terms as one."""
    return Term(
        "", " AND ".join(term.sql for term in terms) or "1", tuple(v for t in terms for v in t.values)
    )


def _count(archive: Archive, driver: Driver, most: int) -> int:
    where = joined(driver.terms)
    row = archive.db.execute(
        f"SELECT count(*) FROM (SELECT 1 FROM {driver.source} WHERE {where.sql} LIMIT ?)",
        (*where.values, most),
    ).fetchone()
    return int(row[0])


def _drivers(terms: Compiled, alias: str) -> list[Driver]:
    """The ways to the event that its terms open."""
    ways = []
    how = terms.of("status", "told", "side", "standing", "clock")
    if terms.of("what"):
        ways.append(Driver(f"events {alias} INDEXED BY events_what", (*terms.of("what"), *how), _abouts(how)))
    elif terms.of("standing", "status", "scored"):
        scored = terms.of("scored") or (Term("", f"{alias}.scored IN (0, 1)"),)
        ways.append(Driver(f"events {alias} INDEXED BY events_how", (*scored, *how), _abouts(how)))
    for name, index in (("by", "events_person"), ("against", "events_opponent")):
        if terms.of(name):
            ways.append(Driver(f"events {alias} INDEXED BY {index}", terms.of(name), (name,)))
    for term in terms.of("holding"):
        grips = tuple(str(value).strip("|") for value in term.values)
        held = Term("", f"h{alias}.grip IN ({', '.join('?' * len(grips))})", grips)
        source = f"held h{alias} CROSS JOIN events {alias} ON {alias}.id = h{alias}.event"
        ways.append(Driver(source, (held,), ("holding",)))
    for term in terms.of("said"):
        source = (
            f"talk_words w{alias} CROSS JOIN events {alias} INDEXED BY events_statement"
            f" ON {alias}.statement = w{alias}.rowid"
        )
        ways.append(Driver(source, (Term("", f"w{alias}.talk_words MATCH ?", term.values),), ("said",)))
    return ways


def _abouts(terms: tuple[Term, ...]) -> tuple[str, ...]:
    return ("what", "scored", *(term.about for term in terms))
