"""The ways to come to an event: each leads from an index, and answers some of the terms by it."""

from typing import NamedTuple

from hikite.archive.searches.compiling import Compiled, Term, Value
from hikite.archive.searches.queries import Link
from hikite.archive.stores import Archive

PROMISES = (2_000, 20_000)
"""How far the rows of the ways are counted: to the first, and where all promise more, to the second."""
_SCORED = ("0, 1", "1")
_FEW = 40
"""More names and statuses than these are quicker sifted than looked up one by one for each person."""


class Driver(NamedTuple):
    """A FROM clause that ends in the events ``e``, with the terms that its index answers.

    ``answers`` are the conditions that need not be asked again, ``link`` the number of a link likewise;
    ``doubles`` says that it may come to an event twice. ``order`` is one that costs nothing here.
    """

    source: str
    terms: tuple[Term, ...]
    answers: tuple[str, ...] = ()
    link: int | None = None
    doubles: bool = False
    order: str = ""


def best_driver(
    archive: Archive, terms: Compiled, links: tuple[tuple[Link, Compiled], ...], title: Term | None
) -> Driver:
    """The driver that promises the fewest rows; counting stops where it is no longer worth it.

    ``title`` is the condition on the recording's title, which leads to all events of the recordings.
    """
    ways = [(way, way, 1) for way in _drivers(terms, "e")]
    ways += [(way, way, 1) for way in _of_title(title)]
    for at, (link, step) in enumerate(links):
        for first in _drivers(step, f"l{at}"):
            # Each leads to the events around it, of which there are some.
            ways.append((_tied(first, link_term(link, step, f"l{at}"), at), first, 4))
    for most in PROMISES:
        best, fewest = ways[0][0], most
        for way, counted, around in ways:
            count = around * _count(archive, counted, fewest // around + 1)
            if count < fewest:
                best, fewest = way, count
        if fewest < most:
            return best
    # All lead to many. Words first, for to look each event up among them is dear; then what is rarer.
    return next((way for way, _, _ in ways if "said" in way.answers), ways[min(1, len(ways) - 1)][0])


def _of_title(title: Term | None) -> list[Driver]:
    """From the recordings of a title to their events, which lie side by side."""
    if title is None:
        return []
    source = "recordings r CROSS JOIN events e NOT INDEXED ON e.id >= r.id << 20 AND e.id < (r.id + 1) << 20"
    return [Driver(source, (title._replace(sql=title.sql.replace("e.recording", "r.id")),), ("event",))]


def _tied(first: Driver, tie: Term, at: int) -> Driver:
    """From the event of a link to those it is tied to."""
    source = f"{first.source} CROSS JOIN events e INDEXED BY events_bout ON e.bout = l{at}.bout"
    return Driver(source, (*first.terms, tie), link=at, doubles=True)


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
    rest = sifting(step.terms)
    return Term("link", f"{' AND '.join(ties)} AND {rest.sql}", values + rest.values)


def sifting(terms: tuple[Term, ...]) -> Term:
    """All terms as one that steers no index: SQLite's way to say so is a plus before the column."""
    return joined(tuple(term._replace(sql=f"+{term.sql}") if term.sifts else term for term in terms))


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
    """The ways to the event that its terms open; the first leads to every event that they do not forbid."""
    what, how = terms.of("what"), terms.of("status", "told", "side", "standing", "clock")
    if what:
        ways = [Driver(f"events {alias} INDEXED BY events_what", (*what, *how), _abouts(what, how))]
    else:
        scored = terms.of("scored") or (Term("", f"{alias}.scored IN ({_SCORED[bool(terms.of('points'))]})"),)
        ways = [Driver(f"events {alias} INDEXED BY events_how", (*scored, *how), _abouts(scored, how))]
    acts = (*what, *terms.of("status", "told"))
    if sum(len(term.values) for term in acts) > _FEW:
        acts = ()
    for name, index in (("by", "events_person"), ("against", "events_opponent")):
        if terms.of(name):
            whose = (*terms.of(name), *acts)
            ways.append(Driver(f"events {alias} INDEXED BY {index}", whose, _abouts(whose)))
    for term in terms.of("nation"):
        # Its people first; that they fought for it in this bout is asked of each event again.
        people = f"{alias}.person IN (SELECT person FROM competitors WHERE folded_nation = ?)"
        nation = (Term("", people, term.values), *acts)
        ways.append(Driver(f"events {alias} INDEXED BY events_person", nation, _abouts(acts)))
    for term in terms.of("attempt"):
        if int(term.values[0]) > 1:
            again = (Term("", f"{alias}.attempt > 1"), term, *what)
            ways.append(Driver(f"events {alias} INDEXED BY events_attempt", again, _abouts(what)))
    for term in terms.of("holding"):
        grips = tuple(str(value).strip("|") for value in term.values)
        held = Term("", f"h{alias}.grip IN ({', '.join('?' * len(grips))})", grips)
        source = f"held h{alias} CROSS JOIN events {alias} NOT INDEXED ON {alias}.id = h{alias}.event"
        ways.append(Driver(source, (held,), ("holding",), doubles=True))
    for term in terms.of("said"):
        source = (
            f"talk_words w{alias} CROSS JOIN events {alias} INDEXED BY events_statement"
            f" ON {alias}.statement = w{alias}.rowid"
        )
        match = (Term("", f"w{alias}.talk_words MATCH ?", term.values),)
        ways.append(Driver(source, match, ("said",), order=f"ORDER BY w{alias}.rowid DESC"))
    return ways


def _abouts(*terms: tuple[Term, ...]) -> tuple[str, ...]:
    return tuple(term.about for some in terms for term in some if term.about)
