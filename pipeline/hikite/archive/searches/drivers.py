"""The ways to come to an event: each leads from an index, and answers some of the terms by it."""

from typing import NamedTuple

from hikite.archive.searches.compiling import Compiled, Term, Value
from hikite.archive.searches.queries import Link
from hikite.archive.searches.tallies import Tallies
from hikite.archive.stores import Archive

_SEEK, _READ, _LOOK, _PASS, _APART_S, _ALL = 2, 4, 4, 1.2, 6, 25
"""To begin at another place of an index costs so many times what going on by one entry does; so does to read
an event's own row; so does to look for another event of its bout, and each one that is passed there. Events
lie about so many seconds apart; so many there are in half a bout. Measured on a million events."""
_SCORED = ("0, 1", "1")


class Driver(NamedTuple):
    """A FROM clause that ends in the events ``e``, with the terms that its index answers.

    ``rows`` is about how many events it comes to, ``cost`` what that takes, 1 for an entry of an index.
    ``answers`` are the conditions that need not be asked again, ``link`` the number of a link likewise;
    ``doubles`` says that it may come to an event twice. ``order`` is one that costs nothing here.
    """

    source: str
    terms: tuple[Term, ...]
    rows: float
    cost: float
    answers: tuple[str, ...] = ()
    link: int | None = None
    doubles: bool = False
    order: str = ""


def drivers(
    archive: Archive, terms: Compiled, links: tuple[tuple[Link, Compiled], ...], titled: Term | None
) -> list[Driver]:
    """Every way there is, at least one; ``titled`` is the condition on the recording, by its number."""
    tallies = Tallies(archive)
    ways = list(_drivers(terms, "e", tallies))
    if titled is not None:
        ways.append(_of_recordings(titled, tallies))
    for link, _ in links:
        looks = _LOOK + _PASS * _around(link)
        # Only what meets everything else is looked around.
        whole = tallies.all * tallies.share(terms, *(term.about for term in terms.terms))
        ways = [way._replace(cost=way.cost + looks * min(way.rows, whole)) for way in ways]
    tied = [
        _tied(first, link_term(link, step, f"l{at}"), at, _around(link))
        for at, (link, step) in enumerate(links)
        for first in _drivers(step, f"l{at}", tallies)
    ]
    return ways + tied


def _around(link: Link) -> float:
    """How many events lie where a link's may."""
    return min((link.within_s or 1_000) / _APART_S, _ALL)


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


def _of_recordings(titled: Term, tallies: Tallies) -> Driver:
    """From recordings to their events, which lie side by side."""
    source = "recordings r CROSS JOIN events e NOT INDEXED ON e.id >= r.id << 20 AND e.id < (r.id + 1) << 20"
    term = titled._replace(sql=titled.sql.replace("(e.id >> 20)", "r.id"))
    rows = tallies.of_recordings(len(titled.values))
    return Driver(source, (term,), rows, rows, ("event",))


def _tied(first: Driver, tie: Term, at: int, around: float) -> Driver:
    """From the event of a link to those it is tied to."""
    source = f"{first.source} CROSS JOIN events e INDEXED BY events_bout ON e.bout = l{at}.bout"
    cost = first.cost + (_LOOK + _PASS * around) * first.rows
    return Driver(source, (*first.terms, tie), first.rows, cost, link=at, doubles=True)


def _drivers(terms: Compiled, alias: str, tallies: Tallies) -> list[Driver]:
    """The ways to the event that its terms open; there is always one."""
    what, status = terms.of("what"), terms.of("status", "told")
    how = terms.of("status", "told", "side", "standing", "clock")
    acts, some = (*what, *status), tallies.share(terms, "what", "status", "told")
    ways = []
    if what:
        rows = tallies.rows(terms, "what", "status", "told", "side", "standing", "clock")
        cost = rows + _SEEK * len(what[0].values) * len(status[0].values if status else "1")
        source = f"events {alias} INDEXED BY events_what"
        ways.append(Driver(source, (*what, *how), rows, cost, _abouts(what, how)))
    if not what or terms.of("scored"):
        scored = terms.of("scored") or (Term("", f"{alias}.scored IN ({_SCORED[bool(terms.of('points'))]})"),)
        rows = tallies.rows(terms, "scored", "points", "status", "told", "side", "standing", "clock")
        source = f"events {alias} INDEXED BY events_how"
        ways.append(Driver(source, (*scored, *how), rows, rows, _abouts(scored, how)))
    for name, index in (("by", "events_person"), ("against", "events_opponent")):
        for term in terms.of(name):
            few = len(acts) > 1 and len(what[0].values) * len(status[0].values) <= 40 if what else False
            whose = (term, *acts) if few else (term,)
            rows = tallies.of_people(len(term.values)) * (some if few else 1)
            source = f"events {alias} INDEXED BY {index}"
            ways.append(Driver(source, whose, rows, _READ * rows, _abouts(whose)))
    for term in terms.of("nation"):
        nation = (term, *what, *how) if what else (term,)
        rows = tallies.rows(terms, "nation") * (tallies.share(terms, *_abouts(what, how)) if what else 1)
        source = f"events {alias} INDEXED BY events_nation"
        ways.append(Driver(source, nation, rows, rows, _abouts(nation)))
    for term in terms.of("holding"):
        ways.append(_holding(term, terms, alias, tallies))
    for term in terms.of("attempt"):
        if int(term.values[0]) > 1:
            again = (Term("", f"{alias}.attempt > 1"), term, *what)
            rows = tallies.rows(terms, "attempt", "what")
            source = f"events {alias} INDEXED BY events_attempt"
            ways.append(Driver(source, again, rows, rows, _abouts(what)))
    for term in terms.of("said"):
        ways.append(_saying(term, alias, tallies))
    return ways


def _holding(term: Term, terms: Compiled, alias: str, tallies: Tallies) -> Driver:
    """From the grip to the events at which it was held; what stands beside it is asked there."""
    grips = tuple(str(value).strip("|") for value in term.values)
    beside = terms.of("what", "status", "told", "side", "standing", "clock", "scored", "head")
    leads = terms.of("what", "status", "told") if terms.of("what") else ()
    held = [Term("", f"h{alias}.grip IN ({', '.join('?' * len(grips))})", grips)]
    for one in beside:
        sql = one.sql.replace(f"{alias}.", f"h{alias}.")
        held.append(Term("", sql if one in leads else f"+{sql}", one.values))
    for one in terms.of("sure"):
        # How sure side and status are is asked of the event.
        if one.sql.startswith(f"{alias}.confidence"):
            held.append(Term("", f"+h{one.sql}", one.values))
    rows = tallies.rows(terms, "holding", *_abouts(leads))
    few = tallies.rows(terms, "holding", *_abouts(beside))
    source = f"held h{alias} CROSS JOIN events {alias} NOT INDEXED ON {alias}.id = h{alias}.event"
    return Driver(source, tuple(held), few, rows + _READ * few, ("holding", *_abouts(beside)), doubles=True)


def _saying(term: Term, alias: str, tallies: Tallies) -> Driver:
    source = (
        f"talk_words w{alias} CROSS JOIN events {alias} INDEXED BY events_statement"
        f" ON {alias}.statement = w{alias}.rowid"
    )
    match = (Term("", f"w{alias}.talk_words MATCH ?", term.values),)
    # A look from each event into the index of words would be dearer than any other way.
    rows = tallies.of_statements(str(term.values[0]))
    return Driver(source, match, rows, rows, ("said",), order=f"ORDER BY w{alias}.rowid DESC")


def _abouts(*terms: tuple[Term, ...]) -> tuple[str, ...]:
    return tuple(term.about for some in terms for term in some if term.about)
