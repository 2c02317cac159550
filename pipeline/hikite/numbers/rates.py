"""Shares with the interval that chance leaves."""

from math import sqrt

from pydantic import BaseModel

_Z = 1.959963984540054
"""The 97.5th percentile of the normal distribution: intervals are of 95 %."""


class Rate(BaseModel, frozen=True, extra="forbid"):
    """A share in [0, 1] with its 95 % interval."""

    share: float
    low: float
    high: float


def wilson(count: float, of: float) -> Rate | None:
    """The share ``count / of`` with Wilson's score interval; nothing of nothing.

    E. B. Wilson, Journal of the American Statistical Association 22 (1927), 209-212, without correction for
    continuity. Either number may be a sum of weights: the interval is then that of so many whole cases.
    """
    if of <= 0:
        return None
    share = min(max(count / of, 0.0), 1.0)
    spread = _Z * _Z / of
    middle = (share + spread / 2) / (1 + spread)
    half = sqrt(share * (1 - share) * spread + spread * spread / 4) / (1 + spread)
    # At the ends the bound is the end itself, whatever the rounding.
    low = 0.0 if share == 0 else max(middle - half, 0.0)
    high = 1.0 if share == 1 else min(middle + half, 1.0)
    return Rate(share=share, low=low, high=high)
