"""Log-linear judgement: named cues, each with a weight that a person can read and change."""

import json
from collections.abc import Mapping
from functools import cache, cached_property
from importlib.resources import files
from math import exp

from pydantic import BaseModel

from hikite.errors import LexiconError
from hikite.records import Reason

_SPOKEN, _MOST = 0.05, 4


def _loudest(weighed: Mapping[str, float]) -> tuple[Reason, ...]:
    """The cues that spoke loudest for or against."""
    loud = [one for one in weighed.items() if abs(one[1]) >= _SPOKEN]
    loud.sort(key=lambda one: -abs(one[1]))
    return tuple(Reason(name=cue, weight=round(weight, 3)) for cue, weight in loud[:_MOST])


class StatusJudge(BaseModel, frozen=True, extra="forbid"):
    """Weights by status and cue; a status's probability is the softmax of the sum of its cues' weights."""

    weights: dict[str, dict[str, float]]

    @cached_property
    def _by_clue(self) -> dict[str, list[tuple[str, float]]]:
        turned: dict[str, list[tuple[str, float]]] = {}
        for status, weights in self.weights.items():
            for clue, weight in weights.items():
                turned.setdefault(clue, []).append((status, weight))
        return turned

    def weigh(self, clues: Mapping[str, float]) -> dict[str, float]:
        """P(status | cues)."""
        sums = dict.fromkeys(self.weights, 0.0)
        for clue, value in clues.items():
            for status, weight in self._by_clue.get(clue, ()):
                sums[status] += weight * value
        top = max(sums.values())
        odds = {status: exp(one - top) for status, one in sums.items()}
        total = sum(odds.values())
        return {status: one / total for status, one in odds.items()}

    def reasons(self, status: str, clues: Mapping[str, float]) -> tuple[Reason, ...]:
        """The cues that spoke loudest for or against a status."""
        weights = self.weights[status]
        return _loudest({clue: weights[clue] * value for clue, value in clues.items() if clue in weights})


class SideJudge(BaseModel, frozen=True, extra="forbid"):
    """Weights by cue; the log odds of the first side are the sum of the cues' weights times their pulls."""

    weights: dict[str, float]

    def pull(self, clues: Mapping[str, float]) -> float:
        """Log odds of the first side."""
        weights = self.weights
        return sum([weights[clue] * value for clue, value in clues.items() if clue in weights])

    def reasons(self, clues: Mapping[str, float]) -> tuple[Reason, ...]:
        """The cues that pulled hardest, to whichever side."""
        weights = self.weights
        return _loudest({clue: weights[clue] * value for clue, value in clues.items() if clue in weights})


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
