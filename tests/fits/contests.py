"""Fits weights of signs to spans that contend for words: the truth's ways of choosing against all ways."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from hikite.mentions.covers import Span, contending

Vector = npt.NDArray[np.float64]
_ROUNDS = 30
_ENOUGH = 0.02


@dataclass(frozen=True)
class Contest:
    """Spans of one stream by first word, with a row of ``signs`` each and log odds known beforehand.

    A ``wrong`` span names what is not there, any other may or may not. Words of ``cores`` are covered by
    a name for certain.
    """

    spans: tuple[Span, ...]
    signs: npt.NDArray[np.float64]
    given: Vector
    wrong: npt.NDArray[np.bool_]
    cores: frozenset[int]
    weight: float


class _Run:
    """Spans that hang together: where each starts and ends among the borders, and which steps are closed."""

    def __init__(self, contest: Contest, run: range, offset: int) -> None:
        spans = [contest.spans[at] for at in run]
        borders = sorted({border for span in spans for border in span})
        place = {border: at for at, border in enumerate(borders)}
        self.rows = range(offset + run.start, offset + run.stop)
        self.starts = [place[first] for first, _ in spans]
        self.stops = [place[stop] for _, stop in spans]
        self.size = len(borders)
        self.allowed = [not contest.wrong[at] for at in run]
        self.passed = [
            not any(low <= core < high for core in contest.cores) for low, high in pairwise(borders)
        ]
        self.weight = contest.weight

    def shares(self, weights: list[float], truly: bool) -> tuple[float, list[float]]:
        """The logarithm of the weight of all ways, and the share in which each span is chosen."""
        allowed = self.allowed if truly else [True] * len(weights)
        passed = [float(one) for one in self.passed] if truly else [1.0] * (self.size - 1)
        arcs = list(zip(self.starts, self.stops, weights, allowed, strict=True))
        into: list[list[tuple[int, float]]] = [[] for _ in range(self.size)]
        out: list[list[tuple[int, float]]] = [[] for _ in range(self.size)]
        for start, stop, weight, able in arcs:
            if able:
                into[stop].append((start, weight))
                out[start].append((stop, weight))
        before, behind = [1.0] + [0.0] * (self.size - 1), [0.0] * (self.size - 1) + [1.0]
        for at in range(1, self.size):
            before[at] = before[at - 1] * passed[at - 1] + sum(before[one] * w for one, w in into[at])
        for at in range(self.size - 2, -1, -1):
            behind[at] = behind[at + 1] * passed[at] + sum(behind[one] * w for one, w in out[at])
        if before[-1] <= 0:
            return float("-inf"), []
        found = [
            before[start] * weight * behind[stop] / before[-1] if able else 0.0
            for start, stop, weight, able in arcs
        ]
        return float(np.log(before[-1])), found


def fitted(contests: Iterable[Contest], ridge: float) -> Vector:
    """The weights under which the truth is likeliest: damped Newton steps, a ridge on standardised signs."""
    every = list(contests)
    signs = np.concatenate([one.signs for one in every])
    given = np.concatenate([one.given for one in every])
    free = np.concatenate([np.full(len(one.spans), one.weight) for one in every])
    free *= np.abs(signs).sum(1) > 0
    offsets = np.cumsum([0, *(len(one.spans) for one in every)])
    runs = [
        _Run(one, run, offset)
        for one, offset in zip(every, offsets.tolist(), strict=False)
        for run in contending(one.spans)
    ]
    mine = free > 0
    mean = np.average(signs[mine], axis=0, weights=free[mine])
    spread = np.sqrt(np.average((signs[mine] - mean) ** 2, axis=0, weights=free[mine])) + 1e-9
    mean[0], spread[0] = 0.0, 1.0
    table = (signs - mean) / spread * mine[:, None]
    weights = np.zeros(table.shape[1])
    weights[0] = -3.0
    penalty = np.asarray(ridge * (np.arange(len(weights)) > 0), np.float64)
    loss, slope, curve = _slope(runs, table, given, weights, penalty)
    for _ in range(_ROUNDS):
        step = np.linalg.solve(curve + np.diag(penalty + 1e-6), slope)
        size = 1.0
        while True:
            new = _slope(runs, table, given, weights - size * step, penalty)
            if new[0] < loss or size < 0.05:
                break
            size /= 2
        weights, gain = weights - size * step, loss - new[0]
        loss, slope, curve = new
        if gain < _ENOUGH:
            break
    plain = weights / spread
    plain[0] = weights[0] - float(np.sum(weights * mean / spread))
    return plain


def _slope(
    runs: list[_Run], table: npt.NDArray[np.float64], given: Vector, weights: Vector, penalty: Vector
) -> tuple[float, Vector, npt.NDArray[np.float64]]:
    """The loss, its slope, and what stands for its curve."""
    odds = np.clip(table @ weights + given, -30, 30)
    exps = np.exp(odds).tolist()
    pull, sway, loss = np.zeros(len(odds)), np.zeros(len(odds)), 0.0
    for run in runs:
        rows = run.rows
        those = exps[rows.start : rows.stop]
        truth, wanted = run.shares(those, True)
        if not wanted:
            continue
        whole, found = run.shares(those, False)
        loss += run.weight * (whole - truth)
        for at, now, then in zip(rows, found, wanted, strict=True):
            pull[at] = run.weight * (now - then)
            sway[at] = run.weight * now * (1 - now)
    loss += float((penalty * weights**2).sum() / 2)
    return loss, table.T @ pull + penalty * weights, (table * sway[:, None]).T @ table
