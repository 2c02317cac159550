"""How much likelier a choice is in one state than in another: factors by state, kept with their grid."""

import numpy as np

from hikite.ledger.grids import Flags, Floats, Grid
from hikite.ledger.rulebooks import Gives

LATE = 0.03
"""P(a score after the one that decided golden score, beside any other): a claim misplaced, not a move."""


def over_is(grid: Grid) -> int:
    """The factor that is 1 where the bout is over, else 0."""
    return grid.factor(("over",), lambda: _else(grid.over, 0.0))


def level_too(grid: Grid, other: int) -> int:
    """The factor ``other``, and nearly nothing where the score is not level (golden score is over)."""

    def made() -> Floats:
        level = np.logical_and.reduce([one == two for one, two in grid.tally.values()])
        return grid.weights[other] * _else(level, LATE)

    return grid.factor(("level", other), made)


def points_are(grid: Grid, side: int, points: int) -> int:
    """The factor that is 1 where a side has just so many points, else 0."""
    return tally_is(grid, "points", side, points, 0.0)


def tally_is(grid: Grid, name: str, side: int, count: int, other: float) -> int:
    """The factor that is 1 where a side has just so many points or scores of a class, else ``other``."""
    return grid.factor(
        ("tally", name, side, count, other), lambda: _else(grid.tally[name][side] == count, other)
    )


def out_is(grid: Grid, concept: str, side: int, missing: int) -> int:
    """The factor that is 1 where a side has so many penalties fewer than put it out, else 0."""
    rail = next(rail for rail in grid.plan.rails if rail.concept == concept)
    return _penalties_are(grid, concept, side, len(rail.rungs) - missing, 0.0)


def count_is(grid: Grid, concept: str, side: int, count: int, other: float) -> int:
    """The factor that is 1 where the next penalty of ``side`` is its ``count``-th, else ``other``."""
    if (concept, side) not in grid.axes:
        return 0
    return _penalties_are(grid, concept, side, count - 1, other)


def rung_is(grid: Grid, concept: str, side: int, value: Gives, other: float) -> int:
    """The factor that is 1 where the next penalty of ``side`` gives ``value``, else ``other``."""
    return grid.factor(
        ("rung", concept, side, value, other), lambda: _else(_gives(grid, concept, side, value), other)
    )


def _penalties_are(grid: Grid, concept: str, side: int, count: int, other: float) -> int:
    """The factor that is 1 where a side has just so many penalties, else ``other``."""
    return grid.factor(
        ("penalties", concept, side, count, other),
        lambda: _else(grid.axes[concept, side] == count, other),
    )


def _gives(grid: Grid, concept: str, side: int, value: Gives) -> Flags:
    """Whether the next penalty of ``side`` gives ``value``, by state; beyond the ladder it gives nothing."""
    rail = grid.plan.rail(concept)
    if rail is None:
        return np.full(grid.size, value == 0)
    gives = np.array([rung.gives == value for rung in rail.rungs] + [value == 0])
    count = grid.axes[concept, side]
    if rail.shared:
        count = np.minimum(count + grid.axes[concept, 1 - side], len(rail.rungs))
    return gives[count]


def _else(fits: Flags, other: float) -> Floats:
    return np.where(fits, 1.0, other)
