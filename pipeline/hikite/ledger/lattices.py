"""Exact inference over a grid: forward–backward for posteriors, Viterbi for the reported bout."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.grids import Flags, Floats, Grid, Ints
from hikite.ledger.passes import Forward, Step, backward, forward

UNLIKELY = 0.003
"""A habit less probable than this after everything was heard is left out."""


class Solved(NamedTuple):
    """``chances[k][h]`` is P(step k went way h); ``path[k]`` the way and state after it of the best bout.

    ``marginal`` is the distribution over final states (by state index), ``log`` the evidence;
    ``boards[k]`` is P(the scoreboard after step k is the one on the path). ``start`` is the state the best
    bout begins in; ``habits`` are P(each habit of the speaker).
    """

    chances: list[Floats]
    path: list[tuple[int, int]]
    marginal: Floats
    log: float
    lost: float
    start: int
    habits: Floats
    boards: list[float]


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
    final score, under the habit that makes it so.
    """
    priors = np.array(habits if any(step.habits for step in steps) else (1.0,))
    run = forward(grid, steps, final, start, len(priors))
    if not np.isfinite(run.logs).any():
        final = None
        run = forward(grid, steps, final, start, len(priors))
    log, odds = _odds(run.logs, priors)
    some = np.flatnonzero(odds).astype(np.int32)
    run, likely = _under(run, some), odds[some]
    steps = [_heard(step, some) for step in steps] if len(priors) > 1 else steps
    found = backward(steps, run, final, likely)
    ends = run.last / run.last.sum(axis=1, keepdims=True)
    marginal = np.zeros(grid.size)
    marginal[run.actives[-1]] = likely @ ends
    wanted = _best_score(grid, marginal)
    habit = int(np.argmax(likely * (ends @ wanted[run.actives[-1]])))
    wanted = wanted * (1.0 if final is None else final)
    path, first = _best_path(grid, steps, run, [one[habit] for one in found.shares], habit, wanted)
    boards = [
        _shown(grid, run.actives[k + 1], likely @ found.shares[k + 1], state)
        for k, (_, state) in enumerate(path)
    ]
    return Solved(found.chances, path, marginal, log, run.lost, first, odds, boards)


def _odds(logs: Floats, priors: Floats) -> tuple[float, Floats]:
    """The evidence of all, and P(each habit | all that was heard), the unlikely ones left out."""
    with np.errstate(divide="ignore"):
        whole = logs + np.log(priors)
    odds = np.exp(whole - whole.max())
    log = float(whole.max() + np.log(odds.sum()))
    odds = np.where(odds / odds.sum() > UNLIKELY, odds, 0.0)
    return log, odds / odds.sum()


def _under(run: Forward, some: Ints) -> Forward:
    """The pass under some of the habits alone."""
    values = [one[some] if len(one) > 1 else one for one in run.values]
    return run._replace(values=values, last=run.last[some], logs=run.logs[some])


def _heard(step: Step, some: Ints) -> Step:
    """The step as it speaks under some of the habits."""
    if not step.habits:
        return step
    habits = tuple(step.habits[n] for n in some)
    return step._replace(emission=habits[0], habits=habits)


def _shown(grid: Grid, active: Ints, shares: Floats, state: int) -> float:
    """P(the scoreboard is that of ``state``)."""
    return float(shares[grid.shown[active] == grid.shown[state]].sum())


def _best_score(grid: Grid, marginal: Floats) -> Floats:
    """1 for every state that shows the most probable final score, else 0."""
    mass = np.bincount(grid.shown, weights=marginal)
    return np.asarray(grid.shown == int(mass.argmax()), float)


def _best_path(
    grid: Grid, steps: list[Step], run: Forward, shares: list[Floats], habit: int, wanted: Floats
) -> tuple[list[tuple[int, int]], int]:
    """Viterbi over the states that hold more than a small share of the posterior.

    A path through any other state has less than that share, so a path found with more is the best of all;
    where the one found has less, the search is made again with a smaller share.
    """
    opening = np.zeros(grid.size)
    opening[run.actives[0]] = run.values[0][0]
    for least in (1e-5, 1e-9, 0.0):
        alive = [share > least for share in shares]
        if all(one.any() for one in alive):
            path, first, weight = _viterbi(grid, steps, run, alive, habit, wanted, opening)
            if weight - run.logs[habit] > np.log(max(least, 1e-300)):
                break
    return path, first


def _viterbi(
    grid: Grid,
    steps: list[Step],
    run: Forward,
    alive: list[Flags],
    habit: int,
    wanted: Floats,
    opening: Floats,
) -> tuple[list[tuple[int, int]], int, float]:
    """The best path through the ``alive`` states that ends in a ``wanted`` one, its start, its log weight."""
    idx = run.actives[0][alive[0]]
    best = np.log(opening[idx])
    came: list[tuple[Ints, Ints, Ints]] = []
    with np.errstate(divide="ignore"):
        for k, step in enumerate(steps):
            here, after = run.spreads[k], run.actives[k + 1][alive[k + 1]]
            if here is None:
                said = step.habits[habit] if step.habits else step.emission
                assert said is not None
                targets, score = idx, np.log(said[idx]) + best
            else:
                on = alive[k]
                to = here.to[:, on]
                targets = np.append(here.reached, grid.size)[to].ravel()
                weights = here.weights if here.weights.shape[1] == 1 else here.weights[:, on]
                score = (np.log(weights) + best).ravel()
            order = np.argsort(score, kind="stable")
            winner = np.full(grid.size + 1, -1, np.int64)
            winner[targets[order]] = order
            chosen = winner[after]
            reached, chosen = after[chosen >= 0], chosen[chosen >= 0]
            came.append((reached, idx[chosen % len(idx)], (chosen // len(idx)).astype(np.int32)))
            idx, best = _filled(after, reached, score[chosen])
        end = best + np.log(wanted[idx])
    state, weight = int(idx[int(end.argmax())]), float(end.max())
    path: list[tuple[int, int]] = []
    for reached, source, way in reversed(came):
        at = int(np.searchsorted(reached, state))
        path.append((int(way[at]), state))
        state = int(source[at])
    return path[::-1], state, weight


def _filled(after: Ints, reached: Ints, score: Floats) -> tuple[Ints, Floats]:
    """All alive states with their best weights, nothing for those that no alive one leads to."""
    best = np.full(len(after), -np.inf)
    best[np.searchsorted(after, reached)] = score
    return after, best
