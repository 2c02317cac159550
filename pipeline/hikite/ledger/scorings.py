"""The best path read back: what scored when, how sure that is, and the scoreboard after it."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.deeds import Matter
from hikite.ledger.grids import Grid, Move
from hikite.ledger.lattices import Solved
from hikite.ledger.noise import Temper
from hikite.ledger.plans import TOP
from hikite.ledger.rulebooks import Gives
from hikite.ledger.steps import Steps
from hikite.records import OtherScore, Tally

OTHERS, LEAST = 3, 0.05
"""So many other readings are told at most, each at least so probable."""
UNSAID = ("gap", "deed")
"""Steps whose scores nobody called: when exactly such a score fell is less sure than that it did."""


class Scoring(NamedTuple):
    """One line of the score: ``value`` to ``side`` (a counted penalty: the side penalised).

    ``step`` is the lattice step, ``source`` its kind (``call``, ``deed``, ``gap``) and ``about`` its index;
    ``penalty`` is the ladder whose ``rung`` (from 0) it is. ``sure`` is P(it happened so), ``side_sure``
    P(side | it happened), ``value_sure`` P(value | an award), ``state`` the state after it; ``others`` is
    what the step may have brought instead (or nothing), with probabilities. ``nth`` of ``of`` (from 0) it is
    where one call, said more than once, brought the same more than once.
    """

    step: int
    source: str
    about: int
    side: int
    value: Gives
    sure: float
    side_sure: float
    state: int
    penalty: str | None = None
    rung: int = 0
    value_sure: float = 1.0
    others: tuple[tuple[Move | None, float], ...] = ()
    nth: int = 0
    of: int = 1


def read_path(steps: Steps, solved: Solved, grid: Grid, temper: Temper | None = None) -> list[Scoring]:
    """The scorings of the best bout in time order, those taken back left out.

    ``temper`` turns the odds that each happened into those found right; by itself nothing is changed.
    """
    temper = temper or Temper()
    scorings: list[Scoring] = []
    before = solved.start
    for k, ((way, state), step) in enumerate(zip(solved.path, steps.steps, strict=True)):
        moves = step.choices[way].moves if step.choices else ()
        for number, move in enumerate(moves):
            if move.what == "retract":
                _take_back(scorings, move)
                continue
            found = _scoring(steps, solved, grid, k, number, before)
            if found is not None:
                scorings.append(found._replace(sure=temper(found.sure)))
        before = state
    return scorings


def _scoring(steps: Steps, solved: Solved, grid: Grid, k: int, number: int, before: int) -> Scoring | None:
    """What one move of the best path brought; nothing for a penalty that gives nothing."""
    way, _ = solved.path[k]
    moves = steps.steps[k].choices[way].moves
    move, source = moves[number], steps.sources[k]
    state = int(grid.led(moves[: number + 1])[before])
    nth, of = moves[:number].count(move), moves.count(move)
    sure, side_sure = _chances(steps, solved, k, move)
    if nth:
        sure = min(sure, _both(steps, solved, k, moves))
    others = _others(steps, solved, k, moves)
    if move.what == "award":
        value_sure = _value_sure(steps, solved, k, move)
        at = (k, source.kind, source.about, move.side, move.value, sure, side_sure, state)
        return Scoring(*at, value_sure=value_sure, others=others, nth=nth, of=of)
    found = _penalised(grid, move, int(grid.led(moves[:number])[before]))
    if found is None:
        return None
    side, value, rung = found
    at = (k, source.kind, source.about, side, value, sure, side_sure, state)
    return Scoring(*at, penalty=str(move.value), rung=rung, others=others)


def _penalised(grid: Grid, move: Move, before: int) -> tuple[int, Gives, int] | None:
    """Who gets what when the move's side is penalised in the state before, with the rung's number."""
    rail = grid.plan.rail(move.value)
    if rail is None:
        return None
    rung = int(grid.axes[rail.concept, move.side][before])
    if rail.shared:
        rung += int(grid.axes[rail.concept, 1 - move.side][before])
    if rail.counted:
        return move.side, rail.concept, rung
    gives = rail.rungs[rung].gives if rung < len(rail.rungs) else 0
    return (1 - move.side, gives, rung) if gives else None


def _take_back(scorings: list[Scoring], move: Move) -> None:
    """Leave out the last that brought this, be it for an action or for the other one's fault."""
    for at in range(len(scorings) - 1, -1, -1):
        if (scorings[at].side, scorings[at].value) == (move.side, move.value):
            del scorings[at]
            return


def _chances(steps: Steps, solved: Solved, k: int, move: Move) -> tuple[float, float]:
    """P(the step brought this move), and P(this side | either side got such a move)."""
    step, chances = steps.steps[k], solved.chances[k]
    crossed = Move(move.what, 1 - move.side, move.value)
    sure = sum(float(p) for choice, p in zip(step.choices, chances, strict=True) if move in choice.moves)
    other = sum(float(p) for choice, p in zip(step.choices, chances, strict=True) if crossed in choice.moves)
    side_sure = sure / (sure + other) if sure + other > 0 else 0.5
    if steps.sources[k].kind in UNSAID and move.what == "award":
        sure = _shared_out(steps, solved, k, move)
    return min(1.0, sure), side_sure


def _value_sure(steps: Steps, solved: Solved, k: int, move: Move) -> float:
    """P(this value | its side got an award)."""
    ways = list(zip(steps.steps[k].choices, solved.chances[k], strict=True))
    side = [m for m in {m for way, _ in ways for m in way.moves} if m.what == "award" and m.side == move.side]
    every = sum(float(p) for way, p in ways if any(m in way.moves for m in side))
    this = sum(float(p) for way, p in ways if move in way.moves)
    return min(1.0, this / every) if every > 0 else 1.0


def _others(
    steps: Steps, solved: Solved, k: int, moves: tuple[Move, ...]
) -> tuple[tuple[Move | None, float], ...]:
    """What else the step may have brought, one move or nothing, the likeliest first."""
    if steps.sources[k].kind == "gap":
        return ()
    odds: dict[Move | None, float] = {}
    for way, p in zip(steps.steps[k].choices, solved.chances[k], strict=True):
        if way.moves != moves and len(way.moves) < 2:
            other = way.moves[0] if way.moves else None
            odds[other] = odds.get(other, 0.0) + float(p)
    likely = sorted(odds.items(), key=lambda one: -one[1])[:OTHERS]
    return tuple((move, p) for move, p in likely if p >= LEAST)


def other_finals(
    grid: Grid, solved: Solved, sides: tuple[str, str], temper: Temper
) -> tuple[OtherScore, ...]:
    """The final scores that come next to the reported one, with their probabilities."""
    mass = np.bincount(grid.shown, weights=solved.marginal)
    reported = grid.shown[solved.path[-1][1] if solved.path else solved.start]
    rest = max(1.0 - float(mass[reported]), 1e-9)
    left = 1.0 - temper(float(mass[reported]))
    mass[reported] = 0.0
    found = []
    for number in np.argsort(-mass, kind="stable")[:OTHERS]:
        chance = float(mass[number]) / rest * left
        if chance >= LEAST:
            state = int(np.flatnonzero(grid.shown == number)[0])
            found.append(OtherScore(final=scoreboard(grid, state, sides), probability=round(chance, 4)))
    return tuple(found)


def _both(steps: Steps, solved: Solved, k: int, moves: tuple[Move, ...]) -> float:
    step, chances = steps.steps[k], solved.chances[k]
    sure = sum(float(p) for choice, p in zip(step.choices, chances, strict=True) if choice.moves == moves)
    return min(1.0, sure)


def _shared_out(steps: Steps, solved: Solved, k: int, move: Move) -> float:
    """P(an unsaid score fell somewhere between the statements around step ``k``), shared by all like it."""
    first = last = k
    while first > 0 and steps.sources[first - 1].kind != "statement":
        first -= 1
    while last + 1 < len(steps.steps) and steps.sources[last + 1].kind != "statement":
        last += 1
    found, entered = 0.0, 0
    for at in range(first, last + 1):
        step = steps.steps[at]
        if steps.sources[at].kind in UNSAID:
            ways = zip(step.choices, solved.chances[at], strict=True)
            found += sum(float(p) for choice, p in ways if move in choice.moves)
            entered += move in step.choices[solved.path[at][0]].moves
    return min(1.0, found / max(entered, 1))


def scoreboard(grid: Grid, state: int, sides: tuple[str, str]) -> dict[str, Tally]:
    """What the scoreboard shows in a state, by side; kept with the grid: few scores are shown often."""
    if (state, sides) not in grid.boards:
        grid.boards[state, sides] = _board(grid, state, sides)
    return grid.boards[state, sides]


def _board(grid: Grid, state: int, sides: tuple[str, str]) -> dict[str, Tally]:
    shown = {}
    for side, name in enumerate(sides):
        if not grid.plan.classes:
            shown[name] = Tally(points=int(grid.tally["points"][side][state]))
            continue
        counts = {
            cls.replace("-", "_"): int(pair[side][state])
            for cls, pair in grid.tally.items()
            if cls != "points"
        }
        shido = grid.shido(side)
        counts["shido"] = 0 if shido is None else int(shido[state])
        counts["ippon"] = int(grid.axes[TOP, 2][state] == side + 1)
        shown[name] = Tally(**counts)
    return shown


def unused(matter: Matter, scorings: list[Scoring]) -> set[int]:
    """The indexes of calls that brought nothing on the best path."""
    brought = {scoring.about for scoring in scorings if scoring.source == "call"}
    return {index for index in range(len(matter.calls)) if index not in brought}
