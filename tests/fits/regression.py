"""Logistic regression on named signs, drawn to 0."""

from collections import Counter
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

LEAST = 0.05


def logistic(
    examples: Sequence[tuple[str, ...]], true: NDArray[np.float64], strength: float, rarest: int
) -> dict[str, float]:
    """Each sign's log odds, of those met often enough and that weigh something."""
    counts = Counter(sign for one in examples for sign in one)
    columns = {sign: n for n, sign in enumerate(sorted(s for s in counts if counts[s] >= rarest))}
    cues = _matrix(examples, columns)

    def loss(weights: NDArray[np.float64]) -> tuple[float, NDArray[np.float64]]:
        sums = cues @ weights
        surprise = float((np.logaddexp(0, sums) - true * sums).sum())
        gradient = cues.T @ (1.0 / (1.0 + np.exp(-sums)) - true) + strength * weights
        return surprise + 0.5 * strength * float(weights @ weights), gradient

    found = minimize(loss, np.zeros(len(columns)), jac=True, method="L-BFGS-B").x
    return {sign: round(float(found[n]), 2) for sign, n in columns.items() if abs(found[n]) >= LEAST}


def odds(examples: Sequence[tuple[str, ...]], weights: dict[str, float]) -> NDArray[np.float64]:
    """The log odds of every example."""
    return np.array([sum(weights.get(sign, 0.0) for sign in one) for one in examples])


def _matrix(examples: Sequence[tuple[str, ...]], columns: dict[str, int]) -> csr_matrix:
    """The signs as a sparse matrix."""
    cells = [(row, columns[sign]) for row, signs in enumerate(examples) for sign in signs if sign in columns]
    at, to = zip(*cells, strict=True)
    return csr_matrix((np.ones(len(cells)), (at, to)), shape=(len(examples), len(columns)))
