"""Weights of a logistic regression, for the fits that judge one thing at a time."""

import numpy as np
import numpy.typing as npt

Vector = npt.NDArray[np.float64]


def fitted(signs: npt.NDArray[np.float64], right: Vector, weight: Vector, ridge: float = 2.0) -> Vector:
    """The weights of a logistic regression by Newton's method, with a ridge on standardised signs."""
    mean, spread = signs.mean(0), signs.std(0) + 1e-9
    mean[0], spread[0] = 0.0, 1.0
    table = (signs - mean) / spread
    weights = np.zeros(table.shape[1])
    penalty = ridge * (np.arange(len(weights)) > 0)
    for _ in range(40):
        p = 1 / (1 + np.exp(-table @ weights))
        slope = table.T @ (weight * (p - right)) + penalty * weights
        curve = (table * (weight * p * (1 - p))[:, None]).T @ table + np.diag(penalty + 1e-9)
        weights -= np.linalg.solve(curve, slope)
    plain = weights / spread
    plain[0] = weights[0] - float(np.sum(weights * mean / spread))
    return plain
