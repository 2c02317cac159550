"""What was called in a bout: awards, said once or more, and scores denied or taken back."""

from hikite.ledger.deeds import DONE, Call, Deed, Denial, Pair, agree, chance, joined, lean, told
from hikite.ledger.plans import TOP
from hikite.ledger.rulebooks import Gives, Ruleset
from hikite.records import Claim
from hikite.records.marks import INSTEAD, SUM, TAKEN_BACK, ordinal_of

AGAIN_MS, FINAL_MS, BACK_MS, SOON_MS, REVISED_MS = 7_000, 40_000, 60_000, 8_000, 10_000
"""How far apart claims of one award lie at most: said twice, an ippon said twice, an award and its taking
back, an award and a plain "no score", an award and what takes its place. Common practice, no source; read off
the labelled bouts."""
INSTEAD_MS, CORRECTED_MS = 45_000, 20_000
"""How long after an award words say outright that they correct it at most (the video is looked at first), and
other corrections. Common practice, no source."""
SLACK_S = 1.5
"""So much sooner than the rules have it a hold's score is called. Common practice, no source."""
LIKELY = 0.5
"""P(it was given) above which a call stands between."""
PLAINLY = 0.4
"""How much less plain words say that a score no longer counts than those that say so of one given."""


class Callings:
    """The calls and denials of one bout while its claims are taken in.

    ``fresh`` says that something was done or stated since the last call, so that the next is a new one;
    ``hold`` is the last hold while the next claim may be of it.
    """

    def __init__(self, rules: Ruleset) -> None:
        self.rules = rules
        self.calls: list[Call] = []
        self.denials: list[Denial] = []
        self.fresh = False
        self.slipped = False
        self.hold: Deed | None = None
        self.paid: int | None = None

    def slip(self, claim: Claim) -> int | None:
        """A stated score taken back: the call before, if it is near, may have been a slip as well; when that
        was called."""
        last = self.calls[-1] if self.calls else None
        if last is None or last.vouched or claim.start_ms - last.end_ms > CORRECTED_MS:
            return None
        self.slipped = True
        return last.start_ms

    def score(self, number: int, claim: Claim, live: float, acted_ms: int) -> bool:
        """An award called or denied; whether nothing at all is given for what began at ``acted_ms``."""
        value: Gives | None = claim.points if self.rules.by_points else claim.score_class
        given, denied = chance(claim, *DONE) * live, chance(claim, "denied") * live
        if denied > 0.4 and value is not None and value != 0:
            back = claim.of == TAKEN_BACK
            sides = self._whose_back(claim, value) if back else lean(claim, self.rules.sides)
            self.denials.append(Denial(number, sides, value, denied, claim.start_ms, back))
        if value == 0 or (value is None and denied > 0.4):
            self._nothing(number, claim, denied, acted_ms)
            return True
        # What is said to be taken back is not said again by these very words.
        back = claim.of == TAKEN_BACK and denied > given
        if given >= 0.03 and not back and (self.rules.by_points or value in (None, *self.rules.classes)):
            self._call(number, claim, given, value, ordinal_of(claim))
        return False

    def penalty_back(self, number: int, claim: Claim, ladder: str | None) -> None:
        """A penalty said to be taken back."""
        denied = chance(claim, "denied")
        if ladder is not None and denied > PLAINLY:
            sides = lean(claim, self.rules.sides)
            self.denials.append(Denial(number, sides, ladder, denied, claim.start_ms, True))

    def result(self, number: int, claim: Claim, live: float) -> None:
        """A result that is an award too: what ends the bout at once. Nobody gives up once it is over; that it
        was won by ippon is said then as well."""
        top = TOP in self.rules.classes and claim.concept in (TOP, "submission")
        given = chance(claim, *DONE) * (live if claim.concept == "submission" else 1.0)
        if top and given > 0.3:
            self._call(number, claim, given, TOP, summed=claim.of == SUM)

    def _nothing(self, number: int, claim: Claim, denied: float, acted_ms: int) -> None:
        """The last award is taken back, if nothing was done since and it was not denied before."""
        last = self.calls[-1] if self.calls else None
        if last is None or last.value is None or any(one.at_ms > last.end_ms for one in self.denials[-1:]):
            return
        back, apart = claim.of == TAKEN_BACK, claim.start_ms - last.end_ms
        if apart <= (BACK_MS if back else SOON_MS) and (back or last.end_ms > acted_ms):
            sure = denied * (1.0 if back else PLAINLY)
            self.denials.append(Denial(number, last.sides, last.value, sure, claim.start_ms, back))

    def _call(
        self, number: int, claim: Claim, given: float, value: Gives | None, ordinal: int | None = None,
        summed: bool = False,
    ) -> None:  # fmt: skip
        sides = self._in_place(lean(claim, self.rules.sides), claim)
        call = Call(
            (number,), sides, (given,), value, claim.start_ms, claim.end_ms, None, ordinal, claim.vouched,
            told(claim), instead=INSTEAD in claim.attributes, summed=summed, slip=self.slipped,
        )  # fmt: skip
        if self.calls and self._same(self.calls[-1], call, claim):
            self.calls[-1] = _said_again(self.calls[-1], call)
            return
        self._append(call)
        if given > 0.5:
            self.fresh = self.slipped = False

    def _append(self, call: Call) -> None:
        """Enter a new call. A hold gives one score, the highest: "five, yuko … ten, waza-ari"."""
        of_hold, last = self._of_hold(call), self.calls[-1] if self.calls else None
        if of_hold is not None and of_hold == self.paid and last is not None and self._higher(call, last):
            call = call._replace(instead=True)
        revised = self._revised(call)
        if revised is not None and call.instead and not call.told:
            call = call._replace(sides=joined(call.sides, self.calls[revised].sides))
        self.calls.append(call._replace(revises=revised))
        self.paid = of_hold

    def _of_hold(self, call: Call) -> int | None:
        """When the hold began that has lasted long enough for what is called."""
        if self.hold is None:
            return None
        due = [row.seconds for row in self.rules.holds if row.gives == call.value and not row.golden]
        said = self.hold.seconds if self.hold.ended else None
        lasted = said or (call.start_ms - self.hold.start_ms) / 1000
        return self.hold.start_ms if due and lasted >= due[0] - SLACK_S else None

    def _higher(self, call: Call, last: Call) -> bool:
        classes = self.rules.classes
        known = {call.value, last.value} <= set(classes)
        return known and classes.index(str(call.value)) < classes.index(str(last.value))

    def _in_place(self, sides: Pair, claim: Claim) -> Pair:
        """What is given right after an award was taken back is given for the same: "the ippon is taken off,
        waza-ari"."""
        back = self.denials[-1] if self.denials else None
        if back is None or not back.back or told(claim) or claim.start_ms - back.at_ms > CORRECTED_MS:
            return sides
        before = [one for one in self.calls if one.value == back.value and one.end_ms <= back.at_ms]
        since = any(one.start_ms > back.at_ms and max(one.given) > LIKELY for one in self.calls)
        return sides if since or not before else joined(sides, before[-1].sides)

    def _revised(self, call: Call) -> int | None:
        """The call just before that this one may take the place of; of scores with classes, only a higher."""
        last = self.calls[-1] if self.calls else None
        if last is None or last.vouched or call.vouched or None in (last.value, call.value):
            return None
        corrects = call.instead or call.slip
        if last.value == call.value or (self.fresh and not corrects) or self._taken_back(last):
            return None
        within = INSTEAD_MS if call.instead else CORRECTED_MS if corrects else REVISED_MS
        if call.start_ms - last.end_ms > within:
            return None
        if not (self.rules.by_points or call.instead) and self._higher(call, last):
            return None
        return len(self.calls) - 1 if agree(last.sides, call.sides) > 0.3 else None

    def _whose_back(self, claim: Claim, value: Gives) -> Pair:
        """Whose the score is that is taken back: the last one's of its value, where no words name anybody."""
        sides = lean(claim, self.rules.sides)
        last = next((one for one in reversed(self.calls) if one.value == value), None)
        near = last is not None and claim.start_ms - last.end_ms <= BACK_MS and not told(claim)
        return last.sides if last is not None and near else sides

    def _taken_back(self, call: Call) -> bool:
        """Whether a call was said to be taken back since: what comes next need not do that once more."""
        return any(
            one.back and one.value == call.value and one.at_ms >= call.end_ms for one in self.denials[-1:]
        )

    def _same(self, last: Call, call: Call, claim: Claim) -> bool:
        """Whether a call is the last one said again; a person's is one of its own unless they say so."""
        if call.vouched and call.value != TOP:
            return claim.repeats in last.claims
        if call.value is not None and last.value is not None and call.value != last.value:
            return False
        final = call.value == TOP
        near = call.start_ms - last.end_ms <= (FINAL_MS if final else AGAIN_MS)
        return near and agree(last.sides, call.sides) > 0.3 and (final or not self.fresh)


def _said_again(last: Call, again: Call) -> Call:
    """The call with what was said of it once more."""
    return last._replace(
        claims=(*last.claims, *again.claims),
        sides=last.sides if last.vouched else joined(last.sides, again.sides),
        given=(*last.given, *again.given),
        value=last.value if again.value is None else again.value,
        end_ms=again.end_ms,
        ordinal=last.ordinal or again.ordinal,
        vouched=last.vouched or again.vouched,
        told=last.told or again.told,
        summed=last.summed or again.summed,
    )
