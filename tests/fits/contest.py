"""Weights of names that contend for words: of all ways to take the words the true one is made likeliest."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.optimize import minimize

Ints = npt.NDArray[np.int64]
Vector = npt.NDArray[np.float64]
Matrix = npt.NDArray[np.float64]
_HIGHEST = 30.0


@dataclass(frozen=True)
class Rows:
    """Names that may be meant: the stretch of each, its words there, its signs, the truth it is of or -1."""

    stretch: Ints
    first: Ints
    stop: Ints
    signs: Matrix
    truth: Ints
    weight: Vector

    def joined(self, other: "Rows") -> "Rows":
        """Both together, the stretches and truths of the other numbered behind these."""
        shift, more = _next(self.stretch), _next(self.truth)
        return Rows(
            np.concatenate([self.stretch, other.stretch + shift]),
            np.concatenate([self.first, other.first]),
            np.concatenate([self.stop, other.stop]),
            np.concatenate([self.signs, other.signs]),
            np.concatenate([self.truth, np.where(other.truth < 0, -1, other.truth + more)]),
            np.concatenate([self.weight, other.weight]),
        )

    def of(self, rows: "npt.NDArray[np.generic]") -> "Rows":
        """Some of them."""
        return Rows(*(getattr(self, name)[rows] for name in self.__dataclass_fields__))


def _next(numbers: Ints) -> int:
    return int(numbers.max(initial=-1)) + 1


class Lattice:
    """All ways to take the words of many stretches at once."""

    def __init__(self, rows: Rows) -> None:
        _, stretch = np.unique(rows.stretch, return_inverse=True)
        self.stretch, self._size = stretch, _next(stretch)
        self._width = int(rows.stop.max(initial=0))
        self._from, self._to = rows.first * self._size + stretch, rows.stop * self._size + stretch
        self._ending = [np.flatnonzero(rows.stop == at) for at in range(self._width + 1)]
        self._starting = [np.flatnonzero(rows.first == at) for at in range(self._width + 1)]

    def run(self, scores: Vector) -> tuple[Vector, Vector]:
        """The logarithm of the summed odds of each stretch, and the probability of each row."""
        odds = np.exp(np.minimum(scores, _HIGHEST))
        ahead, back = (np.ones((self._width + 1, self._size)) for _ in range(2))
        for at in range(1, self._width + 1):
            self._step(ahead, at, at - 1, self._ending[at], self._from, odds)
        for at in range(self._width - 1, -1, -1):
            self._step(back, at, at + 1, self._starting[at], self._to, odds)
        whole = ahead[-1]
        chances = ahead.ravel()[self._from] * odds * back.ravel()[self._to] / whole[self.stretch]
        return np.log(whole), chances

    def _step(self, ways: Matrix, at: int, beside: int, rows: Ints, other: Ints, odds: Vector) -> None:
        ways[at] = ways[beside]
        if len(rows):
            ways[at] += np.bincount(self.stretch[rows], ways.ravel()[other[rows]] * odds[rows], self._size)


def contest_weights(rows: Rows, rounds: int = 3, ridge: float = 2.0) -> Vector:
    """The weights, with a ridge on standardised signs; each round tells which row of a truth was meant."""
    mean, spread = rows.signs.mean(0), rows.signs.std(0) + 1e-9
    mean[0], spread[0] = 0.0, 1.0
    table = np.ascontiguousarray((rows.signs - mean) / spread)
    lattice = Lattice(rows)
    # Every stretch counts as its rows do.
    weight = np.zeros(_next(lattice.stretch))
    weight[lattice.stretch] = rows.weight
    penalty = ridge * (np.arange(table.shape[1]) > 0)
    found = np.zeros(table.shape[1])
    found[0] = -4.0
    # At first the row that covers a truth best and sounds nearest is taken: signs 1 is the distance.
    score = -rows.signs[:, 1]
    for _ in range(rounds):
        meant = _meant(rows, score)
        wanted = (meant * rows.weight) @ table

        def loss(weights: Vector, wanted: Vector = wanted) -> tuple[float, Vector]:
            whole, chances = lattice.run(table @ weights)
            value = float((weight * whole).sum() - wanted @ weights + 0.5 * (penalty * weights**2).sum())
            return value, (chances * rows.weight) @ table - wanted + penalty * weights

        found = minimize(loss, found, jac=True, method="L-BFGS-B", options={"maxiter": 150}).x
        score = table @ found
    plain = found / spread
    plain[0] = found[0] - float((found * mean / spread)[1:].sum())
    return np.asarray(plain, np.float64)


def _meant(rows: Rows, score: Vector) -> Vector:
    """One row of each truth, the best, none of them overlapping."""
    meant = np.zeros(len(score))
    taken: dict[int, list[tuple[int, int]]] = {}
    done: set[int] = set()
    able = np.flatnonzero(rows.truth >= 0)
    for row in able[np.argsort(-score[able], kind="stable")].tolist():
        first, stop = int(rows.first[row]), int(rows.stop[row])
        spans = taken.setdefault(int(rows.stretch[row]), [])
        if int(rows.truth[row]) not in done and all(first >= two or stop <= one for one, two in spans):
            meant[row] = 1.0
            done.add(int(rows.truth[row]))
            spans.append((first, stop))
    return meant
