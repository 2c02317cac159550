"""The most probable way through a bout's steps (Viterbi), among the scoreboards that are likely all told."""

import numpy as np

from hikite.ledger.grids import Floats, Grid, Places
from hikite.ledger.passes import Forward, Step

CLEAR, LEAST = (0.5, 0.1, 0.01, 1e-5, 1e-9, 0.0), 1e-6
"""How likely a scoreboard must be to be passed through, as a share of the likeliest at its step: so much, or
where no path leads through such alone, less; and the least share of the posterior of a state there."""


def best_path(
    grid: Grid, steps: list[Step], run: Forward, shares: list[Floats], habit: int, wanted: Floats
) -> tuple[list[tuple[int, int]], int]:
    """The way and the state after each step, and the state before them all, of the best path to ``wanted``.

    The most probable single path may be one of few that keep to an unlikely score where many share a likelier
    one. So it passes only through scoreboards that are likely all told; ``shares`` are the posteriors.
    """
    boards = [_boards(grid, active, share) for active, share in zip(run.actives, shares, strict=True)]
    for clear in CLEAR:
        alive = [
            ((board >= clear * board.max()) & (share > min(clear, LEAST))).nonzero()[0]
            for board, share in zip(boards, shares, strict=True)
        ]
        if all(len(one) for one in alive):
            path, first, weight = _search(steps, run, alive, habit, wanted)
            if np.isfinite(weight):
                break
    return path, first


def _boards(grid: Grid, active: Places, share: Floats) -> Floats:
    """P(the scoreboard of each state)."""
    shown = grid.shown.take(active)
    return np.asarray(np.bincount(shown, share).take(shown), float)


def _search(
    steps: list[Step], run: Forward, alive: list[Places], habit: int, wanted: Floats
) -> tuple[list[tuple[int, int]], int, float]:
    """The best path through ``alive`` places that ends in a ``wanted`` state, its start, its log weight."""
    idx = run.actives[0].take(alive[0])
    came: list[tuple[Places, Places, Places]] = []
    with np.errstate(divide="ignore"):
        best = np.log(run.values[0][0].take(alive[0]))
        for k in range(len(steps)):
            to, room, score = _onward(steps[k], run, k, alive[k], habit)
            score = (score + best).ravel()
            order = np.argsort(score, kind="stable")
            winner = np.full(room, -1, np.intp)
            winner[to[order]] = order
            after = run.actives[k + 1].take(alive[k + 1])
            chosen = winner.take(run.kept[k].take(alive[k + 1]))
            came.append((after, idx[chosen % len(idx)], chosen // len(idx)))
            # Nothing for the states that no alive one leads to.
            idx, best = after, np.where(chosen >= 0, score[chosen], -np.inf)
        end = best + np.log(wanted[idx])
    path, first = _traced(came, int(idx[int(end.argmax())]))
    return path, first, float(end.max())


def _onward(step: Step, run: Forward, k: int, on: Places, habit: int) -> tuple[Places, int, Floats]:
    """Where step ``k`` leads from the states at ``on``, as places among so many, and the log weights."""
    here = run.spreads[k]
    if here is None:
        said = step.habits[habit] if step.habits else step.emission
        assert said is not None
        return on, len(run.actives[k]), np.log(said.take(run.actives[k].take(on)))[None]
    weights = here.weights if here.weights.shape[1] == 1 else here.weights.take(on, axis=1)
    return here.to.take(on, axis=1).ravel(), len(here.reached) + 1, np.log(weights)


def _traced(came: list[tuple[Places, Places, Places]], state: int) -> tuple[list[tuple[int, int]], int]:
    """The path back from a last state, and the state it begins in."""
    path: list[tuple[int, int]] = []
    for reached, source, way in reversed(came):
        at = int(np.searchsorted(reached, state))
        path.append((int(way[at]), state))
        state = int(source[at])
    return path[::-1], state
