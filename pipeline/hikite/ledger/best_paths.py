"""The most probable way through a bout's steps (Viterbi), among the states worth a look."""

import numpy as np

from hikite.ledger.grids import Flags, Floats, Places
from hikite.ledger.passes import Forward, Step

LEAST = (1e-5, 1e-9, 0.0)
"""States with less than this share of the posterior are left out of the search, at last none."""


def best_path(
    steps: list[Step], run: Forward, shares: list[Floats], habit: int, wanted: Floats
) -> tuple[list[tuple[int, int]], int]:
    """The way and the state after each step, and the state before them all, of the best path to ``wanted``.

    A path through a state left out has less than that state's share, so a path found with more is the best of
    all; where the one found has less, the search is made again with a smaller share.
    """
    for least in LEAST:
        alive = [share > least for share in shares]
        if all(one.any() for one in alive):
            path, first, weight = _search(steps, run, alive, habit, wanted)
            if weight - run.logs[habit] > np.log(max(least, 1e-300)):
                break
    return path, first


def _search(
    steps: list[Step], run: Forward, alive: list[Flags], habit: int, wanted: Floats
) -> tuple[list[tuple[int, int]], int, float]:
    """The best path through the ``alive`` states that ends in a ``wanted`` one, its start, its log weight."""
    idx = run.actives[0][alive[0]]
    came: list[tuple[Places, Places, Places]] = []
    with np.errstate(divide="ignore"):
        best = np.log(run.values[0][0][alive[0]])
        for k in range(len(steps)):
            to, room, score = _onward(steps[k], run, k, alive[k], habit)
            score = (score + best).ravel()
            order = np.argsort(score, kind="stable")
            winner = np.full(room, -1, np.intp)
            winner[to[order]] = order
            after = run.actives[k + 1][alive[k + 1]]
            chosen = winner[run.kept[k][alive[k + 1]]]
            came.append((after, idx[chosen % len(idx)], chosen // len(idx)))
            # Nothing for the states that no alive one leads to.
            idx, best = after, np.where(chosen >= 0, score[chosen], -np.inf)
        end = best + np.log(wanted[idx])
    path, first = _traced(came, int(idx[int(end.argmax())]))
    return path, first, float(end.max())


def _onward(step: Step, run: Forward, k: int, on: Flags, habit: int) -> tuple[Places, int, Floats]:
    """Where step ``k`` leads from the states ``on``, as places among so many, and the log weights."""
    here = run.spreads[k]
    if here is None:
        said = step.habits[habit] if step.habits else step.emission
        assert said is not None
        return np.flatnonzero(on), len(on), np.log(said[run.actives[k][on]])[None]
    weights = here.weights if here.weights.shape[1] == 1 else here.weights[:, on]
    return here.to[:, on].ravel(), len(here.reached) + 1, np.log(weights)


def _traced(came: list[tuple[Places, Places, Places]], state: int) -> tuple[list[tuple[int, int]], int]:
    """The path back from a last state, and the state it begins in."""
    path: list[tuple[int, int]] = []
    for reached, source, way in reversed(came):
        at = int(np.searchsorted(reached, state))
        path.append((int(way[at]), state))
        state = int(source[at])
    return path[::-1], state
