"""Log-linear judgement: named cues, each with a weight that a person can read and change."""

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from math import exp

from pydantic import BaseModel

from hikite.errors import LexiconError
from hikite.records import Reason

_SPOKEN, _MOST = 0.05, 4


def _loudest(weighed: Mapping[str, float]) -> tuple[Reason, ...]:
    """The cues that spoke loudest for or against."""
    ranked = sorted(weighed.items(), key=lambda one: -abs(one[1]))[:_MOST]
    return tuple(
        Reason(name=cue, weight=round(weight, 3)) for cue, weight in ranked if abs(weight) >= _SPOKEN
    )


class StatusJudge(BaseModel, frozen=True, extra="forbid"):
    """Weights by status and cue; a status's probability is the softmax of the sum of its cues' weights."""

    weights: dict[str, dict[str, float]]

    def weigh(self, clues: Mapping[str, float]) -> dict[str, float]:
        """P(status | cues)."""
        sums = {
            status: sum(weights.get(clue, 0.0) * value for clue, value in clues.items())
            for status, weights in self.weights.items()
        }
        top = max(sums.values())
        odds = {status: exp(one - top) for status, one in sums.items()}
        total = sum(odds.values())
        return {status: one / total for status, one in odds.items()}

    def reasons(self, status: str, clues: Mapping[str, float]) -> tuple[Reason, ...]:
        """The cues that spoke loudest for or against a status."""
        weights = self.weights[status]
        return _loudest({clue: weights.get(clue, 0.0) * value for clue, value in clues.items()})


class SideJudge(BaseModel, frozen=True, extra="forbid"):
    """Weights by cue; the log odds of the first side are the sum of the cues' weights times their pulls."""

    weights: dict[str, float]

    def pull(self, clues: Mapping[str, float]) -> float:
        """Log odds of the first side."""
        return sum(self.weights.get(clue, 0.0) * value for clue, value in clues.items())

    def reasons(self, clues: Mapping[str, float]) -> tuple[Reason, ...]:
        """The cues that pulled hardest, to whichever side."""
        return _loudest({clue: self.weights.get(clue, 0.0) * value for clue, value in clues.items()})


class Judges(BaseModel, frozen=True, extra="forbid"):
    """Whether a named draft is meant at all, how it is meant, by kind, and whose it is, heard once and twice.

    Fitted on labelled bouts by ``tests/fits/judgement.py``.
    """

    meant: StatusJudge
    status: dict[str, StatusJudge]
    side: SideJudge
    side_again: SideJudge


@cache
def load_judges() -> Judges:
    """The fitted weights shipped with the package."""
    file = files("hikite.claims") / "judgement.json"
    try:
        return Judges.model_validate(json.loads(file.read_text("utf-8")))
    except (OSError, ValueError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem
