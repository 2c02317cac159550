"""What may have gone unspoken: a score or penalty nobody named, penalties that only their count tells of."""

from hikite.ledger.grids import Grid, Move
from hikite.ledger.noise import Noise
from hikite.ledger.passes import Choice
from hikite.ledger.worths import Scales

SCORES = 0.75
"""P(what goes unspoken is a score) where the scoreboard shows penalties; else it always is. Common practice,
no source."""
UNTOLD, UNTOLD_BOTH = 0.04, 0.04
"""P(a penalty of one of the two, or one of each, went unsaid before the penalties are counted): seldom are
they all told. Common practice, no source."""


class Silences:
    """The ways of the silences of one bout; those of one length are made once."""

    def __init__(self, grid: Grid, scales: Scales, noise: Noise) -> None:
        self._scales, self._silent = scales, noise.silent
        self._counted = [rail.concept for rail in grid.plan.counted]
        self._made: dict[float, list[Choice]] = {}

    def choices(self, often: float) -> list[Choice]:
        """Most often nothing, seldom a score or penalty nobody named: so ``often`` beside a usual silence."""
        if often not in self._made:
            self._made[often] = self._make(self._silent * often)
        return self._made[often]

    def _make(self, silent: float) -> list[Choice]:
        """The ways of a silence in which something fell with the chance ``silent``."""
        choices = [Choice((), 1 - silent)]
        share = SCORES if self._counted else 1.0
        for side in (0, 1):
            for value, part in self._scales.typical.items():
                choices.append(Choice((Move("award", side, value),), silent * share * part / 2))
            faults = (Move("penalty", side, name) for name in self._counted)
            choices += [Choice((fault,), silent * (1 - SCORES) / 2) for fault in faults]
        return choices

    def uncounted(self) -> list[Choice]:
        """Penalties that only their count tells of: of either, or one of each."""
        if not self._counted:
            return []
        one, two = (Move("penalty", side, self._counted[0]) for side in (0, 1))
        ways = (((one,), UNTOLD), ((two,), UNTOLD), ((one, two), UNTOLD_BOTH))
        rest = 1 - sum(weight for _, weight in ways)
        return [Choice((), rest), *(Choice(moves, weight) for moves, weight in ways)]
