"""One pass forwards and one back through the steps of a bout, under every habit of the speaker at once."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.grids import Floats, Grid, Ints, Move

PRUNED = 1e-9
"""A state is dropped once it holds less than this share of the forward probability under every habit. What is
lost by it is at most ``PRUNED`` times the number of states at each step, and is reported."""


class Choice(NamedTuple):
    """One way a step may have gone: its moves, its weight, and a factor by state (``0``: none)."""

    moves: tuple[Move, ...]
    weight: float
    factor: int = 0


class Step(NamedTuple):
    """One thing said, or a silence: the ways it may have gone, or what it says about the state itself.

    ``habits`` is what it says under each habit of the speaker, where that makes a difference.
    """

    at_ms: int
    choices: tuple[Choice, ...] = ()
    emission: Floats | None = None
    about: int = -1
    habits: tuple[Floats, ...] = ()


class Spread(NamedTuple):
    """Where each choice of a step leads from each active state, and its weight there (choices by states).

    ``to`` are places among the states alive after the step; one more than there are is nowhere.
    """

    to: Ints
    weights: Floats


class Forward(NamedTuple):
    """``actives[k]`` are the states alive before step ``k``, ``values[k]`` their probabilities by habit.

    ``spreads[k]`` is where step ``k`` leads from them, nothing where it only says something of the state.
    ``last`` are the values at the end, weighed by how the bout ended; ``logs`` the evidence by habit.
    """

    actives: list[Ints]
    values: list[Floats]
    spreads: list[Spread | None]
    last: Floats
    logs: Floats
    lost: float


def _spread(grid: Grid, step: Step, idx: Ints) -> tuple[Ints, Floats]:
    """Which state each choice of a step leads to from each of ``idx``, and its weight there."""
    targets = np.stack([grid.led(choice.moves)[idx] if choice.moves else idx for choice in step.choices])
    weights = np.array([choice.weight for choice in step.choices])
    weighed = np.repeat(weights[:, None], len(idx), axis=1)
    for n, choice in enumerate(step.choices):
        if choice.factor:
            weighed[n] *= grid.weights[choice.factor][idx]
    return targets, weighed


def likelihood(step: Step, idx: Ints, habits: int) -> Floats:
    """P(what a step says | each state of ``idx``), by habit."""
    if step.habits and habits > 1:
        return np.stack([one[idx] for one in step.habits])
    assert step.emission is not None
    return np.repeat(step.emission[idx][None], habits, axis=0)


def forward(
    grid: Grid, steps: list[Step], final: Floats | None, start: Floats | None, habits: int
) -> Forward:
    """The pass forwards, from 0:0 or from the distribution ``start``."""
    idx: Ints = np.zeros(1, np.int32) if start is None else np.flatnonzero(start).astype(np.int32)
    opening: Floats = np.ones(1) if start is None else start[idx] / start.sum()
    val = np.repeat(opening[None], habits, axis=0)
    made = Forward([idx], [val], [], val, np.zeros(habits), 0.0)
    logs, lost = np.zeros(habits), 0.0
    places = np.empty(grid.size + 1, np.int32)
    for step in steps:
        here = None
        if step.emission is not None:
            val, logs = _levelled(val * likelihood(step, idx, habits), logs)
            kept = (val > PRUNED).any(axis=0)
            dropped = float(val[:, ~kept].sum(axis=1).max()) if not kept.all() else 0.0
            after, val = idx[kept], val[:, kept]
        else:
            targets, weights = _spread(grid, step, idx)
            dense = _moved(grid, targets, weights, val)
            totals = dense.sum(axis=1)
            share = np.divide(1.0, totals, out=np.zeros(habits), where=totals > 0) @ dense
            after = np.flatnonzero(share > PRUNED).astype(np.int32)
            dropped = max(0.0, float(share.sum() - share[after].sum()))
            val, logs = _levelled(dense[:, after], logs)
            places[:] = len(after)
            places[after] = np.arange(len(after), dtype=np.int32)
            here = Spread(places[targets], weights)
        lost += dropped
        idx = after
        made.spreads.append(here)
        made.actives.append(idx)
        made.values.append(val)
    last = val if final is None else val * final[idx]
    with np.errstate(divide="ignore"):
        return made._replace(last=last, logs=logs + np.log(last.sum(axis=1)), lost=lost)


def _moved(grid: Grid, targets: Ints, weights: Floats, val: Floats) -> Floats:
    """The probability of every state after a step, by habit."""
    flat = targets.ravel()
    return np.stack([np.bincount(flat, (weights * one).ravel(), grid.size + 1)[:-1] for one in val])


def _levelled(val: Floats, logs: Floats) -> tuple[Floats, Floats]:
    """The probabilities summing to one under each habit; a habit that cannot be is left at nothing."""
    totals = val.sum(axis=1)
    with np.errstate(divide="ignore", invalid="ignore"):
        scaled = np.where(totals[:, None] > 0, val / totals[:, None], 0.0)
        return scaled, logs + np.log(totals)


class Posteriors(NamedTuple):
    """``chances[k]`` is P(each choice of step ``k``); ``shares[k]`` P(each state before it), by habit."""

    chances: list[Floats]
    shares: list[Floats]


def backward(steps: list[Step], run: Forward, final: Floats | None, odds: Floats) -> Posteriors:
    """The pass back under the habits that have ``odds``, and the posteriors of both together."""
    habits = len(odds)
    ending = np.ones(len(run.actives[-1])) if final is None else final[run.actives[-1]]
    beta = np.repeat(ending[None], habits, axis=0)
    chances: list[Floats] = [np.empty(0)] * len(steps)
    shares = [_shares(run.last)]
    for k in range(len(steps) - 1, -1, -1):
        idx, val, here = run.actives[k], run.values[k], run.spreads[k]
        if here is None:
            beta = likelihood(steps[k], idx, habits) * _put_back(idx, run.actives[k + 1], beta)
            chances[k] = np.ones(1)
        else:
            padded = np.concatenate([beta, np.zeros((habits, 1))], axis=1)
            through = here.weights * padded[:, here.to]
            beta = through.sum(axis=1)
            chances[k] = odds @ _shares((through * val[:, None]).sum(axis=2))
        top = beta.max(axis=1, keepdims=True)
        beta = np.divide(beta, top, out=beta, where=top > 0)
        shares.append(_shares(val * beta))
    return Posteriors(chances, shares[::-1])


def _put_back(idx: Ints, after: Ints, beta: Floats) -> Floats:
    """``beta`` over ``idx``, of which ``after`` were kept."""
    if len(idx) == len(after):
        return beta
    whole = np.zeros((len(beta), len(idx)))
    whole[:, np.searchsorted(idx, after)] = beta
    return whole


def _shares(weights: Floats) -> Floats:
    """Each row summing to one."""
    totals = weights.sum(axis=1, keepdims=True)
    return np.asarray(np.divide(weights, totals, out=np.zeros_like(weights), where=totals > 0), float)
