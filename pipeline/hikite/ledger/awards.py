"""What an award as called may have been: every side and value, weighed."""

import math

from hikite.ledger.deeds import Call, Deed, Pair
from hikite.ledger.factors import count_is, out_is, over_is, points_are, rung_is, tally_is
from hikite.ledger.grids import Grid, Move
from hikite.ledger.noise import Noise
from hikite.ledger.passes import Choice
from hikite.ledger.plans import TOP
from hikite.ledger.rulebooks import Gives
from hikite.ledger.worths import NOTHING, Scales, Worth

Weights = dict[tuple[Move, ...], float]

HELD, UNKNOWN_HOLD = 0.75, 0.04
"""P(a hold scored | its length is said to be enough), and when no length that gives something is said."""
OUT, DIRECTLY = frozenset({"hansoku-make", "disqualification"}), 0.1
"""Penalties that put out, and P(for something grave | put out). Common practice, no source."""
PAID, DOUBTFUL = 0.6, 0.3
"""How far what a deed is worth speaks for an award that words leave doubtful, and when they do not deny it.
Common practice, no source."""
CORRECTS = 0.85
"""P(an award takes the place of the one before it | the words say that they correct it)."""
UNCALLED, AS_SUM = 0.05, 10.0
"""How much likelier than an ippon of its own an ippon called is the sum of two waza-ari, the second not
called: by itself, and where the words say that two make one. Common practice, no source."""
TOLD_OVER = 0.5
"""How much likelier than its words alone tell an award or penalty named once the bout is over is told over.
Common practice, no source."""
HARDLY = 1e-12
"""What is left to a person's word being wrong: enough to go on where the rules leave it no room at all."""


class Awards:
    """Weighs calls and deeds of one bout against its rules and the ways commentary errs."""

    def __init__(self, grid: Grid, scales: Scales, noise: Noise) -> None:
        self.grid, self.scales, self.noise = grid, scales, noise
        self.rails = {rail.concept: rail for rail in grid.plan.rails}

    def doubted(self, sides: Pair, told: bool = False) -> Pair:
        """P(each side), allowing that the claim was sure and wrong; less where words name it."""
        wrong, sharp = self.noise.side, self.noise.sharp_told if told else self.noise.sharp
        one, two = sides[0] ** sharp, sides[1] ** sharp
        return (1 - 2 * wrong) * one / (one + two) + wrong, (1 - 2 * wrong) * two / (one + two) + wrong

    def given(self, said: float) -> float:
        """P(it was given), allowing for a wrong reading of how it was meant."""
        yes, no = said**self.noise.sharp, (1 - said) ** self.noise.sharp
        said = yes / (yes + no)
        return (1 - self.noise.given) * said + self.noise.not_given * (1 - said)

    def worth(self, deed: Deed) -> Worth:
        """What a deed that nobody called an award for may have brought."""
        if deed.kind == "technique":
            return self.scales.technique(deed.concept, deed.landing, deed.fell)
        if deed.kind == "hold":
            value, row = self.scales.hold(deed.seconds)
            if value == 0:
                return Worth(UNKNOWN_HOLD, dict(self.scales.typical), {})
            return Worth(HELD, {value: 1.0}, {value: row} if row else {})
        return NOTHING

    def silent(self, deed: Deed) -> list[Choice]:
        """A deed without an award called: it may have scored all the same."""
        worth = self.worth(deed)
        scores = worth.scores * deed.done * (0.1 if deed.nothing else 1.0) * (0.15 if deed.near_paid else 1.0)
        if scores < 0.005 or not worth.values:
            return []
        sides = deed.sides if deed.vouched else self.doubted(deed.sides, deed.told)
        choices = [Choice((), 1 - scores)]
        for value, part in worth.values.items():
            choices += [Choice((Move("award", side, value),), scores * part * sides[side]) for side in (0, 1)]
        return choices

    def penalty(self, deed: Deed) -> list[Choice]:
        """A penalty without an award called; a rung that fits what was said of it fits better."""
        done, sides = self.given(deed.done), self.doubted(deed.sides, deed.told)
        if deed.vouched:
            done, sides = deed.done, deed.sides
        if deed.concept not in self.rails:
            return self._put_out(done, sides) if deed.concept in OUT else []
        choices = [Choice((), max(1 - done, HARDLY))]
        if not deed.vouched:
            choices.append(self._told_over(done))
        for side in (0, 1):
            move = Move("penalty", side, deed.concept)
            choices.append(Choice((move,), done * sides[side], self._fit(deed, side)))
            if deed.ordinal is not None and not deed.vouched:
                told = count_is(self.grid, deed.concept, side, deed.ordinal + 1, 0.0)
                choices.append(Choice((), done * sides[side] * self.noise.retold, told))
        return choices

    def _told_over(self, given: float) -> Choice:
        """What seems ``given`` once the bout is over is told over."""
        return Choice((), TOLD_OVER * given, over_is(self.grid))

    def _put_out(self, done: float, sides: Pair) -> list[Choice]:
        """Put out: by the ladder's last step, called just before or not at all, or for something grave."""
        rail = next((rail for rail in self.grid.plan.rails if rail.counted and rail.rungs[-1].out), None)
        if rail is None:
            return []
        last, choices = rail.concept, [Choice((), 1 - done + done * DIRECTLY)]
        for side in (0, 1):
            weight = done * sides[side] * (1 - DIRECTLY)
            choices.append(Choice((), weight, out_is(self.grid, last, side, 0)))
            choices.append(Choice((Move("penalty", side, last),), weight, out_is(self.grid, last, side, 1)))
        return choices

    def _fit(self, deed: Deed, side: int) -> int:
        if deed.ordinal is not None:
            return count_is(self.grid, deed.concept, side, deed.ordinal, self.noise.mismatch)
        if deed.points is not None and not self.grid.plan.classes:
            return rung_is(self.grid, deed.concept, side, deed.points, self.noise.mismatch)
        return 0

    def called(
        self, call: Call, deed: Deed | None, already: bool, follows: bool, revised: Call | None = None
    ) -> list[Choice]:
        """An award as called, once or more; ``already`` says that a score stated just before may hold it,
        ``follows`` that another award was called just before; it may take the place of ``revised``."""
        if call.vouched:
            return self._vouched(call, deed)
        none, one, two = self._counts(call)
        if already:
            none, one, two = none + 0.3 * one, 0.7 * one, 0.7 * two
        weights = self._events(call, deed)
        if deed is not None and deed.kind != "penalty" and max(call.given) > DOUBTFUL:
            paid = PAID * none * self.worth(deed).scores * deed.done
            none, one = none - paid, one + paid
        if deed is not None and deed.kind == "penalty":
            return self._beside_penalty(call, deed, none, one, weights)
        choices = [
            Choice((), none),
            self._told_over(one),
            *self._total(call, one * (3.0 if follows else 1.0)),
            *self._summed(call, one),
        ]
        for moves, weight in weights.items():
            beside = 1.0 - CORRECTS if revised is not None and call.instead else 1.0
            choices.append(Choice(moves, one * weight * beside, self._counted(call, moves)))
            if revised is not None:
                choices.append(self._instead(revised, moves, one * weight, call.instead, call.slip))
            if two > 0.005:
                choices.append(Choice(moves * 2, two * weight))
        return choices

    def _instead(
        self, revised: Call, moves: tuple[Move, ...], weight: float, said: bool, slip: bool
    ) -> Choice:
        """The award in place of the one called just before it, which is taken back (``said`` in words, or in
        those of a score that was a ``slip``)."""
        rate = self.noise.revised if self.grid.plan.classes or slip else self.noise.revised_points
        back = Move("retract", moves[0].side, revised.value if revised.value is not None else 0)
        return Choice((back, *moves), weight * (CORRECTS if said else rate / (1 - rate)))

    def _vouched(self, call: Call, deed: Deed | None) -> list[Choice]:
        """What a person stands for: side and value as said, or what is usual where they are open.

        Of an award beside a penalty it is the penalty's own point where the rung gives just that.
        """
        values = {call.value: 1.0} if call.value is not None else self.scales.typical
        sure: Weights = {
            (Move("award", side, value),): call.sides[side] * part
            for side in (0, 1)
            for value, part in values.items()
            if call.sides[side] > 0
        }
        choices = [Choice((), HARDLY)]
        if deed is None or deed.kind != "penalty" or deed.concept not in self.rails:
            return choices + [Choice(moves, weight) for moves, weight in sure.items()]
        choices += [Choice(moves, weight * self.noise.mismatch / 3) for moves, weight in sure.items()]
        for side in (0, 1):
            fault, move = deed.done * deed.sides[side], Move("penalty", side, deed.concept)
            for value in values:
                own = rung_is(self.grid, deed.concept, side, value, 0.0)
                choices.append(Choice((move,), fault * call.sides[1 - side], own))
            without = rung_is(self.grid, deed.concept, side, 0, 0.0)
            choices += [Choice((move, *moves), fault * weight, without) for moves, weight in sure.items()]
        return choices

    def _counted(self, call: Call, moves: tuple[Move, ...]) -> int:
        """The factor for an award said to be its side's second or third of its kind."""
        if call.ordinal is None or len(moves) != 1 or moves[0].value not in self.grid.tally:
            return 0
        name, side = str(moves[0].value), moves[0].side
        return tally_is(self.grid, name, side, call.ordinal - 1, self.noise.mismatch)

    def _total(self, call: Call, one: float) -> list[Choice]:
        """The number may be no award but what a side now has in all ("one to blue: four")."""
        if not isinstance(call.value, int):
            return []
        sides = self.doubted(call.sides, call.told)
        return [
            Choice((), one * self.noise.is_total * sides[side], points_are(self.grid, side, call.value))
            for side in (0, 1)
        ]

    def _summed(self, call: Call, one: float) -> list[Choice]:
        """What ends the bout may be the sum of lesser scores, the last of them called before or here."""
        parts = self.scales.rules.adds_up if call.value == TOP else {}
        name = next((name for name, whole in parts.items() if whole == TOP and name in self.grid.tally), None)
        if name is None:
            return []
        full, sides = dict(self.grid.plan.full)[name], self.doubted(call.sides, call.told)
        last = AS_SUM if call.summed else UNCALLED
        choices = []
        for side in (0, 1):
            told = tally_is(self.grid, name, side, full, 0.0)
            missing = tally_is(self.grid, name, side, full - 1, 0.0)
            choices.append(Choice((), one * sides[side], told))
            choices.append(Choice((Move("award", side, name),), one * sides[side] * last, missing))
        return choices

    def _counts(self, call: Call) -> tuple[float, float, float]:
        """P(no, one, two awards) behind the claims of a call."""
        none = math.prod(1 - self.given(given) for given in call.given)
        several = sum(given > 0.5 for given in call.given) > 1 and call.value != TOP
        two = (1 - none) * self.noise.again if several else 0.0
        return none, 1 - none - two, two

    def _events(self, call: Call, deed: Deed | None) -> Weights:
        """Every award a call may mean, by its side and value and those of the deed behind it."""
        values, sides = self._values(call.value), self.doubted(call.sides, call.told)
        if deed is not None and deed.kind != "penalty":
            theirs, trust = self.doubted(deed.sides, deed.told), self.noise.link * deed.done
            sides = sides[0] * theirs[0] ** trust, sides[1] * theirs[1] ** trust
            worth = self.worth(deed)
            for value in values if worth.values else ():
                values[value] *= (worth.values.get(value, 0.0) + 0.05) ** self.noise.worth
        weights = {self._moves(side, v): sides[side] * part for side in (0, 1) for v, part in values.items()}
        total = sum(weights.values())
        return {moves: weight / total for moves, weight in weights.items()}

    def _values(self, said: Gives | None) -> dict[Gives, float]:
        typical = self.scales.typical
        if said is None:
            return dict(typical)
        values: dict[Gives, float] = {value: self.noise.value * part for value, part in typical.items()}
        values[said] = values.get(said, 0.0) + 1 - self.noise.value
        return values

    def _moves(self, side: int, value: Gives) -> tuple[Move, ...]:
        """One award, or two where no single action gives so much (three is two and one)."""
        legal = [known for known in self.scales.typical if isinstance(known, int)]
        if not isinstance(value, int) or value in legal:
            return (Move("award", side, value),)
        for first in sorted(legal, reverse=True):
            if value - first in legal:
                return Move("award", side, first), Move("award", side, value - first)
        return (Move("award", side, max((known for known in legal if known < value), default=value)),)

    def _beside_penalty(
        self, call: Call, deed: Deed, none: float, one: float, weights: Weights
    ) -> list[Choice]:
        """An award called beside a penalty: its own point, or another, or both in one number."""
        done, faults = self.given(deed.done), self.doubted(deed.sides, deed.told)
        choices = [Choice((), none * (1 - done))]
        choices += [Choice(moves, one * (1 - done) * weight) for moves, weight in weights.items()]
        for side in (0, 1):
            fault = done * faults[side]
            if deed.concept in self.rails:
                choices += self._own_point(call, deed.concept, side, fault, none, one, weights)
            else:
                choices.append(Choice((), none * fault))
                choices += [Choice(moves, one * fault * weight) for moves, weight in weights.items()]
        return choices

    def _own_point(
        self, call: Call, concept: str, side: int, fault: float, none: float, one: float, weights: Weights
    ) -> list[Choice]:
        move, apart, wrong = Move("penalty", side, concept), self.noise.separate, self.noise.mismatch / 3
        got = self.doubted(call.sides, call.told)[1 - side]
        factor = rung_is(self.grid, concept, side, call.value, wrong) if call.value is not None else 0
        choices = [Choice((move,), fault * (none + one * (1 - apart) * 2 * got), factor)]
        choices += [Choice((move, *moves), one * fault * apart * weight) for moves, weight in weights.items()]
        if isinstance(call.value, int) and call.value not in self.scales.typical:
            for given in {rung.gives for rung in self.rails[concept].rungs}:
                rest = call.value - given if isinstance(given, int) and given else 0
                if rest in self.scales.typical:
                    both = (move, Move("award", 1 - side, rest))
                    fits = rung_is(self.grid, concept, side, given, wrong)
                    choices.append(Choice(both, fault * one * (1 - apart) * 2 * got, fits))
        return choices
