"""Exact inference over a grid: forward–backward for posteriors, Viterbi for the reported bout."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.grids import Floats, Grid, Ints, Move

PRUNED = 1e-11
"""A state is dropped once it holds less than this share of the forward probability. What is lost by it
is at most ``PRUNED`` times the number of states at each step, and is reported as ``Solved.lost``."""


class Choice(NamedTuple):
    """One way a step may have gone: its moves, its weight, and a factor by state (``0``: none)."""

    moves: tuple[Move, ...]
    weight: float
    factor: int = 0


class Step(NamedTuple):
    """One thing said, or a silence: the ways it may have gone, or what it says about the state itself."""

    at_ms: int
    choices: tuple[Choice, ...] = ()
    emission: Floats | None = None
    about: int = -1


class Solved(NamedTuple):
    """``chances[k][h]`` is P(step k went way h); ``path[k]`` the way and state after it of the best bout.

    ``marginal`` is the distribution over final states (by state index), ``log`` the evidence;
    ``start`` is the state the best bout begins in.
    """

    chances: list[Floats]
    path: list[tuple[int, int]]
    marginal: Floats
    log: float
    lost: float
    start: int


def solve(grid: Grid, steps: list[Step], final: Floats | None = None, start: Floats | None = None) -> Solved:
    """Posteriors and the best bout through ``steps``, from 0:0 or from the distribution ``start``.

    ``final`` weighs the states at the end.
    The best path is the most probable one among those that end in the most probable final score.
    """
    plans = [_compiled(grid, step) for step in steps]
    actives, values, log, lost = _forward(grid, steps, plans, start)
    beta = np.ones(grid.size + 1) if final is None else np.append(final, 0.0)
    last = values[-1] * beta[actives[-1]]
    total = float(last.sum())
    if total <= 0:
        beta, last, total, final = np.ones(grid.size + 1), values[-1], float(values[-1].sum()), None
    beta[-1] = 0.0
    marginal = np.zeros(grid.size)
    marginal[actives[-1]] = last / total
    chances: list[Floats] = [np.empty(0)] * len(steps)
    shares = [last / total]
    for k in range(len(steps) - 1, -1, -1):
        chances[k], beta = _backward(grid, steps[k], plans[k], actives[k], values[k], beta)
        share = values[k] * beta[actives[k]]
        shares.append(share / share.sum())
    log += float(np.log(total))
    wanted = _best_score(grid, marginal) * (1.0 if final is None else final)
    path, first = _best_path(grid, steps, plans, actives, values[0], shares[::-1], wanted, log)
    return Solved(chances, path, marginal, log, lost, first)


def _best_path(
    grid: Grid,
    steps: list[Step],
    plans: list[tuple[Ints, Floats, list[int]]],
    actives: list[Ints],
    values: Floats,
    shares: list[Floats],
    wanted: Floats,
    log: float,
) -> tuple[list[tuple[int, int]], int]:
    """Viterbi over the states that hold more than a small share of the posterior.

    A path through any other state has less than that share, so a path found with more is the best of all;
    where the one found has less, the search is made again with a smaller share.
    """
    opening = np.zeros(grid.size)
    opening[actives[0]] = values
    for least in (1e-5, 1e-9, 0.0):
        alive = [idx[share > least] for idx, share in zip(actives, shares, strict=True)]
        if all(len(idx) for idx in alive):
            path, first, weight = _viterbi(grid, steps, plans, alive, wanted, opening)
            if weight - log > np.log(max(least, 1e-300)):
                break
    return path, first


def _compiled(grid: Grid, step: Step) -> tuple[Ints, Floats, list[int]]:
    rows = np.array([grid.row(choice.moves) for choice in step.choices], np.int32)
    weights = np.array([choice.weight for choice in step.choices])
    return rows, weights, [choice.factor for choice in step.choices]


def _spread(grid: Grid, plan: tuple[Ints, Floats, list[int]], idx: Ints) -> tuple[Ints, Floats]:
    """Where each choice leads from each active state, and its weight there."""
    rows, weights, factors = plan
    targets = grid.table[rows[:, None], idx]
    spread = np.repeat(weights[:, None], len(idx), axis=1)
    for h, factor in enumerate(factors):
        if factor:
            spread[h] *= grid.weights[factor][idx]
    return targets, spread


def _forward(
    grid: Grid, steps: list[Step], plans: list[tuple[Ints, Floats, list[int]]], start: Floats | None
) -> tuple[list[Ints], list[Floats], float, float]:
    idx: Ints = np.zeros(1, np.int32) if start is None else np.flatnonzero(start).astype(np.int32)
    val: Floats = np.ones(1) if start is None else start[idx] / start.sum()
    actives, values, log, lost = [idx], [val], 0.0, 0.0
    for step, plan in zip(steps, plans, strict=True):
        if step.emission is not None:
            val = np.asarray(val * step.emission[idx])
        else:
            targets, spread = _spread(grid, plan, idx)
            weights = (spread * val).ravel()
            dense = np.asarray(np.bincount(targets.ravel(), weights, grid.size + 1)[:-1], float)
            idx = np.flatnonzero(dense > 0).astype(np.int32)
            val = dense[idx]
        total = val.sum()
        if total <= 0:
            idx, val, total = actives[-1], np.ones(len(actives[-1])), float(len(actives[-1]))
        val = val / total
        log += float(np.log(total))
        kept = val > PRUNED
        if not kept.all():
            lost += float(val[~kept].sum())
            idx, val = idx[kept], val[kept]
        actives.append(idx)
        values.append(val)
    return actives, values, log, lost


def _backward(
    grid: Grid, step: Step, plan: tuple[Ints, Floats, list[int]], idx: Ints, val: Floats, beta: Floats
) -> tuple[Floats, Floats]:
    """P(each choice of the step), and the backward vector before it."""
    before = np.zeros(grid.size + 1)
    if step.emission is not None:
        before[idx] = step.emission[idx] * beta[idx]
        chances = np.ones(1)
    else:
        targets, spread = _spread(grid, plan, idx)
        through = spread * beta[targets]
        before[idx] = through.sum(axis=0)
        chances = through @ val
        total = chances.sum()
        chances = chances / total if total > 0 else np.full(len(chances), 1 / len(chances))
    top = before.max()
    return chances, before / top if top > 0 else np.append(np.ones(grid.size), 0.0)


def _best_score(grid: Grid, marginal: Floats) -> Floats:
    """1 for every state that shows the most probable final score, else 0."""
    shown = grid.shown
    mass = np.bincount(shown, weights=marginal)
    return np.asarray(shown == int(mass.argmax()), float)


def _viterbi(
    grid: Grid,
    steps: list[Step],
    plans: list[tuple[Ints, Floats, list[int]]],
    alive: list[Ints],
    wanted: Floats,
    opening: Floats,
) -> tuple[list[tuple[int, int]], int, float]:
    """The best path through the ``alive`` states that ends in a ``wanted`` one, its start, its log weight."""
    idx, best = alive[0], np.log(opening[alive[0]])
    came: list[tuple[Ints, Ints, Ints]] = []
    with np.errstate(divide="ignore"):
        for step, plan, after in zip(steps, plans, alive[1:], strict=True):
            if step.emission is not None:
                targets, score = idx, np.log(step.emission[idx]) + best
            else:
                led, spread = _spread(grid, plan, idx)
                targets, score = led.ravel(), (np.log(spread) + best).ravel()
            order = np.argsort(score, kind="stable")
            winner = np.full(grid.size + 1, -1, np.int64)
            winner[targets[order]] = order
            chosen = winner[after]
            reached, chosen = after[chosen >= 0], chosen[chosen >= 0]
            came.append((reached, idx[chosen % len(idx)], (chosen // len(idx)).astype(np.int32)))
            idx, best = reached, score[chosen]
        end = best + np.log(wanted[idx])
    state, weight = int(idx[int(end.argmax())]), float(end.max())
    path: list[tuple[int, int]] = []
    for reached, source, way in reversed(came):
        at = int(np.searchsorted(reached, state))
        path.append((int(way[at]), state))
        state = int(source[at])
    return path[::-1], state, weight
