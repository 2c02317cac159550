"""The archive in numbers: what is tried, what comes off, when points fall, how far the machine was right."""

from starlette.requests import Request
from starlette.responses import Response

from hikite.archive import Archive
from hikite.archive.anchors import attach
from hikite.archive.holdings import holdings_of
from hikite.web.drawings import Bar, against, bars, columns
from hikite.web.pages.answers import page, room_of

_TECHNIQUES = """
    SELECT coalesce(c.label, e.concept), sum(e.scored), count(*) AS tries
    FROM events e LEFT JOIN concepts c ON c.id = e.concept JOIN bouts b ON b.id = e.bout
    WHERE e.kind = 'technique' AND e.head AND e.generic = 0 AND (:rules = '' OR b.ruleset = :rules)
        AND e.status IN ('completed', 'attempted', 'failed') AND e.confidence >= 0.5
    GROUP BY e.concept ORDER BY tries DESC, 1 LIMIT 14
"""
_MINUTES = """
    SELECT CAST(e.clock_best_s / 60 AS INTEGER) AS minute, count(*)
    FROM events e JOIN bouts b ON b.id = e.bout
    WHERE e.counts AND e.clock_best_s IS NOT NULL AND NOT e.golden AND (:rules = '' OR b.ruleset = :rules)
    GROUP BY minute ORDER BY minute DESC
"""
_WINS = """
    SELECT won_by, count(*) FROM bouts WHERE won_by IS NOT NULL AND (:rules = '' OR ruleset = :rules)
    GROUP BY won_by ORDER BY 2 DESC, 1 LIMIT 8
"""
_BINS = 5
_MOST_CHECKED = 400


def numbers(request: Request) -> Response:
    """The plots, each with its table."""
    room, rules = room_of(request), request.query_params.get("rules", "")
    with room.opened() as archive, archive.looking():
        given = {"rules": rules}
        tries = [Bar(*row) for row in archive.db.execute(_TECHNIQUES, given)]
        minutes = [(f"{n}–{n + 1}", count) for n, count in archive.db.execute(_MINUTES, given)]
        wins = list(archive.db.execute(_WINS, given))
        known = [key for (key,) in archive.db.execute("SELECT DISTINCT ruleset FROM bouts ORDER BY 1")]
        held = holdings_of(archive).counts
        checked = _checked(archive)
    return page(
        request, "numbers.html", rules=rules, known=known, held=held, tries=tries, minutes=minutes, wins=wins,
        checked=checked,
        plots={
            "tries": bars("Techniques tried, and how many scored", tries, "scored", "did not score"),
            "minutes": columns("Lines of the score by minute left", minutes, "minutes left on the clock"),
            "wins": columns("How bouts were won", wins, "bouts"),
            "checked": against("What reviewers accepted, by stated confidence", checked),
        },
    )  # fmt: skip


def _checked(archive: Archive) -> list[tuple[float, float, int]]:
    """By stated confidence: its mean, the share accepted as it stood, and how many were looked at."""
    rows = archive.db.execute(
        "SELECT DISTINCT r.id FROM decisions d JOIN recordings r ON r.sha256 = d.sha256 LIMIT ?",
        (_MOST_CHECKED,),
    ).fetchall()
    bins: list[list[tuple[float, bool]]] = [[] for _ in range(_BINS)]
    for (number,) in rows:
        for one in attach(archive, number):
            if one.event and one.decision.kind in ("accept", "correct", "reject"):
                sure = one.event.confidence
                if not one.event.counts:
                    sure *= one.event.status_confidence * (one.event.side_confidence if one.event.side else 1)
                bins[min(int(sure * _BINS), _BINS - 1)].append((sure, one.decision.kind == "accept"))
    return [
        (sum(sure for sure, _ in one) / len(one), sum(right for _, right in one) / len(one), len(one))
        for one in bins
        if one
    ]
