"""The search itself: candidates from the cheapest index, then the rows of one page."""

from pathlib import Path
from typing import Any, NamedTuple

from hikite.archive.errors import QueryError
from hikite.archive.kept import bout_number, entry_of
from hikite.archive.searches.candidates import MOST, candidates, said_in
from hikite.archive.searches.compiling import Compiled, compile_conditions
from hikite.archive.searches.drivers import link_term
from hikite.archive.searches.hits import Found, Hit, Partner, moment_link
from hikite.archive.searches.queries import Query
from hikite.archive.stores import Archive

_EVENT = """
    SELECT e.id, e.recording, r.title, r.date, f.path, f.media, r.address, e.start_ms, e.end_ms, t.text,
        t.speaker, e.words, e.bout, e.number, b.ruleset, e.kind, e.concept, c.label, e.status, e.side, w.name,
        o.name, e.clock_low_s, e.clock_high_s, e.clock_best_s, e.golden, e.standing, e.lead, e.score_before,
        coalesce(e.gained, e.points), coalesce(e.gained_class, e.score_class), e.grips, e.attempt,
        e.confidence, e.side_confidence, e.status_confidence
    FROM events e JOIN recordings r ON r.id = e.recording JOIN bouts b ON b.id = e.bout
        LEFT JOIN talk t ON t.id = e.statement LEFT JOIN concepts c ON c.id = e.concept
        LEFT JOIN competitors w ON w.bout = e.bout AND w.side = e.side
        LEFT JOIN competitors o ON o.bout = e.bout AND o.side <> e.side
        LEFT JOIN files f ON f.path = (SELECT path FROM files WHERE recording = r.id
            ORDER BY gone_since IS NOT NULL, since, path LIMIT 1)
    WHERE e.id
"""
_STATEMENT = """
    SELECT t.id, r.id, r.title, r.date, f.path, f.media, r.address, t.start_ms, t.end_ms, t.text, t.speaker
    FROM talk t JOIN recordings r ON r.id = t.id >> 20
        LEFT JOIN files f ON f.path = (SELECT path FROM files WHERE recording = r.id
            ORDER BY gone_since IS NOT NULL, since, path LIMIT 1)
    WHERE t.id
"""


class Asked(NamedTuple):
    """A query with its terms: of the event, and of each linked one."""

    query: Query
    terms: Compiled
    links: tuple[Compiled, ...]


def search(archive: Archive, query: Query) -> Found:
    """The moments that meet a query, a page of them; QueryError where it cannot be understood."""
    with archive.looking():
        _known_rules(archive, query)
        if query.of_talk:
            ids = said_in(archive, query)
            hits = _statements(archive, ids[query.skip : query.skip + query.limit])
            return Found(hits=hits, total=len(ids) if len(ids) <= MOST else None, over=MOST, namings=())
        asked = Asked(
            query,
            compile_conditions(archive, query, "e"),
            tuple(compile_conditions(archive, link.step, f"l{at}") for at, link in enumerate(query.links)),
        )
        page, total = candidates(archive, asked.query, asked.terms, asked.links)
        return Found(
            hits=_hits(archive, page, asked),
            total=total,
            over=MOST,
            namings=tuple(one for terms in (asked.terms, *asked.links) for one in terms.namings),
        )


def _known_rules(archive: Archive, query: Query) -> None:
    known = "SELECT 1 FROM bouts WHERE ruleset = ?"
    if query.ruleset is not None and archive.db.execute(known, (query.ruleset,)).fetchone() is None:
        there = [key for (key,) in archive.db.execute("SELECT DISTINCT ruleset FROM bouts ORDER BY 1")]
        raise QueryError(f"no bout here is under {query.ruleset!r}; there are {', '.join(there)}")


def _hits(archive: Archive, ids: list[int], asked: Asked) -> tuple[Hit, ...]:
    """The events with these ids, in their order."""
    rows = archive.db.execute(f"{_EVENT} IN ({', '.join('?' * len(ids))})", ids).fetchall()
    labels = dict(archive.db.execute("SELECT id, label FROM concepts WHERE kind = 'grip'")) if rows else {}
    partners = _partners(archive, ids, asked) if rows else {}
    made = {row[0]: _hit(row, labels, partners.get(row[0], ())) for row in rows}
    return tuple(made[id_] for id_ in ids)


def _hit(row: tuple[Any, ...], labels: dict[str, str], partners: tuple[Partner, ...]) -> Hit:
    (id_, recording, title, date, path, media, address, start, end, text, speaker, words, bout, number,
     ruleset, kind, concept, label, status, side, name, other, low, high, best, golden, standing, lead,
     before, points, score_class, grips, attempt, sure, side_sure, status_sure) = row  # fmt: skip
    held = [grip for grip in grips.split("|") if grip]
    return Hit(
        id=id_, recording=recording, title=title, date=date, path=path, media=media,
        link=moment_link(_address(address, media, path), start, end), start_ms=start, end_ms=end,
        statement=text or "", speaker=speaker, words=words,
        entry=entry_of(bout, number), bout=bout_number(bout), ruleset=ruleset,
        kind=kind, concept=concept, label=label or concept, status=status, side=side, competitor=name,
        opponent=other if side else None, clock_low_s=low, clock_high_s=high, clock_best_s=best,
        golden=golden, standing=standing, lead=lead, score_before=before, points=points,
        score_class=score_class, grips=tuple(labels.get(grip, grip) for grip in held), attempt=attempt,
        confidence=sure, side_confidence=side_sure, status_confidence=status_sure,
        partners=partners,
    )  # fmt: skip


def _statements(archive: Archive, ids: list[int]) -> tuple[Hit, ...]:
    rows = archive.db.execute(f"{_STATEMENT} IN ({', '.join('?' * len(ids))})", ids)
    made = {}
    for id_, recording, title, date, path, media, address, start, end, text, speaker in rows:
        made[id_] = Hit(
            id=id_, recording=recording, title=title, date=date, path=path, media=media,
            link=moment_link(_address(address, media, path), start, end), start_ms=start, end_ms=end,
            statement=text, speaker=speaker,
        )  # fmt: skip
    return tuple(made[id_] for id_ in ids)


def _address(address: str | None, media: str | None, path: str | None) -> str:
    """Where the recording can be seen: its address, else the file beside the words, else the words."""
    if address:
        return address
    file = media or path
    return Path(file).as_uri() if file else ""


def _partners(archive: Archive, ids: list[int], asked: Asked) -> dict[int, tuple[Partner, ...]]:
    """For each of the events the nearest event of each link."""
    found: dict[int, tuple[Partner, ...]] = {}
    for at, (link, terms) in enumerate(zip(asked.query.links, asked.links, strict=True)):
        alias = f"l{at}"
        tie = link_term(link, terms, alias)
        rows = archive.db.execute(
            f"SELECT e.id, {alias}.id, {alias}.start_ms, coalesce(c.label, {alias}.concept), {alias}.status,"
            f" {alias}.side, {alias}.words FROM events e CROSS JOIN events {alias} INDEXED BY events_bout"
            f" LEFT JOIN concepts c ON c.id = {alias}.concept"
            f" WHERE e.id IN ({', '.join('?' * len(ids))}) AND {tie.sql}"
            f" ORDER BY abs({alias}.start_ms - e.start_ms), {alias}.id",
            (*ids, *tie.values),
        )
        nearest: dict[int, tuple[Any, ...]] = {}
        for id_, *row in rows:
            nearest.setdefault(id_, tuple(row))
        for id_, row in nearest.items():
            partner = Partner.model_validate(dict(zip(Partner.model_fields, row, strict=True)))
            found[id_] = (*found.get(id_, ()), partner)
    return found
