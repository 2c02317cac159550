"""Awards called beside a penalty: the penalty's own point, or another one, or both in one number."""

from hikite.ledger.deeds import Call, Deed
from hikite.ledger.factors import rung_is
from hikite.ledger.grids import Grid, Move
from hikite.ledger.noise import Noise
from hikite.ledger.passes import Choice
from hikite.ledger.plans import Rail
from hikite.ledger.rulebooks import Gives
from hikite.ledger.worths import Scales

Weights = dict[tuple[Move, ...], float]
"""The ways an award may have gone, with their probabilities."""


class OwnPoints:
    """Weighs awards that were called beside a penalty of one bout."""

    def __init__(self, grid: Grid, scales: Scales, noise: Noise) -> None:
        self._grid, self._scales, self._noise = grid, scales, noise

    def choices(self, call: Call, deed: Deed, counts: tuple[float, float], weights: Weights) -> list[Choice]:
        """The ways of a penalty and the award beside it; ``counts`` are P(no award, one)."""
        none, one = counts
        done, faults = self._noise.believed(deed.done), self._noise.doubted(deed.sides, deed.told)
        choices = [Choice((), none * (1 - done))]
        choices += [Choice(moves, one * (1 - done) * weight) for moves, weight in weights.items()]
        rail = self._grid.plan.rail(deed.concept)
        for side in (0, 1):
            fault = done * faults[side]
            if rail is None:
                choices.append(Choice((), none * fault))
                choices += [Choice(moves, one * fault * weight) for moves, weight in weights.items()]
                continue
            move, apart = Move("penalty", side, rail.concept), self._noise.separate
            got = self._noise.doubted(call.sides, call.told)[1 - side]
            own = fault * (none + one * (1 - apart) * 2 * got)
            choices.append(Choice((move,), own, self._fits(rail, side, call.value)))
            choices += [
                Choice((move, *moves), one * fault * apart * weight) for moves, weight in weights.items()
            ]
            in_one = fault * one * (1 - apart) * 2 * got
            choices += [
                Choice((move, Move("award", 1 - side, rest)), in_one, self._fits(rail, side, given))
                for given, rest in self._halves(call, rail)
            ]
        return choices

    def _fits(self, rail: Rail, side: int, value: Gives | None) -> int:
        """The factor for a penalty whose own point is said to be so much."""
        wrong = self._noise.mismatch / 3
        return 0 if value is None else rung_is(self._grid, rail.concept, side, value, wrong)

    def _halves(self, call: Call, rail: Rail) -> list[tuple[int, int]]:
        """A number that no single action gives as the penalty's own point and an award besides."""
        legal, value = self._scales.typical, call.value
        if not isinstance(value, int) or value in legal:
            return []
        own = {rung.gives for rung in rail.rungs}
        return [
            (given, value - given)
            for given in own
            if isinstance(given, int) and given and value - given in legal
        ]

    def vouched(
        self, call: Call, deed: Deed, rail: Rail, values: dict[Gives, float], sure: Weights
    ) -> list[Choice]:
        """The same where a person stands for the award: the penalty's own where the rung gives just that.

        ``values`` are those it may have, ``sure`` the ways it may have gone by itself.
        """
        choices = [Choice(moves, weight * self._noise.mismatch / 3) for moves, weight in sure.items()]
        for side in (0, 1):
            fault, move = deed.done * deed.sides[side], Move("penalty", side, rail.concept)
            for value in values:
                own = rung_is(self._grid, rail.concept, side, value, 0.0)
                choices.append(Choice((move,), fault * call.sides[1 - side], own))
            without = rung_is(self._grid, rail.concept, side, 0, 0.0)
            choices += [Choice((move, *moves), fault * weight, without) for moves, weight in sure.items()]
        return choices
