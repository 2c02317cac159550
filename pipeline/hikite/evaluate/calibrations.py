"""Whether confidences mean what they say."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from pydantic import BaseModel

BINS = 10
_DRAWS, _SEED = 1000, 1
Floats = npt.NDArray[np.float64]


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
    told, right = _told_and_right(guesses)
    sizes, means, shares = _binned(told, right[None], bins)
    return tuple(
        Bin(guesses=int(size), probability=float(mean), right=float(share))
        for size, mean, share in zip(sizes, means, shares[0], strict=True)
    )


def calibration_error(guesses: Sequence[Guess], bins: int = BINS) -> float:
    """Expected calibration error: the mean gap between told and true shares over equal-count bins."""
    if not guesses:
        return 0.0
    told, right = _told_and_right(guesses)
    return float(_errors(told, right[None], bins)[0])


def chance_error(guesses: Sequence[Guess], bins: int = BINS) -> float:
    """The calibration error that so few guesses show on average where every probability told is the true one.

    Outcomes are drawn from the probabilities, always the same way. An error no larger than this says nothing.
    """
    if not guesses:
        return 0.0
    told, _ = _told_and_right(guesses)
    drawn = np.random.default_rng(_SEED).random((_DRAWS, len(told))) < told
    return float(_errors(told, drawn.astype(float), bins).mean())


def _told_and_right(guesses: Sequence[Guess]) -> tuple[Floats, Floats]:
    """Probabilities rising, and the outcome (0 or 1) of each."""
    ordered = sorted(guesses, key=lambda guess: guess.probability)
    return (
        np.array([guess.probability for guess in ordered]),
        np.array([guess.right for guess in ordered], dtype=float),
    )


def _errors(told: Floats, right: Floats, bins: int) -> Floats:
    """The calibration error of each row of outcomes of the same guesses."""
    sizes, means, shares = _binned(told, right, bins)
    return np.asarray(np.abs(means - shares) @ sizes / len(told))


def _binned(told: Floats, right: Floats, bins: int) -> tuple[Floats, Floats, Floats]:
    """Sizes and mean probabilities of the bins, and the mean outcomes in them by row of ``right``."""
    starts = np.unique(told, return_index=True)[1]
    alike = np.diff(np.append(starts, len(told)))
    shared = np.repeat(np.add.reduceat(right, starts, axis=1) / alike, alike, axis=1)
    sizes = np.array([part.size for part in np.array_split(told, bins) if part.size], dtype=float)
    heads = np.append(0, np.cumsum(sizes)[:-1]).astype(np.intp)
    return sizes, np.add.reduceat(told, heads) / sizes, np.add.reduceat(shared, heads, axis=1) / sizes


def brier(guesses: Sequence[Guess]) -> float:
    """Brier score: the mean squared distance between probability and outcome (0 without guesses)."""
    return sum((guess.probability - guess.right) ** 2 for guess in guesses) / max(len(guesses), 1)
