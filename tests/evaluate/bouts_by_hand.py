"""Tiny labelled recordings and predictions whose figures can be counted on one's fingers."""

import json
from pathlib import Path

from hikite.evaluate.golds import Gold, read_gold
from hikite.records import Claim, Event, Talk, Testimony, Token

LINES = (
    "Red goes for the hip throw and the hip throw lands.",
    "Four! Four to red. Four nil.",
    "Blue has the lapel, a minute left.",
    "Nothing much now.",
)


Label = dict[str, object]


def gold(folder: Path, events: list[Label], ledger: list[Label] | None = None) -> Gold:
    """A ten-seconds-a-line sambo recording with the given labels, written and read again."""
    told = {
        "id": "tiny",
        "ruleset": "sambo.sport.2020",
        "duration_s": 300,
        "competitors": {
            "red": {"name": "A. Rann", "from": "Ost"},
            "blue": {"name": "B. Soll", "from": "Wick"},
        },
        "lines": [{"text": text, "start_s": 10.0 * n, "end_s": 10.0 * n + 5} for n, text in enumerate(LINES)],
        "events": events,
        "ledger": ledger or [],
        "final": {"red": 4, "blue": 0, "winner": "red", "by": "points"},
    }
    path = folder / "tiny.gold.json"
    path.write_text(json.dumps(told), "utf-8")
    return read_gold(path)


def label(line: int, said: str, kind: str, concept: str | None, **more: object) -> Label:
    return {"line": line, "said": said, "kind": kind, "concept": concept, **more}


def claim(at_s: float, kind: str, concept: str, **more: object) -> Claim:
    told = {"first": 0, "stop": 1, "status": "stated", "start_ms": int(at_s * 1000)}
    told |= {"end_ms": int(at_s * 1000) + 500, "kind": kind, "concept": concept}
    return Claim.model_validate(told | more)


def counted(at_s: float, side: str, points: int, **more: object) -> Event:
    told = {"start_ms": int(at_s * 1000), "end_ms": int(at_s * 1000) + 500, "kind": "score"}
    told |= {"concept": "points", "status": "given", "counts": True, "side": side, "points": points}
    return Event.model_validate(told | more)


def claimed(*claims: Claim) -> Testimony:
    return Testimony(claims=claims)


TALK = Talk(tokens=(Token(text="word", cue=0, start=0, stop=4, start_ms=0, end_ms=500),), utterances=())


def equal(one: str, other: str) -> bool:
    return one == other
