"""What an award as called may have been: every side and value, weighed."""

import math

from hikite.ledger.deeds import Call, Deed
from hikite.ledger.factors import points_are, tally_is
from hikite.ledger.grids import Grid, Move
from hikite.ledger.noise import Noise
from hikite.ledger.own_points import OwnPoints, Weights
from hikite.ledger.passes import Choice
from hikite.ledger.plans import TOP
from hikite.ledger.rulebooks import Gives
from hikite.ledger.uncalled import HARDLY, SELDOM, told_over, worth_of
from hikite.ledger.worths import Scales

PAID, DOUBTFUL = 0.6, 0.3
"""How far what a deed is worth speaks for an award that words leave doubtful, and when they do not deny it.
Common practice, no source."""
CORRECTS = 0.85
"""P(an award takes the place of the one before it | the words say that they correct it)."""
UNCALLED, AS_SUM = 0.05, 10.0
"""How much likelier than an ippon of its own an ippon called is the sum of two waza-ari, the second not
called: by itself, and where the words say that two make one. Common practice, no source."""
ALREADY, AS_TOTAL = 0.3, 3.0
"""P(an award called right after a stated score is in it already), and how much likelier a number said right
after another award is a total. Common practice, no source."""
ODD = 0.05
"""What is left to a value that the deed behind an award never gives, beside one that it always gives."""


class Awards:
    """Weighs the awards called in one bout against its rules and the ways commentary errs."""

    def __init__(self, grid: Grid, scales: Scales, noise: Noise) -> None:
        self._grid, self._scales, self._noise = grid, scales, noise
        self._own_points = OwnPoints(grid, scales, noise)

    def called(
        self, call: Call, deed: Deed | None, already: bool, follows: bool, revised: Call | None = None
    ) -> list[Choice]:
        """An award as called, once or more; ``already`` says that a score stated just before may hold it,
        ``follows`` that another award was called just before; it may take the place of ``revised``."""
        if call.vouched:
            return self._vouched(call, deed)
        none, one, two = self._counts(call)
        if already:
            none, one, two = none + ALREADY * one, (1 - ALREADY) * one, (1 - ALREADY) * two
        weights = self._events(call, deed)
        if deed is not None and deed.kind != "penalty" and max(call.given) > DOUBTFUL:
            paid = PAID * none * worth_of(self._scales, deed).scores * deed.done
            none, one = none - paid, one + paid
        if deed is not None and deed.kind == "penalty":
            return self._own_points.choices(call, deed, (none, one), weights)
        beside = 1.0 - CORRECTS if revised is not None and call.instead else 1.0
        choices = [
            Choice((), none),
            told_over(self._grid, one * beside),
            *self._total(call, one * (AS_TOTAL if follows else 1.0)),
            *self._summed(call, one),
        ]
        for moves, weight in weights.items():
            choices.append(Choice(moves, one * weight * beside, self._counted(call, moves)))
            if revised is not None:
                choices.append(self._instead(revised, moves, one * weight, call.instead, call.slip))
            if two > SELDOM:
                choices.append(Choice(moves * 2, two * weight))
        return choices

    def _instead(
        self, revised: Call, moves: tuple[Move, ...], weight: float, said: bool, slip: bool
    ) -> Choice:
        """The award in place of the one called just before it, which is taken back (``said`` in words, or in
        those of a score that was a ``slip``)."""
        rate = self._noise.revised if self._grid.plan.classes or slip else self._noise.revised_points
        back = Move("retract", moves[0].side, revised.value if revised.value is not None else 0)
        return Choice((back, *moves), weight * (CORRECTS if said else rate / (1 - rate)))

    def _vouched(self, call: Call, deed: Deed | None) -> list[Choice]:
        """What a person stands for: side and value as said, or what is usual where they are open.

        Beside a penalty it may be the penalty's own point.
        """
        values = {call.value: 1.0} if call.value is not None else self._scales.typical
        sure: Weights = {
            (Move("award", side, value),): call.sides[side] * part
            for side in (0, 1)
            for value, part in values.items()
            if call.sides[side] > 0
        }
        rail = self._grid.plan.rail(deed.concept) if deed is not None and deed.kind == "penalty" else None
        if deed is None or rail is None:
            return [Choice((), HARDLY), *(Choice(moves, weight) for moves, weight in sure.items())]
        return [Choice((), HARDLY), *self._own_points.vouched(call, deed, rail, values, sure)]

    def _counted(self, call: Call, moves: tuple[Move, ...]) -> int:
        """The factor for an award said to be its side's second or third of its kind."""
        if call.ordinal is None or len(moves) != 1 or moves[0].value not in self._grid.tally:
            return 0
        name, side = str(moves[0].value), moves[0].side
        return tally_is(self._grid, name, side, call.ordinal - 1, self._noise.mismatch)

    def _total(self, call: Call, one: float) -> list[Choice]:
        """The number may be no award but what a side now has in all ("one to blue: four")."""
        if not isinstance(call.value, int):
            return []
        sides = self._noise.doubted(call.sides, call.told)
        return [
            Choice((), one * self._noise.is_total * sides[side], points_are(self._grid, side, call.value))
            for side in (0, 1)
        ]

    def _summed(self, call: Call, one: float) -> list[Choice]:
        """What ends the bout may be the sum of lesser scores, the last of them called before or here."""
        parts = self._scales.rules.adds_up if call.value == TOP else {}
        name = next(
            (name for name, whole in parts.items() if whole == TOP and name in self._grid.tally), None
        )
        if name is None:
            return []
        full, sides = dict(self._grid.plan.full)[name], self._noise.doubted(call.sides, call.told)
        last = AS_SUM if call.summed else UNCALLED
        choices = []
        for side in (0, 1):
            told = tally_is(self._grid, name, side, full, 0.0)
            missing = tally_is(self._grid, name, side, full - 1, 0.0)
            choices.append(Choice((), one * sides[side], told))
            choices.append(Choice((Move("award", side, name),), one * sides[side] * last, missing))
        return choices

    def _counts(self, call: Call) -> tuple[float, float, float]:
        """P(no, one, two awards) behind the claims of a call."""
        none = math.prod(1 - self._noise.believed(given) for given in call.given)
        several = sum(given > 0.5 for given in call.given) > 1 and call.value != TOP
        two = (1 - none) * self._noise.again if several else 0.0
        return none, 1 - none - two, two

    def _events(self, call: Call, deed: Deed | None) -> Weights:
        """Every award a call may mean, by its side and value and those of the deed behind it."""
        values, sides = self._values(call.value), self._noise.doubted(call.sides, call.told)
        if deed is not None and deed.kind != "penalty":
            theirs, trust = self._noise.doubted(deed.sides, deed.told), self._noise.link * deed.done
            sides = sides[0] * theirs[0] ** trust, sides[1] * theirs[1] ** trust
            worth = worth_of(self._scales, deed)
            for value in values if worth.values else ():
                values[value] *= (worth.values.get(value, 0.0) + ODD) ** self._noise.worth
        weights = {self._moves(side, v): sides[side] * part for side in (0, 1) for v, part in values.items()}
        total = sum(weights.values())
        return {moves: weight / total for moves, weight in weights.items()}

    def _values(self, said: Gives | None) -> dict[Gives, float]:
        typical = self._scales.typical
        if said is None:
            return dict(typical)
        values: dict[Gives, float] = {value: self._noise.value * part for value, part in typical.items()}
        values[said] = values.get(said, 0.0) + 1 - self._noise.value
        return values

    def _moves(self, side: int, value: Gives) -> tuple[Move, ...]:
        """One award, or two where no single action gives so much (three is two and one)."""
        legal = [known for known in self._scales.typical if isinstance(known, int)]
        if not isinstance(value, int) or value in legal:
            return (Move("award", side, value),)
        for first in sorted(legal, reverse=True):
            if value - first in legal:
                return Move("award", side, first), Move("award", side, value - first)
        return (Move("award", side, max((known for known in legal if known < value), default=value)),)
