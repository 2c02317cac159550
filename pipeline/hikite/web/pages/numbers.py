"""The archive in numbers: what is tried, what comes off, when points fall, how far the machine was right."""

from starlette.requests import Request
from starlette.responses import Response

from hikite.archive import Archive
from hikite.archive.anchors import attach
from hikite.archive.holdings import holdings_of
from hikite.numbers import Ask
from hikite.web.drawings import Bar, against, bars, columns
from hikite.web.pages.answers import page, room_of

KINDS = ("technique", "family", "athlete", "grip", "rules")
_SURE, _LINES = 0.5, 14
_WINS = """
    SELECT won_by, count(*) FROM bouts WHERE won_by IS NOT NULL AND (:rules = '' OR ruleset = :rules)
    GROUP BY won_by ORDER BY 2 DESC, 1 LIMIT 8
"""
_BINS = 5
_MOST_CHECKED = 400


def numbers(request: Request) -> Response:
    """The plots; what they rest on is told beside them."""
    room, rules = room_of(request), request.query_params.get("rules", "")[:60]
    by = request.query_params.get("by", "")
    by = by if by in KINDS else "technique"
    with room.opened() as archive, archive.looking():
        known = [key for (key,) in archive.db.execute("SELECT DISTINCT ruleset FROM bouts ORDER BY 1")]
        chosen = rules if rules in known else None
        asked = {"by": by, "sure": _SURE, "rules": chosen}
        tries = room.table(archive, Ask.model_validate(asked))
        scores = room.table(archive, Ask(by="scores", rules=chosen))
        wins = list(archive.db.execute(_WINS, {"rules": chosen or ""}))
        held = holdings_of(archive).counts
        checked = _checked(archive)
    lines = [
        Bar(" ".join(one.labels), round(one.counts["scored"]), round(one.counts["tries"]))
        for one in tries.lines[:_LINES]
    ]
    minutes = [(one.labels[0], round(one.counts["scores"])) for one in scores.lines]
    return page(
        request, "numbers.html", rules=chosen, by=by, kinds=KINDS, known=known, held=held, tries=tries,
        more=len(tries.lines) - len(lines), scores=scores, wins=wins, checked=checked,
        plots={
            "tries": bars(f"Tries by {by}, and how many scored", lines, "scored", "did not score"),
            "minutes": columns("Lines of the score by minute", minutes, "minute of the bout, by its clock"),
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
