"""The states a bout can be in, numbered, and where each move leads from each state."""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from hikite.ledger.rulebooks import Gives, Ruleset
from hikite.records import Tally

Ints = npt.NDArray[np.int32]
Floats = npt.NDArray[np.float64]

TOP = "ippon"
LATE = 0.03
"""P(a score after the one that decided golden score, beside any other): a claim misplaced, not a move."""


class Move(NamedTuple):
    """``award`` of a value to a side, ``retract`` of one, or a ``penalty`` of a ladder to a side (0 or 1)."""

    what: str
    side: int
    value: Gives


class Rung(NamedTuple):
    """What one step of a ladder gives and whether the athlete is out."""

    gives: Gives
    out: bool


class Rail(NamedTuple):
    """A penalty ladder as the grid needs it, cut to the number of penalties that matter."""

    concept: str
    shared: bool
    replaces: bool
    counted: bool
    rungs: tuple[Rung, ...]


class Plan(NamedTuple):
    """What fixes a grid: the classes and their caps, the ladders, the ends that are sure."""

    points: int
    classes: tuple[tuple[str, int], ...]
    rails: tuple[Rail, ...]
    lead: int | None
    full: tuple[tuple[str, int], ...]


def plan(
    rules: Ruleset, points: int, classes: dict[str, int], penalties: dict[str, int], lead: int | None
) -> Plan:
    """The plan of a grid for ``rules`` with room for so many points, scores by class and penalties."""
    rails = []
    for ladder in rules.ladders:
        room = penalties.get(ladder.concept, 0)
        matters = ladder.counted or any(step.gives or step.out for step in ladder.steps)
        if room and matters and len(ladder.steps) > 1:
            rungs = tuple(Rung(step.gives, step.out) for step in ladder.steps)
            if ladder.shared:
                rungs = tuple(rung for rung in rungs if rung.gives)
            rails.append(Rail(ladder.concept, ladder.shared, ladder.replaces, ladder.counted, rungs[:room]))
    counts = ("points",) if rules.by_points else rules.classes
    full = tuple((end.score, end.count) for end in rules.ends if end.score in counts and not end.golden)
    capped = tuple((name, classes.get(name, 1)) for name in rules.classes if name != TOP)
    return Plan(points if rules.by_points else 0, capped, tuple(rails), lead, full)


class Grid:
    """Every state of a plan; index ``size`` is the dead state that illegal moves lead to."""

    def __init__(self, made: Plan) -> None:
        self.plan = made
        self._names: list[tuple[str, int]] = []
        shape = []
        for name, cap in (
            ("points", made.points),
            *made.classes,
            *((rail.concept, len(rail.rungs)) for rail in made.rails),
        ):
            for side in (0, 1):
                self._names.append((name, side))
                shape.append(cap + 1)
        if made.classes:
            self._names.append((TOP, 2))
            shape.append(3)
        self.shape = tuple(shape)
        self.size = int(np.prod(shape))
        every = np.unravel_index(np.arange(self.size), self.shape)
        self.axes = {name: axis.astype(np.int32) for name, axis in zip(self._names, every, strict=True)}
        self._steps = dict(zip(self._names, np.cumprod([1, *shape[:0:-1]])[::-1].tolist(), strict=True))
        self.tally = {name: self._tally(name) for name in ("points", *(name for name, _ in made.classes))}
        self.over = self._over()
        self.shown = self._shown()
        self.boards: dict[tuple[int, tuple[str, str]], dict[str, Tally]] = {}
        self._rows: dict[tuple[Move, ...], Ints] = {}
        self._moved: dict[Move, Ints] = {}
        self._factors: dict[tuple[object, ...], int] = {}
        self.weights: list[Floats] = [np.ones(self.size + 1)]

    def _tally(self, name: str) -> tuple[Ints, Ints]:
        both = []
        for side in (0, 1):
            shown = self.axes[name, side].copy()
            for rail in self.plan.rails:
                shown += self._from_penalties(rail, name, self.axes[rail.concept, 1 - side])
            both.append(shown)
        return both[0], both[1]

    def _from_penalties(self, rail: Rail, name: str, count: Ints) -> Ints:
        given = np.zeros(len(rail.rungs) + 1, np.int32)
        for number, rung in enumerate(rail.rungs, start=1):
            if name == "points" and isinstance(rung.gives, int):
                given[number] = given[number - 1] + rung.gives
            elif rung.gives == name:
                given[number] = 1
        return given[count]

    def shido(self, side: int) -> Ints | None:
        """How many penalties of the ledger's own kind a side has, by state (judo)."""
        rail = next((rail for rail in self.plan.rails if rail.counted), None)
        return None if rail is None else self.axes[rail.concept, side]

    def _shown(self) -> Ints:
        """A number for each state that is equal where the scoreboard shows the same."""
        columns = [column for pair in self.tally.values() for column in pair]
        columns += [self.axes[name] for name in self.axes if name[0] == TOP]
        columns += [shido for side in (0, 1) if (shido := self.shido(side)) is not None]
        code = np.zeros(self.size, np.int64)
        for column in columns:
            code = code * (int(column.max()) + 1) + column
        seen = np.zeros(int(code.max()) + 1, bool)
        seen[code] = True
        return (np.cumsum(seen, dtype=np.int32) - 1)[code]

    def _over(self) -> npt.NDArray[np.bool_]:
        over = np.zeros(self.size, bool)
        if self.plan.lead is not None:
            red, blue = self.tally["points"]
            over |= np.abs(red - blue) >= self.plan.lead
        if self.plan.classes:
            over |= self.axes[TOP, 2] > 0
        for name, count in self.plan.full:
            if name != TOP:
                over |= (self.tally[name][0] >= count) | (self.tally[name][1] >= count)
        for rail in self.plan.rails:
            for side in (0, 1):
                outs = np.array([False, *(rung.out for rung in rail.rungs)])
                over |= outs[self.axes[rail.concept, side]]
        return over

    def led(self, moves: tuple[Move, ...]) -> Ints:
        """Where these moves, one after the other, lead from every state."""
        if moves not in self._rows:
            at = np.arange(self.size + 1, dtype=np.int32)
            for move in moves:
                if move not in self._moved:
                    self._moved[move] = self._target(move)
                at = self._moved[move][at]
            self._rows[moves] = at
        return self._rows[moves]

    def _target(self, move: Move) -> Ints:
        to = np.full(self.size + 1, self.size, np.int32)
        if move.what == "reset":
            to[:-1] = self._kept_penalties()
            return to
        here = np.arange(self.size, dtype=np.int32)
        if move.what == "penalty":
            rail = next((rail for rail in self.plan.rails if rail.concept == move.value), None)
            if rail is None:
                to[:-1] = here
                return to
            axis, room = self.axes[rail.concept, move.side], len(rail.rungs)
            stride = self._steps[rail.concept, move.side]
            used = axis + self.axes[rail.concept, 1 - move.side] if rail.shared else axis
            free = used < room
            keeps_on = not any(rung.out for rung in rail.rungs)
            legal = np.where(free, here + stride, here if keeps_on else self.size)
        elif move.value == TOP:
            axis = self.axes[TOP, 2]
            stride = self._steps[TOP, 2] * (move.side + 1)
            if move.what == "retract":
                legal = np.where(axis == move.side + 1, here - stride, self.size)
                to[:-1] = legal
                return to
            legal = np.where(axis == 0, here + stride, self.size)
        else:
            name, amount = ("points", move.value) if isinstance(move.value, int) else (move.value, 1)
            if (name, move.side) not in self.axes:
                return to
            axis, stride = self.axes[name, move.side], self._steps[name, move.side] * amount
            if move.what == "retract":
                to[:-1] = np.where(axis >= amount, here - stride, self.size)
                return to
            room = self.shape[self._names.index((name, move.side))]
            legal = np.where(axis + amount < room, here + stride, self.size)
        to[:-1] = np.where(self.over, self.size, legal)
        return to

    def _kept_penalties(self) -> Ints:
        """Every state's state with the same penalties and no score."""
        rails = {rail.concept for rail in self.plan.rails}
        kept = [axis * self._steps[name] for name, axis in self.axes.items() if name[0] in rails]
        return np.asarray(sum(kept, np.zeros(self.size, np.int32)), np.int32)

    def level_too(self, other: int) -> int:
        """The factor ``other``, and nearly nothing where the score is not level (golden score is over)."""
        asked = ("level", other)
        if asked not in self._factors:
            factor = self.weights[other].copy()
            level = np.ones(self.size, bool)
            for one, two in self.tally.values():
                level &= one == two
            factor[:-1] *= np.where(level, 1.0, LATE)
            self._factors[asked] = self._kept(factor)
        return self._factors[asked]

    def points_are(self, side: int, points: int) -> int:
        """The factor that is 1 where a side has just so many points, else 0."""
        asked = ("points", side, points)
        if asked not in self._factors:
            factor = np.zeros(self.size + 1)
            factor[:-1] = self.tally["points"][side] == points
            self._factors[asked] = self._kept(factor)
        return self._factors[asked]

    def tally_is(self, name: str, side: int, count: int, other: float) -> int:
        """The factor that is 1 where a side has just so many scores of a class, else ``other``."""
        asked = ("tally", name, side, count, other)
        if asked not in self._factors:
            factor = np.full(self.size + 1, other)
            factor[:-1] = np.where(self.tally[name][side] == count, 1.0, other)
            self._factors[asked] = self._kept(factor)
        return self._factors[asked]

    def out_is(self, concept: str, side: int, missing: int) -> int:
        """The factor that is 1 where a side has so many penalties fewer than put it out, else 0."""
        asked = ("out", concept, side, missing)
        if asked not in self._factors:
            rail = next(rail for rail in self.plan.rails if rail.concept == concept)
            factor = np.zeros(self.size + 1)
            factor[:-1] = self.axes[concept, side] == len(rail.rungs) - missing
            self._factors[asked] = self._kept(factor)
        return self._factors[asked]

    def rung_is(self, concept: str, side: int, value: Gives, other: float) -> int:
        """The factor that is 1 where the next penalty of ``side`` gives ``value``, else ``other``."""
        asked = ("rung", concept, side, value, other)
        if asked not in self._factors:
            factor = np.full(self.size + 1, other)
            rail = next((rail for rail in self.plan.rails if rail.concept == concept), None)
            if rail is None:
                factor[:] = 1.0 if value == 0 else other
            else:
                gives = np.array([rung.gives == value for rung in rail.rungs] + [value == 0])
                count = self.axes[concept, side]
                if rail.shared:
                    count = np.minimum(count + self.axes[concept, 1 - side], len(rail.rungs))
                factor[:-1] = np.where(gives[count], 1.0, other)
            self._factors[asked] = self._kept(factor)
        return self._factors[asked]

    def count_is(self, concept: str, side: int, count: int, other: float) -> int:
        """The factor that is 1 where the next penalty of ``side`` is its ``count``-th, else ``other``."""
        asked = ("count", concept, side, count, other)
        if asked not in self._factors:
            if (concept, side) not in self.axes:
                return 0
            factor = np.full(self.size + 1, other)
            factor[:-1] = np.where(self.axes[concept, side] + 1 == count, 1.0, other)
            self._factors[asked] = self._kept(factor)
        return self._factors[asked]

    def _kept(self, factor: Floats) -> int:
        self.weights.append(factor)
        return len(self.weights) - 1


@lru_cache(maxsize=64)
def grid(made: Plan) -> Grid:
    """The grid of a plan; grids are kept, since bouts of one rule set share a few."""
    return Grid(made)
