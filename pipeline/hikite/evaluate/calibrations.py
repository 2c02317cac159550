"""Whether confidences mean what they say."""

from collections.abc import Sequence

import numpy as np
from pydantic import BaseModel

BINS = 10


class Guess(BaseModel, frozen=True):
    """One confident statement, what it was about, its probability, and whether it was right."""

    about: str
    probability: float
    right: bool


class Bin(BaseModel, frozen=True):
    """One tenth of the guesses: how many, their mean probability and the share that was right."""

    guesses: int
    probability: float
    right: float


def reliability(guesses: Sequence[Guess], bins: int = BINS) -> tuple[Bin, ...]:
    """Up to ``bins`` bins of (nearly) equal count, by rising probability; none without guesses.

    Guesses of one probability share their mean outcome, so that the order of ties changes nothing.
    """
    if not guesses:
        return ()
    told = np.array([guess.probability for guess in guesses])
    right = np.array([guess.right for guess in guesses], dtype=float)
    _, group = np.unique(told, return_inverse=True)
    shared = (np.bincount(group, weights=right) / np.bincount(group))[group]
    order = np.argsort(told, kind="stable")
    parts = [part for part in np.array_split(order, bins) if part.size]
    return tuple(
        Bin(guesses=part.size, probability=float(told[part].mean()), right=float(shared[part].mean()))
        for part in parts
    )


def calibration_error(guesses: Sequence[Guess], bins: int = BINS) -> float:
    """Expected calibration error: the mean gap between told and true shares over equal-count bins."""
    found = reliability(guesses, bins)
    return sum(one.guesses * abs(one.probability - one.right) for one in found) / max(len(guesses), 1)


def brier(guesses: Sequence[Guess]) -> float:
    """Brier score: the mean squared distance between probability and outcome (0 without guesses)."""
    return sum((guess.probability - guess.right) ** 2 for guess in guesses) / max(len(guesses), 1)
