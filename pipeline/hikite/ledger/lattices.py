"""Exact inference over a grid: posteriors of every step, and the bout that is reported."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.best_paths import best_path
from hikite.ledger.grids import Floats, Grid, Places
from hikite.ledger.passes import Forward, Posteriors, Step, backward, forward

UNLIKELY = 0.003
"""A habit less probable than this after everything was heard is left out."""


class Solved(NamedTuple):
    """``chances[k][h]`` is P(step k went way h); ``path[k]`` the way and state after it of the best bout.

    ``marginal`` is the distribution over final states (by state index), ``start`` the state the best bout
    begins in; ``boards[k]`` is P(the scoreboard after step k is the one on the path). ``lost`` bounds what
    the states left out may have held. ``evidence`` is log P(all that was said).
    """

    chances: list[Floats]
    path: list[tuple[int, int]]
    marginal: Floats
    lost: float
    start: int
    boards: list[float]
    evidence: float


def solve(
    grid: Grid,
    steps: list[Step],
    final: Floats | None = None,
    start: Floats | None = None,
    habits: tuple[float, ...] = (1.0,),
) -> Solved:
    """Posteriors and the best bout through ``steps``, from 0:0 or from the distribution ``start``.

    ``final`` weighs the states at the end, ``habits`` are the probabilities of the speaker's habits before
    anything is heard. The best path is the most probable one among those that end in the most probable
    final score by way of likely ones, under the habit that makes it so.
    """
    priors = np.array(habits if any(step.habits for step in steps) else (1.0,))
    run, final = _run(grid, steps, final, start, len(priors))
    with np.errstate(divide="ignore"):
        whole = run.logs + np.log(priors)
    odds = _odds(whole)
    some = np.flatnonzero(odds)
    run, likely = _under(run, some), odds[some]
    steps = [_heard(step, some) for step in steps] if len(priors) > 1 else steps
    found = backward(steps, run, final, likely)
    ends = run.last / run.last.sum(axis=1, keepdims=True)
    marginal = np.zeros(grid.size)
    marginal[run.actives[-1]] = likely @ ends
    wanted = _best_score(grid, marginal)
    habit = int(np.argmax(likely * (ends @ wanted[run.actives[-1]])))
    wanted = wanted * (1.0 if final is None else final)
    path, first = best_path(grid, steps, run, [likely @ one for one in found.shares], habit, wanted)
    boards = _boards(grid, run, found, likely, path)
    evidence = float(np.logaddexp.reduce(whole))
    return Solved(found.chances, path, marginal, run.lost, first, boards, evidence)


def _run(
    grid: Grid, steps: list[Step], final: Floats | None, start: Floats | None, habits: int
) -> tuple[Forward, Floats | None]:
    """The pass forwards, and what weighs its end: nothing where no path can end so."""
    run = forward(grid, steps, final, start, habits)
    if final is None or np.isfinite(run.logs).any():
        return run, final
    return forward(grid, steps, None, start, habits), None


def _odds(whole: Floats) -> Floats:
    """P(each habit | all that was heard) from the logs of both together, the unlikely ones left out."""
    odds = np.exp(whole - whole.max())
    odds = np.where(odds / odds.sum() > UNLIKELY, odds, 0.0)
    return np.asarray(odds / odds.sum(), float)


def _under(run: Forward, some: Places) -> Forward:
    """The pass under some of the habits alone."""
    values = [one[some] if len(one) > 1 else one for one in run.values]
    return run._replace(values=values, last=run.last[some], logs=run.logs[some])


def _heard(step: Step, some: Places) -> Step:
    """The step as it speaks under some of the habits."""
    if not step.habits:
        return step
    habits = tuple(step.habits[n] for n in some)
    return step._replace(emission=habits[0], habits=habits)


def _boards(
    grid: Grid, run: Forward, found: Posteriors, likely: Floats, path: list[tuple[int, int]]
) -> list[float]:
    """P(the scoreboard after each step is the one on the path)."""
    boards = []
    for (_, state), active, shares in zip(path, run.actives[1:], found.shares[1:], strict=True):
        same = grid.shown.take(active) == grid.shown[state]
        boards.append(float((likely @ shares)[same].sum()))
    return boards


def _best_score(grid: Grid, marginal: Floats) -> Floats:
    """1 for every state that shows the most probable final score, else 0."""
    mass = np.bincount(grid.shown, weights=marginal)
    return np.asarray(grid.shown == int(mass.argmax()), float)
