"""Log-linear judgement: named cues, each with a weight that a person can read and change."""

import json
from collections.abc import Mapping
from functools import cache, cached_property, lru_cache
from importlib.resources import files
from math import exp

from pydantic import BaseModel

from hikite.errors import LexiconError
from hikite.records import Reason

_SPOKEN, _MOST = 0.05, 4


def _loudest(weights: Mapping[str, float], clues: Mapping[str, float]) -> tuple[Reason, ...]:
    """The cues that spoke loudest for or against."""
    loud = [
        (clue, pull)
        for clue, value in clues.items()
        if clue in weights and abs(pull := weights[clue] * value) >= _SPOKEN
    ]
    loud.sort(key=lambda one: -abs(one[1]))
    return tuple([_reason(cue, round(weight, 3)) for cue, weight in loud[:_MOST]])


@lru_cache(maxsize=1 << 12)
def _reason(cue: str, weight: float) -> Reason:
    """The same cues speak again and again."""
    return Reason(name=cue, weight=weight)


class StatusJudge(BaseModel, frozen=True, extra="forbid"):
    """Weights by status and cue; a status's probability is the softmax of the sum of its cues' weights."""

    weights: dict[str, dict[str, float]]

    @cached_property
    def _by_clue(self) -> dict[str, list[tuple[int, float]]]:
        turned: dict[str, list[tuple[int, float]]] = {}
        for number, weights in enumerate(self.weights.values()):
            for clue, weight in weights.items():
                turned.setdefault(clue, []).append((number, weight))
        return turned

    def weigh(self, clues: Mapping[str, float]) -> dict[str, float]:
        """P(status | cues)."""
        sums, by_clue = [0.0] * len(self.weights), self._by_clue
        for clue, value in clues.items():
            for number, weight in by_clue.get(clue, ()):
                sums[number] += weight * value
        top = max(sums)
        odds = [exp(one - top) for one in sums]
        total = sum(odds)
        return {status: one / total for status, one in zip(self.weights, odds, strict=True)}

    def reasons(self, status: str, clues: Mapping[str, float]) -> tuple[Reason, ...]:
        """The cues that spoke loudest for or against a status."""
        return _loudest(self.weights[status], clues)


class SideJudge(BaseModel, frozen=True, extra="forbid"):
    """Weights by cue; the log odds of the first side are the sum of the cues' weights times their pulls."""

    weights: dict[str, float]

    def pull(self, clues: Mapping[str, float]) -> float:
        """Log odds of the first side."""
        weights = self.weights
        return sum([weights[clue] * value for clue, value in clues.items() if clue in weights])

    def reasons(self, clues: Mapping[str, float]) -> tuple[Reason, ...]:
        """The cues that pulled hardest, to whichever side."""
        return _loudest(self.weights, clues)


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
