"""The shelves: every recording with its bouts."""

from typing import NamedTuple

from starlette.requests import Request
from starlette.responses import Response

from hikite.archive import Archive
from hikite.archive.folding import folded
from hikite.ledger import Rulesets
from hikite.web.pages.answers import page, room_of

ON_A_PAGE = 40
_ROWS = """
    SELECT r.id, coalesce(r.title, f.path), r.date, r.duration_ms, f.media IS NOT NULL,
        f.path IS NULL OR f.gone_since IS NOT NULL,
        (SELECT count(*) FROM decisions d WHERE d.sha256 = r.sha256 AND d.undoes IS NULL AND
            (SELECT count(*) FROM decisions u WHERE u.undoes = d.id) % 2 = 0)
    FROM recordings r LEFT JOIN files f ON f.path = (
        SELECT path FROM files WHERE recording = r.id ORDER BY gone_since IS NOT NULL, since, path LIMIT 1)
"""
_NAMED = """
    WHERE r.folded_title LIKE :like OR r.id IN (
        SELECT c.bout >> 16 FROM competitors c JOIN people p ON p.id = c.person WHERE p.folded LIKE :like)
"""


class Card(NamedTuple):
    """One bout of a recording: who met, under which rules, how it ended."""

    number: int
    first: str
    second: str
    ruleset: str
    final: str
    won: str


class Volume(NamedTuple):
    """One recording on the shelf."""

    number: int
    title: str
    date: str
    duration_ms: int
    media: bool
    gone: bool
    decisions: int
    cards: tuple[Card, ...]


def shelves(request: Request) -> Response:
    """A page of the shelves, the newest first, or those with these words in title or names."""
    room = room_of(request)
    wanted = request.query_params.get("with", "").strip()
    sheet = request.query_params.get("page", "1")
    number = max(int(sheet), 1) if sheet.isascii() and sheet.isdigit() and len(sheet) < 7 else 1
    with room.opened() as archive, archive.looking():
        total, volumes = _volumes(archive, room.lexicon.rulesets, wanted, number)
    pages = max((total + ON_A_PAGE - 1) // ON_A_PAGE, 1)
    return page(
        request, "shelves.html", volumes=volumes, total=total, wanted=wanted, number=number, pages=pages
    )


def _volumes(archive: Archive, rules: Rulesets, wanted: str, number: int) -> tuple[int, tuple[Volume, ...]]:
    plain = folded(wanted)
    where, given = (_NAMED, {"like": f"%{plain}%"}) if plain else ("", {})
    total = archive.db.execute(f"SELECT count(*) FROM recordings r {where}", given).fetchone()[0]
    rows = archive.db.execute(
        f"{_ROWS} {where} ORDER BY r.day DESC, r.id DESC LIMIT {ON_A_PAGE} OFFSET :skip",
        {**given, "skip": (number - 1) * ON_A_PAGE},
    ).fetchall()
    found = []
    for id_, title, date, duration, media, gone, decisions in rows:
        cards = tuple(_cards(archive, rules, id_))
        found.append(
            Volume(
                id_, str(title or "untitled").rsplit("/", 1)[-1], date or "", duration, bool(media),
                bool(gone), decisions, cards,
            )
        )  # fmt: skip
    return int(total), tuple(found)


def _cards(archive: Archive, rules: Rulesets, recording: int) -> list[Card]:
    sides = {(one.bout, one.side): one for one in archive.competitors(recording)}
    cards = []
    for bout in archive.bouts(recording):
        names = []
        for side in (bout.first_side, bout.second_side):
            who = sides.get((bout.id, side))
            name = who.name if who and who.name else side.capitalize()
            names.append(name.title() if name.islower() else name)
        named = rules.rulesets.get(bout.ruleset)
        won = {bout.first_side: "first", bout.second_side: "second"}.get(bout.winner or "", "")
        cards.append(
            Card(bout.number, names[0], names[1], named.name if named else bout.ruleset, bout.final, won)
        )
    return cards
