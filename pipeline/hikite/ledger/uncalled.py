"""What deeds without an award called for them may have brought."""

from hikite.ledger.deeds import Deed, Pair
from hikite.ledger.factors import count_is, out_is, over_is, rung_is
from hikite.ledger.grids import Grid, Move
from hikite.ledger.noise import Noise
from hikite.ledger.passes import Choice
from hikite.ledger.worths import NOTHING, Scales, Worth

HELD, UNKNOWN_HOLD = 0.75, 0.04
"""P(a hold scored | its length is said to be enough), and when no length that gives something is said."""
OUT, DIRECTLY = frozenset({"hansoku-make", "disqualification"}), 0.1
"""Penalties that put out, and P(for something grave | put out). Common practice, no source."""
TOLD_OVER = 0.5
"""How much likelier than its words alone tell an award or penalty named once the bout is over is told over.
Common practice, no source."""
HARDLY = 1e-12
"""What is left to a person's word being wrong: enough to go on where the rules leave it no room at all."""
UNPAID, PAID_NEARBY, SELDOM = 0.1, 0.15, 0.005
"""How much less likely a deed scored of which it is said that nothing was given, or beside which an award was
called; and what is too unlikely to be followed. Common practice, no source."""


class Uncalled:
    """Weighs deeds of one bout that nobody called an award for."""

    def __init__(self, grid: Grid, scales: Scales, noise: Noise) -> None:
        self._grid, self._scales, self._noise = grid, scales, noise

    def silent(self, deed: Deed) -> list[Choice]:
        """A deed without an award called: it may have scored all the same."""
        worth = worth_of(self._scales, deed)
        scores = worth.scores * deed.done * (UNPAID if deed.nothing else 1.0)
        if deed.near_paid:
            scores *= PAID_NEARBY
        if scores < SELDOM or not worth.values:
            return []
        sides = deed.sides if deed.vouched else self._noise.doubted(deed.sides, deed.told)
        choices = [Choice((), 1 - scores)]
        for value, part in worth.values.items():
            choices += [Choice((Move("award", side, value),), scores * part * sides[side]) for side in (0, 1)]
        return choices

    def penalty(self, deed: Deed) -> list[Choice]:
        """A penalty without an award called; a rung that fits what was said of it fits better."""
        done, sides = self._noise.believed(deed.done), self._noise.doubted(deed.sides, deed.told)
        if deed.vouched:
            done, sides = deed.done, deed.sides
        if self._grid.plan.rail(deed.concept) is None:
            return self._put_out(done, sides) if deed.concept in OUT else []
        choices = [Choice((), max(1 - done, HARDLY))]
        if not deed.vouched:
            choices.append(told_over(self._grid, done))
        for side in (0, 1):
            move = Move("penalty", side, deed.concept)
            choices.append(Choice((move,), done * sides[side], self._fit(deed, side)))
            if deed.ordinal is not None and not deed.vouched:
                told = count_is(self._grid, deed.concept, side, deed.ordinal + 1, 0.0)
                choices.append(Choice((), done * sides[side] * self._noise.retold, told))
        return choices

    def _put_out(self, done: float, sides: Pair) -> list[Choice]:
        """Put out: by the ladder's last step, called just before or not at all, or for something grave."""
        rail = next((rail for rail in self._grid.plan.counted if rail.puts_out), None)
        if rail is None:
            return []
        last, choices = rail.concept, [Choice((), 1 - done + done * DIRECTLY)]
        for side in (0, 1):
            weight = done * sides[side] * (1 - DIRECTLY)
            choices.append(Choice((), weight, out_is(self._grid, last, side, 0)))
            choices.append(Choice((Move("penalty", side, last),), weight, out_is(self._grid, last, side, 1)))
        return choices

    def _fit(self, deed: Deed, side: int) -> int:
        """The factor for which penalty of its side it is said to be, or what it is said to bring."""
        if deed.ordinal is not None:
            return count_is(self._grid, deed.concept, side, deed.ordinal, self._noise.mismatch)
        if deed.points is not None and not self._grid.plan.classes:
            return rung_is(self._grid, deed.concept, side, deed.points, self._noise.mismatch)
        return 0


def worth_of(scales: Scales, deed: Deed) -> Worth:
    """What a technique or hold that nobody called an award for may have brought; a penalty nothing."""
    if deed.kind == "technique":
        return scales.technique(deed.concept, deed.landing, deed.fell)
    if deed.kind == "hold":
        value, row = scales.hold(deed.seconds)
        if value == 0:
            return Worth(UNKNOWN_HOLD, dict(scales.typical), {})
        return Worth(HELD, {value: 1.0}, {value: row} if row else {})
    return NOTHING


def told_over(grid: Grid, given: float) -> Choice:
    """What seems ``given`` once the bout is over is told over."""
    return Choice((), TOLD_OVER * given, over_is(grid))
