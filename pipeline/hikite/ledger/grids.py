"""The states a bout can be in, numbered, and where each move leads from each state."""

from collections.abc import Callable
from functools import cached_property, lru_cache
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from hikite.ledger.plans import TOP, Plan, Rail
from hikite.ledger.rulebooks import Gives
from hikite.records import Tally

Ints = npt.NDArray[np.int32]
Places = npt.NDArray[np.intp]
Floats = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]


OUT, ENDED = 1000.0, 100.0
"""How far ahead a side is whose opponent is out by penalties, and one with an ippon: more than any score."""


class Move(NamedTuple):
    """``award`` of a value to a side, ``retract`` of one, or a ``penalty`` of a ladder to a side (0 or 1)."""

    what: str
    side: int
    value: Gives


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
        self.weights: list[Floats] = [np.ones(self.size)]

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
        rail = next(iter(self.plan.counted), None)
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

    def _over(self) -> Flags:
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

    @cached_property
    def possible(self) -> Flags:
        """The states a bout can come to: never have both sides what ends it for one."""
        both = np.zeros(self.size, bool)
        for name, count in self.plan.full:
            if name != TOP:
                both |= (self.tally[name][0] >= count) & (self.tally[name][1] >= count)
        return ~both

    @cached_property
    def ahead(self) -> Floats:
        """By state: above zero where the first side is ahead, below where the second is, zero when level.

        Whose opponent is out by penalties is ahead by ``OUT``, who has an ippon by ``ENDED``.
        """
        ahead = np.zeros(self.size)
        if not self.plan.classes:
            red, blue = self.tally["points"]
            ahead += red - blue
        for name, _ in reversed(self.plan.classes):
            one, two = self.tally[name]
            ahead = ahead / 100 + np.sign(one - two) + (one - two) / 50
        if self.plan.classes:
            top = self.axes[TOP, 2]
            ahead = np.where(top == 1, ENDED, np.where(top == 2, -ENDED, ahead))
        for rail in self.plan.rails:
            outs = np.array([False, *(rung.out for rung in rail.rungs)])
            for side, sign in ((0, -OUT), (1, OUT)):
                ahead = np.where(outs[self.axes[rail.concept, side]], sign, ahead)
        return ahead

    def led(self, moves: tuple[Move, ...]) -> Ints:
        """Where these moves, one after the other, lead from every state."""
        at = self._rows.get(moves)
        if at is None:
            at = np.arange(self.size + 1, dtype=np.int32)
            for move in moves:
                if move not in self._moved:
                    self._moved[move] = self._target(move)
                at = self._moved[move][at]
            self._rows[moves] = at
        return at

    def _target(self, move: Move) -> Ints:
        """Where one move leads from every state; the bout over, nothing is given any more."""
        to = np.full(self.size + 1, self.size, np.int32)
        if move.what == "reset":
            to[:-1] = self._kept_penalties()
        elif move.what == "retract":
            to[:-1] = self._taken_back(move)
        elif move.what == "award":
            to[:-1] = np.where(self.over, self.size, self._awarded(move))
        else:
            to[:-1] = self._penalised(move)
        return to

    def _penalised(self, move: Move) -> Ints:
        here = np.arange(self.size, dtype=np.int32)
        rail = self.plan.rail(move.value)
        if rail is None:
            return here
        used = self.axes[rail.concept, move.side]
        if rail.shared:
            used = used + self.axes[rail.concept, 1 - move.side]
        full = self.size if any(rung.out for rung in rail.rungs) else here
        one_more = np.where(used < len(rail.rungs), here + self._steps[rail.concept, move.side], full)
        return np.where(self.over, self.size, one_more)

    def _awarded(self, move: Move) -> Ints:
        name, side, amount = _counter(move)
        if (name, side) not in self.axes:
            return np.full(self.size, self.size, np.int32)
        before = self.axes[name, side]
        fits = before == 0 if name == TOP else before + amount < self.shape[self._names.index((name, side))]
        return self._shifted(fits, amount * self._steps[name, side])

    def _taken_back(self, move: Move) -> Ints:
        name, side, amount = _counter(move)
        if (name, side) not in self.axes:
            return np.full(self.size, self.size, np.int32)
        before = self.axes[name, side]
        fits = before == amount if name == TOP else before >= amount
        return self._shifted(fits, -amount * self._steps[name, side])

    def _shifted(self, fits: Flags, by: int) -> Ints:
        """Every state's state so many numbers further where that fits, else nowhere."""
        return np.where(fits, np.arange(self.size, dtype=np.int32) + by, self.size)

    def _kept_penalties(self) -> Ints:
        """Every state's state with the same penalties and no score."""
        rails = {rail.concept for rail in self.plan.rails}
        kept = [axis * self._steps[name] for name, axis in self.axes.items() if name[0] in rails]
        return np.asarray(sum(kept, np.zeros(self.size, np.int32)), np.int32)

    def factor(self, asked: tuple[object, ...], made: Callable[[], Floats]) -> int:
        """The number in ``weights`` of the factor ``asked`` for, made the first time (by state)."""
        if asked not in self._factors:
            self._factors[asked] = len(self.weights)
            self.weights.append(made())
        return self._factors[asked]


def _counter(move: Move) -> tuple[str, int, int]:
    """The axis that an award moves, and by how much."""
    if move.value == TOP:
        return TOP, 2, move.side + 1
    if isinstance(move.value, int):
        return "points", move.side, move.value
    return move.value, move.side, 1


@lru_cache(maxsize=64)
def grid(made: Plan) -> Grid:
    """The grid of a plan; grids are kept, since bouts of one rule set share a few."""
    return Grid(made)
