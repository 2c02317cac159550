"""The best path read back: what scored when, how sure that is, and the scoreboard after it."""

from typing import NamedTuple

from hikite.ledger.deeds import Matter
from hikite.ledger.grids import TOP, Grid, Move
from hikite.ledger.lattices import Solved
from hikite.ledger.noise import tempered
from hikite.ledger.rulebooks import Gives
from hikite.ledger.steps import Steps
from hikite.records import Tally

UNSAID = ("gap", "deed")
"""Steps whose scores nobody called: when exactly such a score fell is less sure than that it did."""


class Scoring(NamedTuple):
    """One line of the score: ``value`` to ``side`` (a counted penalty: the side penalised).

    ``step`` is the lattice step, ``source`` its kind (``call``, ``deed``, ``gap``) and ``about`` its index;
    ``penalty`` is the ladder whose ``rung`` (from 0) it is. ``sure`` is P(it happened so), ``side_sure``
    P(side | it happened), ``state`` the state after it.
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


def read_path(steps: Steps, solved: Solved, grid: Grid) -> list[Scoring]:
    """The scorings of the best bout in time order, those taken back left out."""
    scorings: list[Scoring] = []
    before = solved.start
    for k, ((way, state), step, source) in enumerate(
        zip(solved.path, steps.steps, steps.sources, strict=True)
    ):
        moves = step.choices[way].moves if step.choices else ()
        for number, move in enumerate(moves):
            if move.what == "retract":
                _take_back(scorings, move)
                continue
            sure, side_sure = _chances(steps, solved, k, move)
            if moves.count(move) > 1:
                sure = min(sure, _both(steps, solved, k, moves)) if moves[:number].count(move) else sure
            if move.what == "award":
                scorings.append(
                    Scoring(k, source.kind, source.about, move.side, move.value, sure, side_sure, state)
                )
            else:
                found = _penalised(grid, move, before)
                if found is not None:
                    side, value, rung = found
                    scorings.append(
                        Scoring(
                            k,
                            source.kind,
                            source.about,
                            side,
                            value,
                            sure,
                            side_sure,
                            state,
                            str(move.value),
                            rung,
                        )
                    )
        before = state
    return scorings


def _penalised(grid: Grid, move: Move, before: int) -> tuple[int, Gives, int] | None:
    """Who gets what when the move's side is penalised in the state before, with the rung's number."""
    rail = next((rail for rail in grid.plan.rails if rail.concept == move.value), None)
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
    for at in range(len(scorings) - 1, -1, -1):
        if (
            scorings[at].side == move.side
            and scorings[at].value == move.value
            and scorings[at].penalty is None
        ):
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
    return tempered(min(1.0, sure), steps.noise.sure_line), side_sure


def _both(steps: Steps, solved: Solved, k: int, moves: tuple[Move, ...]) -> float:
    step, chances = steps.steps[k], solved.chances[k]
    sure = sum(float(p) for choice, p in zip(step.choices, chances, strict=True) if choice.moves == moves)
    return tempered(min(1.0, sure), steps.noise.sure_line)


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
