"""The ways to come to an event: each leads from an index, and answers some of the terms by it."""

from typing import NamedTuple

from hikite.archive.searches.compiling import Compiled, Term, Value
from hikite.archive.searches.queries import Link
from hikite.archive.searches.tallies import Tallies
from hikite.archive.stores import Archive

_READ, _LOOK, _APART_S, _ALL = 4, 2, 6, 25
"""A way that reads each event's own row, or looks for another event around it, is so many times dearer.
Events lie about so many seconds apart; so many there are in half a bout."""
_SCORED = ("0, 1", "1")


class Driver(NamedTuple):
    """A FROM clause that ends in the events ``e``, with the terms that its index answers.

    ``cost`` is about how many rows it looks at. ``answers`` are the conditions that need not be asked
    again, ``link`` the number of a link likewise; ``doubles`` says that it may come to an event twice.
    ``order`` is one that costs nothing here.
    """

    source: str
    terms: tuple[Term, ...]
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
    ways = [way._replace(cost=way.cost * (_LOOK if links else 1)) for way in _drivers(terms, "e", tallies)]
    if titled is not None:
        ways.append(_of_recordings(titled, tallies))
    for at, (link, step) in enumerate(links):
        for first in _drivers(step, f"l{at}", tallies):
            around = min((link.within_s or 1_000) / _APART_S, _ALL)
            ways.append(_tied(first, link_term(link, step, f"l{at}"), at, around))
    return ways


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
    term = titled._replace(sql=titled.sql.replace("e.recording", "r.id"))
    return Driver(source, (term,), _READ / 2 * tallies.of_recordings(len(titled.values)), ("event",))


def _tied(first: Driver, tie: Term, at: int, around: float) -> Driver:
    """From the event of a link to those it is tied to."""
    source = f"{first.source} CROSS JOIN events e INDEXED BY events_bout ON e.bout = l{at}.bout"
    cost = (1 + around * _READ) * first.cost
    return Driver(source, (*first.terms, tie), cost, link=at, doubles=True)


def _drivers(terms: Compiled, alias: str, tallies: Tallies) -> list[Driver]:
    """The ways to the event that its terms open; there is always one."""
    what, status = terms.of("what"), terms.of("status", "told")
    how = terms.of("status", "told", "side", "standing", "clock")
    acts, some = (*what, *status), tallies.share(terms, "what", "status", "told")
    ways = []
    if what:
        cost = tallies.rows(terms, "what", "status", "told", "side", "standing", "clock")
        ways.append(Driver(f"events {alias} INDEXED BY events_what", (*what, *how), cost, _abouts(what, how)))
    else:
        scored = terms.of("scored") or (Term("", f"{alias}.scored IN ({_SCORED[bool(terms.of('points'))]})"),)
        cost = tallies.rows(terms, "scored", "points", "status", "told", "side", "standing", "clock")
        ways.append(
            Driver(f"events {alias} INDEXED BY events_how", (*scored, *how), cost, _abouts(scored, how))
        )
    for name, index in (("by", "events_person"), ("against", "events_opponent")):
        for term in terms.of(name):
            few = len(acts) > 1 and len(what[0].values) * len(status[0].values) <= 40 if what else False
            whose = (term, *acts) if few else (term,)
            cost = _READ * tallies.of_people(len(term.values)) * (some if few else 1)
            ways.append(Driver(f"events {alias} INDEXED BY {index}", whose, cost, _abouts(whose)))
    for term in terms.of("nation"):
        nation = (term, *what, *how) if what else (term,)
        cost = tallies.rows(terms, "nation") * (tallies.share(terms, *_abouts(what, how)) if what else 1)
        ways.append(Driver(f"events {alias} INDEXED BY events_nation", nation, cost, _abouts(nation)))
    for term in terms.of("holding"):
        ways.append(
            _holding(
                term, acts if what else (), alias, tallies.rows(terms, "holding") * (some if what else 1)
            )
        )
    for term in terms.of("attempt"):
        if int(term.values[0]) > 1:
            again = (Term("", f"{alias}.attempt > 1"), term, *what)
            cost = _READ * tallies.rows(terms, "attempt", "what")
            ways.append(Driver(f"events {alias} INDEXED BY events_attempt", again, cost, _abouts(what)))
    for term in terms.of("said"):
        ways.append(_saying(term, alias, tallies))
    return ways


def _holding(term: Term, acts: tuple[Term, ...], alias: str, rows: float) -> Driver:
    grips = tuple(str(value).strip("|") for value in term.values)
    held = [Term("", f"h{alias}.grip IN ({', '.join('?' * len(grips))})", grips)]
    held += [Term("", act.sql.replace(f"{alias}.", f"h{alias}."), act.values) for act in acts]
    source = f"held h{alias} CROSS JOIN events {alias} NOT INDEXED ON {alias}.id = h{alias}.event"
    return Driver(source, tuple(held), _READ * rows, ("holding", *_abouts(acts)), doubles=True)


def _saying(term: Term, alias: str, tallies: Tallies) -> Driver:
    source = (
        f"talk_words w{alias} CROSS JOIN events {alias} INDEXED BY events_statement"
        f" ON {alias}.statement = w{alias}.rowid"
    )
    match = (Term("", f"w{alias}.talk_words MATCH ?", term.values),)
    # A look from each event into the index of words would be dearer than any other way.
    cost = tallies.of_statements(str(term.values[0]))
    return Driver(source, match, cost, ("said",), order=f"ORDER BY w{alias}.rowid DESC")


def _abouts(*terms: tuple[Term, ...]) -> tuple[str, ...]:
    return tuple(term.about for some in terms for term in some if term.about)
