"""The matter of a bout as steps of the lattice: each thing said, with every way it may be true."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.deeds import Call, Deed, Matter, Pair, agree
from hikite.ledger.grids import Grid, Move
from hikite.ledger.lattices import Choice, Step
from hikite.ledger.noise import Noise
from hikite.ledger.rulebooks import Gives
from hikite.ledger.statements import emission
from hikite.ledger.worths import NOTHING, Scales, Worth
from hikite.records import Claim

BEFORE_MS = 6_000
"""An award called this soon after a stated score may already be in it. Common practice, no source."""


class Source(NamedTuple):
    """What a step is about: ``kind`` and the index of its deed, call, denial or statement."""

    kind: str
    about: int


class Steps:
    """Builds the steps of one bout; ``sources[k]`` says what step k is about."""

    def __init__(
        self, matter: Matter, claims: dict[int, Claim], grid: Grid, scales: Scales, noise: Noise
    ) -> None:
        self.matter, self.claims, self.grid, self.scales, self.noise = matter, claims, grid, scales, noise
        self.sides = scales.rules.sides
        self.steps: list[Step] = []
        self.sources: list[Source] = []
        self.linked = {call.deed: index for index, call in enumerate(matter.calls) if call.deed is not None}
        self.last_stated = -(10**9)

    def build(self) -> None:
        """Lay the steps in time order."""
        todo: list[tuple[int, int, str, int]] = []
        for index, deed in enumerate(self.matter.deeds):
            if index not in self.linked:
                todo.append((self.claims[deed.claims[-1]].start_ms, 0, "deed", index))
        todo += [(call.start_ms, 1, "call", index) for index, call in enumerate(self.matter.calls)]
        todo += [(denial.at_ms, 2, "denial", index) for index, denial in enumerate(self.matter.denials)]
        todo += [(self.claims[number].start_ms, 3, "statement", number) for number in self.matter.statements]
        for at, _, kind, index in sorted(todo):
            getattr(self, f"_{kind}")(at, index)
        self._gap(10**9, 1.0)

    def _add(self, at: int, kind: str, index: int, choices: list[Choice]) -> None:
        self.steps.append(Step(at, tuple(choices)))
        self.sources.append(Source(kind, index))

    def _statement(self, at: int, number: int) -> None:
        said = emission(self.grid, self.claims[number], self.sides, self.noise)
        if said is None:
            return
        self._gap(at, 1.0)
        self._gap(at, 0.6)
        self.steps.append(Step(at, (), said))
        self.sources.append(Source("statement", number))
        self.last_stated = at

    def _gap(self, at: int, often: float) -> None:
        """A silence: most often nothing, seldom a score or a penalty nobody named."""
        silent = self.noise.silent * often
        choices = [Choice((), 1 - silent)]
        counted = [rail.concept for rail in self.grid.plan.rails if rail.counted]
        share = 0.75 if counted else 1.0
        for side in (0, 1):
            for value, part in self.scales.typical.items():
                choices.append(Choice((Move("award", side, value),), silent * share * part / 2))
            choices += [Choice((Move("penalty", side, name),), silent * 0.25 / 2) for name in counted]
        self._add(at, "gap", at, choices)

    def _denial(self, at: int, index: int) -> None:
        denial = self.matter.denials[index]
        like = [
            call for call in self.matter.calls
            if call.value == denial.value and 0 <= at - call.end_ms <= 60_000
            and agree(call.sides, denial.sides) > 0.3 and max(call.given) > 0.4
        ]  # fmt: skip
        if not like:
            return
        back = self.noise.retracted * denial.denied
        choices = [Choice((), 1 - back)]
        for side in (0, 1):
            choices.append(
                Choice((Move("retract", side, denial.value),), back * self._side(denial.sides)[side])
            )
        self._add(at, "denial", index, choices)

    def _side(self, sides: Pair) -> Pair:
        wrong = self.noise.side
        return (1 - 2 * wrong) * sides[0] + wrong, (1 - 2 * wrong) * sides[1] + wrong

    def _worth(self, deed: Deed) -> Worth:
        if deed.kind == "technique":
            return self.scales.technique(deed.concept, deed.landing, deed.fell)
        if deed.kind == "hold":
            value, row = self.scales.hold(deed.seconds)
            if value == 0:
                return Worth(0.04, dict(self.scales.typical), {})
            sure = 0.75 if deed.ended else 0.45
            return Worth(sure, {value: 1.0}, {value: row} if row else {})
        return NOTHING

    def _deed(self, at: int, index: int) -> None:
        """A deed that no award was called for: it may have scored in silence."""
        deed = self.matter.deeds[index]
        if deed.kind == "penalty":
            self._penalty(at, index, deed)
            return
        worth = self._worth(deed)
        scores = worth.scores * deed.done * (0.1 if deed.nothing else 1.0) * (0.15 if deed.near_paid else 1.0)
        if scores < 0.005 or not worth.values:
            return
        choices = [Choice((), 1 - scores)]
        sides = self._side(deed.sides)
        for value, part in worth.values.items():
            for side in (0, 1):
                choices.append(Choice((Move("award", side, value),), scores * part * sides[side]))
        self._add(at, "deed", index, choices)

    def _fits(self, deed: Deed, side: int) -> list[tuple[float, int]]:
        """Factors that say how well the next rung for ``side`` fits what was said of this penalty."""
        if deed.ordinal is not None:
            factor = self.grid.count_is(deed.concept, side, deed.ordinal, self.noise.mismatch)
            return [(1.0, factor)]
        if deed.points is not None and not self.grid.plan.classes:
            return [(1.0, self.grid.rung_is(deed.concept, side, deed.points, self.noise.mismatch))]
        return [(1.0, 0)]

    def _penalty(self, at: int, index: int, deed: Deed) -> None:
        if not any(rail.concept == deed.concept for rail in self.grid.plan.rails):
            return
        done = self._given(deed.done)
        sides = self._side(deed.sides)
        choices = [Choice((), 1 - done)]
        for side in (0, 1):
            for weight, factor in self._fits(deed, side):
                choices.append(
                    Choice((Move("penalty", side, deed.concept),), done * sides[side] * weight, factor)
                )
        self._add(at, "deed", index, choices)

    def _given(self, said: float) -> float:
        return (1 - self.noise.given) * said + self.noise.not_given * (1 - said)

    def _call(self, at: int, index: int) -> None:
        call = self.matter.calls[index]
        deed = self.matter.deeds[call.deed] if call.deed is not None else None
        none, one, two = self._counts(call)
        if 0 <= at - self.last_stated <= BEFORE_MS:
            none, one, two = none + 0.3 * one, 0.7 * one, 0.7 * two
        weights = self._events(call, deed)
        choices: list[Choice] = []
        if deed is not None and deed.kind == "penalty":
            choices = self._with_penalty(call, deed, none, one, weights)
        else:
            choices = [Choice((), none)]
            for moves, weight in weights.items():
                choices.append(Choice(moves, one * weight))
                if two > 0.005:
                    choices.append(Choice(moves * 2, two * weight))
        self._add(at, "call", index, choices)

    def _counts(self, call: Call) -> tuple[float, float, float]:
        """P(no, one, two awards) behind the claims of a call."""
        true = [self._given(given) for given in call.given]
        none = float(np.prod([1 - given for given in true]))
        several = sum(given > 0.5 for given in call.given) > 1 and call.value != "ippon"
        two = (1 - none) * self.noise.again if several else 0.0
        return none, 1 - none - two, two

    def _events(self, call: Call, deed: Deed | None) -> dict[tuple[Move, ...], float]:
        """Every award a call may mean, weighed by its side and value and those of the deed behind it."""
        values = self._values(call.value)
        sides = self._side(call.sides)
        if deed is not None and deed.kind != "penalty":
            worth = self._worth(deed)
            theirs = self._side(deed.sides)
            trust = self.noise.link * deed.done
            sides = sides[0] * theirs[0] ** trust, sides[1] * theirs[1] ** trust
            if worth.values:
                usual = {value: worth.values.get(value, 0.0) + 0.05 for value in values}
                values = {
                    value: weight * usual[value] ** self.noise.worth for value, weight in values.items()
                }
        weights = {
            self._moves(side, value): sides[side] * weight
            for side in (0, 1)
            for value, weight in values.items()
        }
        total = sum(weights.values())
        return {moves: weight / total for moves, weight in weights.items()}

    def _values(self, said: Gives | None) -> dict[Gives, float]:
        typical = self.scales.typical
        if said is None:
            return dict(typical)
        wrong = self.noise.value
        values: dict[Gives, float] = {value: wrong * part for value, part in typical.items()}
        values[said] = values.get(said, 0.0) + 1 - wrong
        return values

    def _moves(self, side: int, value: Gives) -> tuple[Move, ...]:
        """One award, or two where no single action gives so much (three is two and one)."""
        legal = self.scales.typical
        if not isinstance(value, int) or value in legal:
            return (Move("award", side, value),)
        for first in sorted((v for v in legal if isinstance(v, int)), reverse=True):
            if value - first in legal:
                return Move("award", side, first), Move("award", side, value - first)
        best = max((v for v in legal if isinstance(v, int) and v < value), default=value)
        return (Move("award", side, best),)

    def _with_penalty(
        self, call: Call, deed: Deed, none: float, one: float, weights: dict[tuple[Move, ...], float]
    ) -> list[Choice]:
        """An award called beside a penalty: the penalty's own point, or another, or both in one number."""
        done, faults, apart = self._given(deed.done), self._side(deed.sides), self.noise.separate
        known = any(rail.concept == deed.concept for rail in self.grid.plan.rails)
        got = self._side(call.sides)
        choices = [Choice((), none * (1 - done))]
        choices += [Choice(moves, one * (1 - done) * weight) for moves, weight in weights.items()]
        for side in (0, 1):
            move = Move("penalty", side, deed.concept)
            fault = done * faults[side]
            if not known:
                choices.append(Choice((), none * fault))
                choices += [Choice(moves, one * fault * weight) for moves, weight in weights.items()]
                continue
            factor = (
                self.grid.rung_is(deed.concept, side, call.value, self.noise.mismatch / 3)
                if call.value is not None
                else 0
            )
            choices.append(Choice((move,), fault * (none + one * (1 - apart) * 2 * got[1 - side]), factor))
            for moves, weight in weights.items():
                choices.append(Choice((move, *moves), one * fault * apart * weight))
        return choices
