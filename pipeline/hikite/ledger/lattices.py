"""Exact inference over a grid: forward–backward for posteriors, Viterbi for the reported bout."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.grids import Floats, Grid, Ints, Move

PRUNED = 1e-11
"""A state is dropped once it holds less than this share of the forward probability. What is lost by it
is at most ``PRUNED`` times the number of states at each step, and is reported as ``Solved.lost``."""
UNLIKELY = 0.003
"""A habit less probable than this after everything was heard is left out."""


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


class _Plan(NamedTuple):
    """A step's choices as rows of the grid's table, their weights and factors."""

    rows: Ints
    weights: Floats
    factors: list[int]


class _Pass(NamedTuple):
    """The steps under one habit, run forwards: what is alive at each, and how probable all of it is."""

    steps: list[Step]
    actives: list[Ints]
    values: list[Floats]
    last: Floats
    log: float
    lost: float


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
    plans = [_compiled(grid, step) for step in steps]
    priors = habits if any(step.habits for step in steps) else (1.0,)
    passes = [_run(grid, _under(steps, n), plans, final, start) for n in range(len(priors))]
    if all(one.last.sum() <= 0 for one in passes):
        final = None
        passes = [_run(grid, one.steps, plans, final, start) for one in passes]
    log, odds = _odds(passes, priors)
    heard = [
        (odd, one, *_posteriors(grid, one, plans, final))
        for odd, one in zip(odds, passes, strict=True)
        if odd > 0
    ]
    chances = [
        np.sum([odd * found[k] for odd, _, found, _ in heard], axis=0, dtype=float) for k in range(len(steps))
    ]
    marginals = [odd * _marginal(grid, one) for odd, one, _, _ in heard]
    marginal = np.sum(marginals, axis=0, dtype=float)
    wanted = _best_score(grid, marginal)
    _, best, _, shares = heard[int(np.argmax([one @ wanted for one in marginals]))]
    path, first = _best_path(grid, best, plans, shares, wanted * (1.0 if final is None else final))
    boards = [
        sum(odd * _shown(grid, one.actives[k + 1], found[k + 1], state) for odd, one, _, found in heard)
        for k, (_, state) in enumerate(path)
    ]
    return Solved(chances, path, marginal, log, sum(one.lost for one in passes), first, odds, boards)


def _shown(grid: Grid, active: Ints, shares: Floats, state: int) -> float:
    """P(the scoreboard is that of ``state``)."""
    return float(shares[grid.shown[active] == grid.shown[state]].sum())


def _odds(passes: list[_Pass], priors: tuple[float, ...]) -> tuple[float, Floats]:
    """The evidence of all, and P(each habit | all that was heard), the unlikely ones left out."""
    logs = np.array([one.log for one in passes]) + np.log(np.array(priors) + 1e-300)
    odds = np.exp(logs - logs.max())
    log = float(logs.max() + np.log(odds.sum()))
    odds = np.where(odds / odds.sum() > UNLIKELY, odds, 0.0)
    return log, odds / odds.sum()


def _marginal(grid: Grid, one: _Pass) -> Floats:
    marginal = np.zeros(grid.size)
    marginal[one.actives[-1]] = one.last / one.last.sum()
    return marginal


def _under(steps: list[Step], habit: int) -> list[Step]:
    return [step._replace(emission=step.habits[habit]) if step.habits else step for step in steps]


def _run(
    grid: Grid, steps: list[Step], plans: list[_Plan], final: Floats | None, start: Floats | None
) -> _Pass:
    actives, values, log, lost = _forward(grid, steps, plans, start)
    last = values[-1] if final is None else values[-1] * final[actives[-1]]
    total = float(last.sum())
    return _Pass(steps, actives, values, last, log + float(np.log(max(total, 1e-300))), lost)


def _posteriors(
    grid: Grid, one: _Pass, plans: list[_Plan], final: Floats | None
) -> tuple[list[Floats], list[Floats]]:
    """P(each choice of each step), and the share of every state alive before and after each."""
    steps, actives, values = one.steps, one.actives, one.values
    beta = np.ones(grid.size + 1) if final is None else np.append(final, 0.0)
    beta[-1] = 0.0
    chances: list[Floats] = [np.empty(0)] * len(steps)
    shares = [one.last / one.last.sum()]
    for k in range(len(steps) - 1, -1, -1):
        chances[k], beta = _backward(grid, steps[k], plans[k], actives[k], values[k], beta)
        share = values[k] * beta[actives[k]]
        shares.append(share / share.sum())
    return chances, shares[::-1]


def _best_path(
    grid: Grid, one: _Pass, plans: list[_Plan], shares: list[Floats], wanted: Floats
) -> tuple[list[tuple[int, int]], int]:
    """Viterbi over the states that hold more than a small share of the posterior.

    A path through any other state has less than that share, so a path found with more is the best of all;
    where the one found has less, the search is made again with a smaller share.
    """
    opening = np.zeros(grid.size)
    opening[one.actives[0]] = one.values[0]
    for least in (1e-5, 1e-9, 0.0):
        alive = [idx[share > least] for idx, share in zip(one.actives, shares, strict=True)]
        if all(len(idx) for idx in alive):
            path, first, weight = _viterbi(grid, one.steps, plans, alive, wanted, opening)
            if weight - one.log > np.log(max(least, 1e-300)):
                break
    return path, first


def _compiled(grid: Grid, step: Step) -> _Plan:
    rows = np.array([grid.row(choice.moves) for choice in step.choices], np.int32)
    weights = np.array([choice.weight for choice in step.choices])
    return _Plan(rows, weights, [choice.factor for choice in step.choices])


def _spread(grid: Grid, plan: _Plan, idx: Ints) -> tuple[Ints, Floats]:
    """Where each choice leads from each active state, and its weight there."""
    rows, weights, factors = plan
    targets = grid.table[rows[:, None], idx]
    spread = np.repeat(weights[:, None], len(idx), axis=1)
    for h, factor in enumerate(factors):
        if factor:
            spread[h] *= grid.weights[factor][idx]
    return targets, spread


def _forward(
    grid: Grid, steps: list[Step], plans: list[_Plan], start: Floats | None
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
    grid: Grid, step: Step, plan: _Plan, idx: Ints, val: Floats, beta: Floats
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
    plans: list[_Plan],
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
