"""One pass forwards and one back through the steps of a bout, under every habit of the speaker at once."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.grids import Floats, Grid, Move, Places

PRUNED = 1e-9
"""A state is dropped once it holds less than this share of the forward probability: under every habit after
something said of the state, under all together after a move. What is lost by it is at most ``PRUNED`` times
the number of states at each step, and is reported."""
_TINY = np.finfo(float).tiny
# The methods of an array take as long again to find it.
_sum = np.add.reduce


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
    habits: tuple[Floats, ...] = ()


class Spread(NamedTuple):
    """Where each choice of a step leads from each active state, and its weight there (choices by states).

    ``reached`` are the states led to, in order; ``to`` are places among them, one more than there are is
    nowhere. ``weights`` is a single column where they do not differ by state.
    """

    reached: Places
    to: Places
    weights: Floats


class Forward(NamedTuple):
    """``actives[k]`` are the states alive before step ``k``, ``values[k]`` their probabilities by habit.

    ``spreads[k]`` is where step ``k`` leads from them, nothing where it only says something of the state;
    ``kept[k]`` are the places, among the states reached by it, of those that stay alive. ``last`` are the
    values at the end, weighed by how the bout ended; ``logs`` the evidence by habit. Until something is heard
    that the habits tell differently, one row stands for all of them.
    """

    actives: list[Places]
    values: list[Floats]
    spreads: list[Spread | None]
    kept: list[Places]
    last: Floats
    logs: Floats
    lost: float


def forward(
    grid: Grid, steps: list[Step], final: Floats | None, start: Floats | None, habits: int
) -> Forward:
    """The pass forwards, from 0:0 or from the distribution ``start``, under so many ``habits``."""
    idx: Places = np.zeros(1, np.intp) if start is None else np.flatnonzero(start)
    val: Floats = np.ones((1, 1)) if start is None else start[None, idx] / start.sum()
    logs, lost, scratch = np.zeros(1), 0.0, np.empty(grid.size + 1, np.intp)
    run = Forward([idx], [val], [], [], val, logs, lost)
    with np.errstate(divide="ignore"):
        for step in steps:
            here = None
            if step.emission is not None:
                val = val * likelihood(step, idx)
            else:
                here = _spread(grid, step, idx, scratch)
                idx, val = here.reached, _moved(here, val)
            totals = _sum(val, 1)
            logs = logs + np.log(totals)
            val = val / np.maximum(totals, _TINY)[:, None]
            held = val.max(axis=0) if here is None else _sum(val, 0) * (habits / len(val))
            alive = held > PRUNED
            kept = alive.nonzero()[0]
            if len(kept) < len(idx):
                lost += float(held[~alive].sum())
                idx, val = idx.take(kept), val.take(kept, axis=1)
            run.spreads.append(here)
            run.kept.append(kept)
            run.actives.append(idx)
            run.values.append(val)
        last = val if final is None else val * final[idx]
        return run._replace(last=last, logs=logs + np.log(last.sum(axis=1)), lost=lost)


def likelihood(step: Step, idx: Places) -> Floats:
    """P(what a step says | each state of ``idx``), by habit where that makes a difference."""
    if step.habits:
        return np.array([one[idx] for one in step.habits])
    assert step.emission is not None
    return step.emission[None, idx]


def _spread(grid: Grid, step: Step, idx: Places, scratch: Places) -> Spread:
    """Where a step leads from each of ``idx``; ``scratch`` has room for a place of every state."""
    ways = [grid.led(choice.moves)[idx] if choice.moves else idx for choice in step.choices]
    targets = np.array(ways, np.intp)
    met = np.zeros(grid.size + 1, bool)
    met[targets] = True
    reached = met[:-1].nonzero()[0]
    scratch[reached] = np.arange(len(reached))
    scratch[-1] = len(reached)
    weights = np.array([[choice.weight] for choice in step.choices])
    if any(choice.factor for choice in step.choices):
        weights = weights * np.array([grid.weights[choice.factor][idx] for choice in step.choices])
    return Spread(reached, scratch[targets], weights)


def _moved(here: Spread, val: Floats) -> Floats:
    """The probability of every state reached by a step, by habit."""
    to, room = here.to.ravel(), len(here.reached) + 1
    return np.array([np.bincount(to, (here.weights * one).ravel(), room)[:-1] for one in val])


class Posteriors(NamedTuple):
    """``chances[k]`` is P(each choice of step ``k``); ``shares[k]`` P(each state before it), by habit."""

    chances: list[Floats]
    shares: list[Floats]


def backward(steps: list[Step], run: Forward, final: Floats | None, odds: Floats) -> Posteriors:
    """The pass back under the habits that have ``odds``, and the posteriors of both together."""
    beta = np.ones((1, len(run.actives[-1]))) if final is None else final[None, run.actives[-1]]
    chances: list[Floats] = [np.ones(1)] * len(steps)
    shares = [_shares(run.last)]
    for k in range(len(steps) - 1, -1, -1):
        val, here = run.values[k], run.spreads[k]
        beta = _put_back(run.kept[k], beta, val.shape[1] if here is None else len(here.reached) + 1)
        if here is None:
            beta = likelihood(steps[k], run.actives[k]) * beta
        else:
            beta, ways = _led_back(here, beta, val)
            chances[k] = odds @ _shares(ways)
        beta = beta / np.maximum(beta.max(axis=1, keepdims=True), _TINY)
        shares.append(_shares(val * beta))
    return Posteriors(chances, shares[::-1])


def _led_back(here: Spread, beta: Floats, val: Floats) -> tuple[Floats, Floats]:
    """``beta`` before a step that led somewhere, and what went each way, by habit."""
    through = beta.take(here.to, axis=1)
    if here.weights.shape[1] == 1:
        return (here.weights.T @ through)[:, 0], (through @ val[:, :, None])[:, :, 0] * here.weights.T
    through *= here.weights
    return _sum(through, 1), (through @ val[:, :, None])[:, :, 0]


def _put_back(kept: Places, beta: Floats, room: int) -> Floats:
    """``beta`` over all ``room`` states reached, nothing for those not kept."""
    whole = np.zeros((len(beta), room))
    whole[:, kept] = beta
    return whole


def _shares(weights: Floats) -> Floats:
    """Each row summing to one, or all nothing."""
    return np.asarray(weights / np.maximum(_sum(weights, 1), _TINY)[:, None], float)
