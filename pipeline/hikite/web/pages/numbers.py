"""The archive in numbers: what is tried, what comes off, when points fall, how far the machine was right."""

from starlette.requests import Request
from starlette.responses import Response

from hikite.archive.holdings import holdings_of
from hikite.datasets.settled import settled
from hikite.evaluate.calibrations import reliability
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
        wins = [
            (str(by).replace("-", " "), count)
            for by, count in archive.db.execute(_WINS, {"rules": chosen or ""})
        ]
        held = holdings_of(archive).counts
        guesses = [one.guess for one in settled(archive)]
    checked = [(one.probability, one.right, one.guesses) for one in reliability(guesses, _BINS)]
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
            "checked": against("How often what was said so surely was right", checked),
        },
    )  # fmt: skip
