"""Log-linear judgement: named cues, each with a weight that a person can read and change."""

import json
from collections.abc import Iterable, Mapping
from functools import cache, cached_property, lru_cache
from importlib.resources import files
from math import exp, fsum
from typing import TypeVar

from pydantic import BaseModel

from hikite.errors import LexiconError
from hikite.records import Reason

Fitted = TypeVar("Fitted", bound=BaseModel)
_SPOKEN, _MOST = 0.05, 4


class StatusJudge(BaseModel, frozen=True, extra="forbid"):
    """Weights by status and cue; a status's probability is the softmax of the sum of its cues' weights.

    Sums are exact, so that the order in which cues are met changes no digit.
    """

    weights: dict[str, dict[str, float]]

    @cached_property
    def _by_clue(self) -> dict[str, tuple[float, ...]]:
        """Each cue's weights in the order of the statuses: most cues weigh for most of them."""
        clues = dict.fromkeys(clue for weights in self.weights.values() for clue in weights)
        every = tuple(self.weights.values())
        return {clue: tuple([weights.get(clue, 0.0) for weights in every]) for clue in clues}

    @cached_property
    def _loud(self) -> dict[str, dict[str, float]]:
        """Of each status the weights that are worth telling."""
        return {
            status: {clue: weight for clue, weight in weights.items() if abs(weight) >= _SPOKEN}
            for status, weights in self.weights.items()
        }

    def weigh(self, clues: Iterable[str]) -> dict[str, float]:
        """P(status | cues)."""
        rows = [row for row in map(self._by_clue.get, clues) if row]
        sums = [fsum(column) for column in zip(*rows, strict=True)] or [0.0] * len(self.weights)
        top = max(sums)
        odds = [exp(one - top) for one in sums]
        total = sum(odds)
        return {status: one / total for status, one in zip(self.weights, odds, strict=True)}

    def reasons(self, status: str, clues: Iterable[str]) -> tuple[Reason, ...]:
        """The cues that spoke loudest for or against a status."""
        loud = self._loud[status]
        return _loudest([(clue, loud[clue]) for clue in clues if clue in loud])


class SideJudge(BaseModel, frozen=True, extra="forbid"):
    """Weights by cue; the log odds of the first side are the sum of the cues' weights times their pulls."""

    weights: dict[str, float]

    def pull(self, clues: Mapping[str, float]) -> float:
        """Log odds of the first side."""
        weights = map(self.weights.get, clues)
        return fsum([weight * value for weight, value in zip(weights, clues.values(), strict=True) if weight])

    def reasons(self, clues: Mapping[str, float]) -> tuple[Reason, ...]:
        """The cues that pulled hardest, to whichever side."""
        weights = self.weights
        pulls = [(clue, weights[clue] * value) for clue, value in clues.items() if clue in weights]
        return _loudest([one for one in pulls if abs(one[1]) >= _SPOKEN])


def _loudest(pulls: list[tuple[str, float]]) -> tuple[Reason, ...]:
    """The cues that spoke loudest for or against."""
    pulls.sort(key=lambda one: (-abs(one[1]), one[0]))
    return tuple([_reason(cue, round(weight, 3)) for cue, weight in pulls[:_MOST]])


@lru_cache(maxsize=1 << 14)
def _reason(cue: str, weight: float) -> Reason:
    """The same cues speak again and again."""
    return Reason(name=cue, weight=weight)


class Judges(BaseModel, frozen=True, extra="forbid"):
    """Whether a draft that is named or told is meant at all, how it is meant, by kind, and whose it is, heard
    once and twice.

    Fitted on labelled bouts by ``tests/fits/judgement.py``.
    """

    meant: StatusJudge
    told: StatusJudge
    status: dict[str, StatusJudge]
    side: SideJudge
    side_again: SideJudge


@cache
def load_judges() -> Judges:
    """The fitted weights by which claims are judged."""
    return shipped("judgement.json", Judges)


def shipped(name: str, kind: type[Fitted]) -> Fitted:
    """The fitted weights of a file of this package; LexiconError when it is missing or broken."""
    file = files("hikite.claims") / name
    try:
        return kind.model_validate(json.loads(file.read_text("utf-8")))
    except (OSError, ValueError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem
