"""Which events meet a query: the index that promises the fewest rows leads, the other terms sift."""

from datetime import date

from hikite.archive.errors import QueryError
from hikite.archive.folding import folded
from hikite.archive.searches.compiling import Compiled, Term, phrases
from hikite.archive.searches.drivers import Driver, drivers, joined, link_term, sifting
from hikite.archive.searches.queries import Query
from hikite.archive.stores import Archive

MOST = 2_000
"""Up to so many hits are gathered, counted and sorted. Of more, only those of the page are found, in order of
day; of more by words, only the latest kept are looked through."""

_KEYS = {"newest": "-e.day", "oldest": "e.day", "surest": "-e.confidence"}
_ORDERS = {"newest": "e.day DESC, e.id", "oldest": "e.day, e.id", "surest": "e.confidence DESC, e.id"}


def candidates(
    archive: Archive, query: Query, terms: Compiled, links: tuple[Compiled, ...]
) -> tuple[list[int], int | None]:
    """The ids of one page in order, and how many there are in all, None for more than ``MOST``."""
    steps = tuple(zip(query.links, links, strict=True))
    wanted = [*terms.terms, *_of_recordings(archive, query, "e.day", "(e.id >> 20)", "e.bout IN (SELECT id")]
    tied = [link_term(link, step, f"l{at}") for at, (link, step) in enumerate(steps)]
    exist = [
        Term(
            "link", f"EXISTS (SELECT 1 FROM events l{at} INDEXED BY events_bout WHERE {tie.sql})", tie.values
        )
        for at, tie in enumerate(tied)
    ]
    title = next((term for term in wanted if term.about == "event"), None)
    driver = cheapest(drivers(archive, terms, steps, title))
    rows = _gathered(archive, query, driver, wanted, exist)
    if len(rows) <= MOST or terms.of("said"):
        page = sorted(rows)[query.skip : query.skip + query.limit]
        return [id_ for _, id_ in page], len(rows) if len(rows) <= MOST else None
    where = sifting((*wanted, *exist))
    source = "events e" if query.order == "surest" else "events e INDEXED BY events_day"
    found = archive.db.execute(
        f"SELECT e.id FROM {source} WHERE {where.sql} ORDER BY {_ORDERS[query.order]} LIMIT ? OFFSET ?",
        (*where.values, query.limit, query.skip),
    )
    return [id_ for (id_,) in found], None


def cheapest(ways: list[Driver]) -> Driver:
    """The way that looks at the fewest rows."""
    return min(ways, key=lambda way: way.cost)


def said_in(archive: Archive, query: Query) -> list[int]:
    """The ids of the statements in which the phrases were said, in order; one more than ``MOST`` at most."""
    where = joined(tuple(_of_recordings(archive, query, "r.day", "r.id", "r.id IN (SELECT recording")))
    sign = "" if query.order == "oldest" else "-"
    rows = archive.db.execute(
        f"SELECT {sign}r.day, w.rowid FROM talk_words w CROSS JOIN recordings r ON r.id = w.rowid >> 20"
        f" WHERE w.talk_words MATCH ? AND {where.sql} ORDER BY w.rowid DESC LIMIT ?",
        (phrases(query.said), *where.values, MOST + 1),
    ).fetchall()
    return [id_ for _, id_ in sorted(rows)]


def _gathered(
    archive: Archive, query: Query, driver: Driver, wanted: list[Term], exist: list[Term]
) -> list[tuple[float, int]]:
    """Ids behind what they are sorted by, one more than ``MOST`` at most."""
    left = [term for term in wanted if term.about not in driver.answers]
    left += [term for at, term in enumerate(exist) if at != driver.link]
    where = joined((*driver.terms, sifting(tuple(left))))
    once = "DISTINCT " if driver.doubles else ""
    return archive.db.execute(
        f"SELECT {once}{_KEYS[query.order]}, e.id FROM {driver.source}"
        f" WHERE {where.sql} {driver.order} LIMIT ?",
        (*where.values, MOST + 1),
    ).fetchall()


def _of_recordings(archive: Archive, query: Query, day: str, recording: str, bout_in: str) -> list[Term]:
    """The terms on the recording, for the columns that hold its day and number."""
    terms = []
    if query.ruleset is not None:
        terms.append(Term("ruleset", f"{bout_in} FROM bouts WHERE ruleset = ?)", (query.ruleset,)))
    if query.event is not None:
        parts = folded(query.event).split()
        if not parts:
            raise QueryError(f"there is no word in {query.event!r}")
        each = " AND ".join("instr(' ' || folded_title, ?)" for _ in parts)
        begins = tuple(f" {part}" for part in parts)
        rows = archive.db.execute(f"SELECT id FROM recordings WHERE {each}", begins)
        ids = tuple(id_ for (id_,) in rows)
        if not ids:
            raise QueryError(f"no recording here has {query.event!r} in its title")
        terms.append(Term("event", f"{recording} IN ({', '.join('?' * len(ids))})", ids))
    for sign, text in ((">=", query.since), ("<=", query.until)):
        if text is not None:
            terms.append(Term("day", f"{day} {sign} ? AND {day} > 0", (_day(text),)))
    return terms


def _day(text: str) -> int:
    try:
        return date.fromisoformat(text).toordinal()
    except ValueError:
        raise QueryError(f"there is no day {text}") from None
