"""The matter of a bout as steps of the lattice: each thing said, with every way it may be true."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.awards import Awards
from hikite.ledger.deeds import Call, Deed, Matter, agree, lean
from hikite.ledger.factors import level_too
from hikite.ledger.grids import Floats, Grid, Move
from hikite.ledger.noise import Noise
from hikite.ledger.passes import Choice, Step
from hikite.ledger.silences import Silences
from hikite.ledger.statements import HABITS, PENALTIES, emissions
from hikite.ledger.uncalled import Uncalled
from hikite.ledger.whose import Whose
from hikite.ledger.worths import Scales
from hikite.records import Claim
from hikite.records.marks import BEHIND

BEFORE_MS = 6_000
"""An award called this soon after a stated score may already be in it. Common practice, no source."""
FOLLOWS_MS = 4_000
"""A number this soon after an award is often the sum. Common practice, no source."""
LONG_MS = 12_000
"""Between two stated scores closer than this no two scores go unspoken. Common practice, no source."""
SILENCE_MS = 3_000
"""Between two calls closer than this nothing goes unspoken. Common practice, no source."""
BACK_MS = 60_000
"""An award is taken back at most so long after it was called. Common practice, no source."""
BRINK = 0.15
"""P(somebody is said to have one penalty to go | nobody has), beside that of who does. Common practice, no
source."""
LEVEL, OVER = 0.1, 0.25
"""P(golden score begins | a side is ahead) and P(words of a bout that goes on | it is over), beside those of
any other: a slip, or told over. Common practice, no source."""
SURELY_BACK = 0.9
"""P(an award said to be taken back is). Common practice, no source."""
CARD_MS = 25_000
"""Numbers so soon after a penalty or a score may count more of it. Common practice, no source."""


class Source(NamedTuple):
    """What a step is about: its kind and the index of its deed, call, denial or claim; of a gap
    its time in ms."""

    kind: str
    about: int


class Steps:
    """Builds the steps of one bout; ``sources[k]`` says what step k is about.

    ``golden_ms`` is when golden score began, if it did; ``resets_ms`` are when the score went back to
    nothing (rules whose periods are counted apart).
    """

    def __init__(
        self,
        matter: Matter,
        claims: dict[int, Claim],
        grid: Grid,
        scales: Scales,
        noise: Noise,
        golden_ms: int | None = None,
        resets_ms: tuple[int, ...] = (),
    ) -> None:
        self.matter, self.claims, self.grid, self.scales, self.noise = matter, claims, grid, scales, noise
        self.golden_ms, self.resets_ms = golden_ms, resets_ms
        self.awards, self.uncalled = Awards(grid, scales, noise), Uncalled(grid, scales, noise)
        self.steps: list[Step] = []
        self.sources: list[Source] = []
        self.silences = Silences(grid, scales, noise)
        self.whose = Whose()
        self.last_stated = self.last_called = -(10**9)
        lay = {
            "reset": self._reset,
            "deed": self._deed,
            "call": self._call,
            "denial": self._denial,
            "statement": self._statement,
            "alive": self._alive,
            "golden": self._golden,
            "brink": self._brink,
        }
        for at, _, kind, index in sorted(self._said()):
            lay[kind](at, index)
        self._gap(max((claim.end_ms for claim in claims.values()), default=0), 1.0)

    def _said(self) -> list[tuple[int, int, str, int]]:
        """All that makes a step: when, its order among those of one moment, its kind and index."""
        matter, claims = self.matter, self.claims
        linked = {call.deed for call in matter.calls if call.deed is not None}
        said = [(self._told_ms(deed), 1, "deed", n) for n, deed in enumerate(matter.deeds) if n not in linked]
        said += [(call.start_ms, 2, "call", n) for n, call in enumerate(matter.calls)]
        said += [(denial.at_ms, 3, "denial", n) for n, denial in enumerate(matter.denials)]
        said += [(claims[number].start_ms, 4, "statement", number) for number in matter.statements]
        said += [(claims[number].start_ms, 0, "alive", number) for number in matter.alive]
        said += [(claims[number].start_ms, 4, "brink", number) for number in matter.brinks]
        if self.golden_ms is not None and self.grid.plan.classes:
            said.append((self.golden_ms, 0, "golden", 0))
        return said + [(at, 0, "reset", n) for n, at in enumerate(self.resets_ms)]

    def _told_ms(self, deed: Deed) -> int:
        """When a deed bears on the score: a penalty as it is given, all else once the last is told of it."""
        last = self.claims[deed.claims[-1]].start_ms
        return deed.start_ms if deed.kind == "penalty" else max(deed.start_ms, last)

    def _add(self, at: int, kind: str, index: int, choices: list[Choice]) -> None:
        """A step that may move the state; in golden score hardly once it is decided."""
        if not choices:
            return
        if self.golden_ms is not None and at > self.golden_ms:
            choices = [
                choice._replace(factor=level_too(self.grid, choice.factor)) if _adds(choice) else choice
                for choice in choices
            ]
        self.steps.append(Step(at, tuple(choices)))
        self.sources.append(Source(kind, index))

    def _statement(self, at: int, number: int) -> None:
        late = number in self.matter.late
        given = self._given_last(at)
        found = emissions(self.grid, self.claims[number], self.scales.rules.sides, self.noise, late, given)
        if not found:
            return
        said, habits = found[0], found if len(found) == HABITS else ()
        if habits:
            shares = zip(self.noise.habits, habits, strict=True)
            said = sum((share * one for share, one in shares), np.zeros(self.grid.size))
        elif self.claims[number].side is None and self.claims[number].sides:
            said = self._of_somebody(number, late, given)
        self._gap(at, 1.0)
        if at - self.last_stated > LONG_MS:
            self._gap(at, 0.6)
        if any(tally.shido for tally in self.claims[number].tallies.values()):
            self._add(at, "gap", at, self.silences.uncounted())
        self._seen(at, "statement", number, said, habits)
        self.last_stated = at

    def _of_somebody(self, number: int, late: bool, given: str) -> Floats:
        """What is said of whoever was spoken of, known to what is said of the same one next."""
        claim, sides = self.claims[number], self.scales.rules.sides
        each = [claim.model_copy(update={"sides": {side: 1.0}}) for side in sides]
        one, two = (emissions(self.grid, of, sides, self.noise, late, given)[0] for of in each)
        led = lean(claim, sides)
        if BEHIND in claim.attributes:
            # the sides of "he's a throw down" are those of whoever has the throw
            led, one, two = led[::-1], two, one
        return self.whose.told(claim, led, one, two)

    def _given_last(self, at: int) -> str:
        """What was given last, shortly before a moment: a counted penalty or a score of a class."""
        counted = {rail.concept for rail in self.grid.plan.counted}
        given = [
            (deed.start_ms, PENALTIES)
            for deed in self.matter.deeds
            if deed.concept in counted and deed.done > 0.5
        ]
        given += [(call.start_ms, str(call.value)) for call in self.matter.calls if max(call.given) > 0.5]
        start, last = max((one for one in given if one[0] <= at), default=(at, ""))
        return last if at - start <= CARD_MS else ""

    def _gap(self, at: int, often: float) -> None:
        """A silence of a moment in which something falls so ``often`` beside a usual one."""
        self._add(at, "gap", at, self.silences.choices(often))

    def _reset(self, at: int, index: int) -> None:
        self._add(at, "reset", index, [Choice((Move("reset", 0, 0),), 1.0)])

    def _deed(self, at: int, index: int) -> None:
        deed = self.matter.deeds[index]
        found = self.uncalled.penalty(deed) if deed.kind == "penalty" else self.uncalled.silent(deed)
        self._add(at, "deed", index, found)

    def _call(self, at: int, index: int) -> None:
        call = self.matter.calls[index]
        deed = None if call.deed is None else self.matter.deeds[call.deed]
        already = 0 <= at - self.last_stated <= BEFORE_MS
        if at - max(self.last_called, self.last_stated) > SILENCE_MS:
            self._gap(at, 0.5)
        self.last_called = at
        follows = index > 0 and at - self.matter.calls[index - 1].end_ms <= FOLLOWS_MS
        revised = None if call.revises is None else self.matter.calls[call.revises]
        self._add(at, "call", index, self.awards.called(call, deed, already, follows, revised))

    def _alive(self, at: int, number: int) -> None:
        """What goes on is not over: a restart, a clock that runs."""
        self._seen(at, "alive", number, np.where(self.grid.over, OVER, 1.0))

    def _golden(self, at: int, index: int) -> None:
        """Golden score begins with the score level."""
        self._seen(at, "golden", index, np.where(self.grid.ahead == 0, 1.0, LEVEL))

    def _brink(self, at: int, number: int) -> None:
        """Who is said to be out with one more penalty has all but one."""
        claim, ladder = self.claims[number], next((r for r in self.grid.plan.rails if r.puts_out), None)
        if ladder is None:
            return
        led, last = lean(claim, self.scales.rules.sides), len(ladder.rungs) - 1
        near = [self.grid.axes[ladder.concept, side] == last for side in (0, 1)]
        self._add(at, "gap", at, self.silences.uncounted())
        one, two = (BRINK + (1 - BRINK) * of for of in near)
        self._seen(at, "brink", number, self.whose.told(claim, led, one, two))

    def _seen(self, at: int, kind: str, index: int, likely: Floats, habits: tuple[Floats, ...] = ()) -> None:
        """A step that says something of the state itself: P(words | state), and under each habit."""
        self.steps.append(Step(at, (), likely, habits))
        self.sources.append(Source(kind, index))

    def _denial(self, at: int, index: int) -> None:
        """A denial after a like award may take that award back, unless a person stands for it."""
        denial = self.matter.denials[index]
        meant: list[Call | Deed] = [
            call for call in self.matter.calls if call.value == denial.value and max(call.given) > 0.4
        ]
        meant += [
            deed
            for deed in self.matter.deeds
            if deed.kind == "penalty" and deed.concept == denial.value and deed.done > 0.4
        ]
        meant = [one for one in meant if 0 <= at - one.end_ms <= BACK_MS]
        meant = [one for one in meant if agree(one.sides, denial.sides) > 0.3]
        if not meant or meant[-1].vouched:
            return
        sure = SURELY_BACK if denial.back else self.noise.retracted
        back, sides = sure * denial.denied, self.noise.doubted(denial.sides)
        choices = [Choice((), 1 - back)]
        choices += [Choice((Move("retract", side, denial.value),), back * sides[side]) for side in (0, 1)]
        self._add(at, "denial", index, choices)


def _adds(choice: Choice) -> bool:
    """Whether something is given that nothing taken back makes room for: an ippon lowered to a waza-ari may
    take the place of what ended golden score."""
    return bool(choice.moves) and choice.moves[0].what != "retract"
