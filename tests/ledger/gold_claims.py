"""Labelled bouts turned into claims, as a careful listener or as a careless one would hand them on."""

import json
import os
import random
from pathlib import Path
from typing import Any

import pytest

from hikite.records import Claim, Competitor, Sheet, Tally, Testimony

FOLDER = Path(os.environ.get("HIKITE_BOUTS", "labelled-bouts"))
needs_bouts = pytest.mark.skipif(
    not FOLDER.is_dir(), reason="no labelled bouts: set HIKITE_BOUTS to their folder"
)

HAPPENED = {"technique": "completed", "score": "given", "penalty": "given", "result": "given"}
WRONG = {"technique": "recalled", "score": "recalled", "penalty": "recalled", "result": "supposed"}
NUMBERS = {"nil": 0, "zero": 0, "love": 0, "nothing": 0, "nought": 0} | {
    word: number
    for number, word in enumerate(
        [
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
        ],
        start=1,
    )
}

Gold = dict[str, Any]


def golds() -> list[Gold]:
    """Every labelled bout, by id."""
    return [json.loads(path.read_text("utf-8")) for path in sorted(FOLDER.glob("*.gold.json"))]


class Listener:
    """Turns gold events to claims; every rate is a probability, none of them set is a perfect ear."""

    def __init__(
        self,
        seed: int = 0,
        unknown_side: float = 0.0,
        wrong_side: float = 0.0,
        wrong_status: float = 0.0,
        unordered: bool = False,
        dropped: float = 0.0,
        spurious: float = 0.0,
        sure: float = 0.9,
    ) -> None:
        self.chance = random.Random(seed)
        self.unknown_side, self.wrong_side, self.wrong_status = unknown_side, wrong_side, wrong_status
        self.unordered, self.dropped, self.spurious, self.sure = unordered, dropped, spurious, sure

    def hear(self, gold: Gold, ruleset: bool = True) -> Testimony:
        """The claims of one bout, in time order, under its bout sheet."""
        sides = tuple(side for side in ("red", "white", "blue") if side in gold["competitors"])
        timed = []
        for event in gold["events"]:
            line = gold["lines"][event["line"]]
            at = max(line["text"].find(event["said"]), 0) / max(len(line["text"]), 1)
            start = line["start_s"] + at * (line["end_s"] - line["start_s"])
            timed.append((start, event))
        timed.sort(key=lambda pair: pair[0])
        claims = []
        for start, event in timed:
            if self.chance.random() < self.dropped:
                continue
            claim = self._claim(event, int(start * 1000), len(claims), sides)
            claims.append(claim)
            if claim.kind == "score" and self.chance.random() < self.spurious:
                claims.append(claim.model_copy(update={"first": len(claims), "stop": len(claims) + 1}))
        competitors = tuple(Competitor(side=side, name=gold["competitors"][side]["name"]) for side in sides)
        sheet = Sheet(
            competitors=competitors,
            ruleset=gold["ruleset"] if ruleset else None,
            duration_s=gold["duration_s"] if ruleset else None,
        )
        return Testimony(claims=tuple(claims), sheet=sheet)

    def _claim(self, event: Gold, start: int, number: int, sides: tuple[str, ...]) -> Claim:
        kind, concept, status = event["kind"], event["concept"] or event["kind"], event["status"]
        if str(concept).startswith("landing:"):
            kind = "landing"
        status = {"stated": "stated"}.get(status, status)
        if kind in HAPPENED and self.chance.random() < self.wrong_status:
            status = WRONG[kind] if status == HAPPENED[kind] else HAPPENED[kind]
        side, spread = self._side(event["side"], sides)
        other = WRONG.get(kind, "described")
        if other == status:
            other = HAPPENED.get(kind, "taken")
        statuses = {status: self.sure, other: round(1 - self.sure, 3)}
        tallies, ordered = self._tallies(event, sides)
        score = event.get("score")
        return Claim(
            first=number,
            stop=number + 1,
            start_ms=start,
            end_ms=start + 600,
            kind=kind,
            concept=concept,
            status=status,
            statuses=statuses if kind != "stated_score" else {},
            side=side,
            sides=spread,
            generic=event.get("generic", False),
            points=event["points"],
            score_class=score if score not in (None, "none") else None,
            tallies=tallies,
            ordered=ordered,
            margin=event.get("margin"),
            seconds=event["seconds"],
            elapsed=event.get("clock") == "elapsed",
            of=event.get("of"),
        )

    def _side(self, side: str | None, sides: tuple[str, ...]) -> tuple[str | None, dict[str, float]]:
        if side is None or self.chance.random() < self.unknown_side:
            return None, {sides[0]: 0.4, sides[1]: 0.4, "": 0.2}
        if self.chance.random() < self.wrong_side:
            side = sides[1] if side == sides[0] else sides[0]
        rest = sides[1] if side == sides[0] else sides[0]
        return side, {side: self.sure, rest: 1 - self.sure}

    def _tallies(self, event: Gold, sides: tuple[str, ...]) -> tuple[dict[str, Tally], bool]:
        if event["kind"] != "stated_score":
            return {}, True
        tallies = {}
        for side in sides:
            said = event.get(side)
            if isinstance(said, dict):
                tallies[side] = Tally(**{name.replace("-", "_"): number for name, number in said.items()})
            elif said is not None:
                tallies[side] = Tally(points=said)
        if not self.unordered or len(tallies) < 2 or tallies[sides[0]].points is None:
            return tallies, True
        words = event["said"].lower().replace("-", " ").replace("–", " ").split()
        first = next(
            (int(w) if w.isdigit() else NUMBERS[w] for w in words if w.isdigit() or w in NUMBERS), None
        )
        red, blue = tallies[sides[0]], tallies[sides[1]]
        swap = first == blue.points if first is not None else (blue.points or 0) > (red.points or 0)
        return {"1": blue if swap else red, "2": red if swap else blue}, False
