"""What was done in a bout: techniques with their landings, holds with their counts, penalties."""

from collections.abc import Iterator

from hikite.ledger.activities import ACTIVITY, PASSIVE
from hikite.ledger.deeds import DONE, Deed, chance, joined, lean, told
from hikite.ledger.landings import Landings
from hikite.ledger.retellings import (
    HOLD_MS,
    SAME_MS,
    goes_on,
    held_on,
    joined_deeds,
    named_twice,
    said_again,
    same_penalty,
)
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim
from hikite.records.marks import FURTHER, ordinal_of

STEP_OUT, LOST_CHALLENGE = "step-out", "lost-challenge"
"""What stepping out, and a challenge lost, bring the other side where the rules give something for it."""
OUT_MS, OUT_SURE = 8_000, 0.9
"""How far apart words of one stepping out lie at most, and P(a place said to be out is told of now)."""
CHALLENGE_MS, CHALLENGER = 120_000, 0.9
"""How long before its end a challenge was made at most, and P(whoever is named beside it made it)."""
OUT_AFTER_MS = 10_000
"""Whoever was penalised so shortly before is the one who is put out."""
LOOSELY, VERBAL = "warning", 0.5
"""What a wrestling referee's word of warning is called too, and P(it is a caution, which costs a point)."""
PENALTIES_TOGETHER = 2
"""Among so many last penalties one of both sides is told over."""
STEPS_OUT, PUTS_OUT = frozenset({"step-out", "push-out"}), frozenset({"hansoku-make", "disqualification"})
NOTHING_MS, ACTIVITY_MS = 22_000, 90_000
"""How long after the action "nothing given" is said of it, and an activity clock runs out after its penalty,
at most. Common practice, no source; read off the labelled bouts."""
HOLDS_BACK = 3
"""Among so many last deeds a hold goes on."""
BARELY = 0.4
"""A call so much less likely than the one just before it says nothing more of it."""


class Doings:
    """The deeds of one bout while its claims are taken in; each method says whether it heard of a new one.

    ``live`` is what is left of the chance that a claim tells of now.
    """

    def __init__(self, rules: Ruleset) -> None:
        self.sides = rules.sides
        self.awards = {award.name for award in rules.awards}
        self.challenged: Claim | None = None
        self.deeds: list[Deed] = []
        # When something of the bout itself was told last: a restart, an attack, a grip.
        self.played_ms = 0
        self.landings = Landings(rules, self.deeds)
        self.ladders = {
            name: ladder.concept
            for ladder in reversed(rules.ladders)
            for name in (*ladder.also, ladder.concept)
        }
        self.ladders.update({ladder.concept: ladder.concept for ladder in rules.ladders})

    @property
    def acted_ms(self) -> int:
        """When the last deed began."""
        return self.deeds[-1].start_ms if self.deeds else -1

    def technique(self, number: int, claim: Claim, live: float) -> bool:
        """A technique that may have come off."""
        done = chance(claim, *DONE) * live
        if done < 0.1:
            return False
        deed = self._deed(number, claim, claim.concept, done)
        if claim.concept in STEPS_OUT and self._out_again(deed):
            return False
        if self.deeds and claim.repeats in self.deeds[-1].claims:
            self.deeds[-1] = named_twice(self.deeds[-1], deed)
            return done > 0.5
        self.deeds.append(self.landings.of(deed._replace(fell=claim.fell)))
        return done > 0.5

    def out(self, number: int, claim: Claim, live: float) -> None:
        """Somebody out of the area: the other side's step-out, where the rules pay for it."""
        if claim.concept != "out" or STEP_OUT not in self.awards:
            return
        if claim.status == "denied" and self.deeds and self.deeds[-1].concept in STEPS_OUT:
            self.nothing(claim)
        if claim.status != "stated":
            return
        deed = self._deed(number, claim, STEP_OUT, OUT_SURE * live)
        deed = deed._replace(kind="technique", sides=deed.sides[::-1])
        if not self._out_again(deed):
            self.deeds.append(deed)

    def _out_again(self, deed: Deed) -> bool:
        """Whether a stepping out is the last one told further; then it is joined to it."""
        last = self.deeds[-1] if self.deeds else None
        if last is None or last.concept not in STEPS_OUT or deed.start_ms - last.end_ms > OUT_MS:
            return False
        self.deeds[-1] = joined_deeds(last, deed)
        return True

    def challenge(self, number: int, claim: Claim, live: float) -> bool:
        """A challenge made, or one that is lost: that pays the side that did not make it."""
        if claim.of == "challenge" and claim.concept == "stop":
            self.challenged = claim if claim.side else None
        if claim.concept != LOST_CHALLENGE or LOST_CHALLENGE not in self.awards:
            return False
        made = self.challenged
        by = claim.side or (made.side if made and claim.start_ms - made.end_ms <= CHALLENGE_MS else None)
        sides = (0.5, 0.5) if by not in self.sides else (CHALLENGER, 1 - CHALLENGER)
        sides = sides if by == self.sides[1] else sides[::-1]
        last = self.deeds[-1] if self.deeds else None
        if last is None or last.concept != LOST_CHALLENGE or claim.start_ms - last.end_ms > SAME_MS:
            deed = self._deed(number, claim, LOST_CHALLENGE, live)
            self.deeds.append(deed._replace(kind="technique", sides=sides, told=False))
        return True

    def _deed(self, number: int, claim: Claim, concept: str, done: float) -> Deed:
        return Deed(
            claim.kind,
            concept,
            (number,),
            lean(claim, self.sides),
            done,
            claim.start_ms,
            claim.end_ms,
            vouched=claim.vouched,
            told=told(claim),
        )

    def _last(self, most: int) -> Iterator[tuple[int, Deed]]:
        """The last deeds with their places, the latest first."""
        for at in range(len(self.deeds) - 1, max(-1, len(self.deeds) - 1 - most), -1):
            yield at, self.deeds[at]

    def hold(self, number: int, claim: Claim, live: float) -> bool:
        """A hold, or one more count of it."""
        held = chance(claim, "running", "broken", *DONE) * live
        if held < 0.3:
            return False
        fresh = self._deed(number, claim, claim.concept, held)._replace(
            seconds=claim.seconds, ended=claim.status in ("broken", "completed")
        )
        for at, hold in self._last(HOLDS_BACK):
            if goes_on(hold, fresh):
                self.deeds[at] = held_on(hold, fresh)
                return False
        self.deeds.append(fresh)
        return True

    def holding(self, at: int) -> Deed | None:
        """The hold that is on at a moment, or was shortly before."""
        holds = (deed for _, deed in self._last(HOLDS_BACK) if deed.kind == "hold")
        return next((hold for hold in holds if at - hold.end_ms <= HOLD_MS), None)

    def penalty(self, number: int, claim: Claim, live: float) -> bool:
        """A penalty, or the last one said again."""
        ladder, given = self.ladders.get(claim.concept), chance(claim, *DONE) * live
        if ladder is None or given < 0.05:
            return False
        if claim.concept == LOOSELY and ladder != LOOSELY and STEP_OUT in self.awards and not claim.vouched:
            given *= VERBAL
        fresh = self._deed(number, claim, ladder, given)
        fresh = fresh._replace(points=claim.points, ordinal=ordinal_of(claim))
        played_ms = claim.start_ms if FURTHER in claim.attributes else self.played_ms
        for at, last in self._last(PENALTIES_TOGETHER if self._of_both() else 1):
            if same_penalty(last, fresh, claim.repeats, played_ms):
                if given >= last.done * BARELY:
                    self.deeds[at] = said_again(last, fresh)
                return False
        fresh = self._as_penalised(fresh)
        self.deeds.append(fresh)
        return given > 0.5

    def _of_both(self) -> bool:
        """Whether the last two deeds are one penalty of each side."""
        return (
            len(self.deeds) > 1
            and all(one.kind == "penalty" for one in self.deeds[-2:])
            and (
                self.deeds[-1].concept == self.deeds[-2].concept
                and self.deeds[-1].start_ms == self.deeds[-2].start_ms
            )
        )

    def _as_penalised(self, fresh: Deed) -> Deed:
        """The penalty that puts out, of the one named with the penalty just before it."""
        last = self.deeds[-1] if self.deeds else None
        if fresh.concept not in PUTS_OUT or fresh.told or fresh.vouched:
            return fresh
        if last is None or last.kind != "penalty" or fresh.start_ms - last.end_ms > OUT_AFTER_MS:
            return fresh
        return fresh._replace(sides=joined(fresh.sides, last.sides), told=last.told)

    def clock(self, number: int, claim: Claim, live: float) -> bool:
        """An activity clock that has run out may bring a point against the passive one."""
        if claim.of != ACTIVITY or claim.seconds != 0 or claim.elapsed or claim.status != "stated":
            return False
        called = (deed for deed in reversed(self.deeds) if deed.kind == "penalty")
        passive = next((deed for deed in called if deed.concept == PASSIVE), None)
        if passive is None or claim.start_ms - passive.end_ms > ACTIVITY_MS:
            return False
        sides = passive.sides[::-1]
        self.deeds.append(Deed("technique", ACTIVITY, (number,), sides, live, claim.start_ms, claim.end_ms))
        return True

    def nothing(self, claim: Claim) -> None:
        """Nothing was given for the last deed."""
        if self.deeds and claim.start_ms - self.deeds[-1].end_ms <= NOTHING_MS:
            self.deeds[-1] = self.deeds[-1]._replace(nothing=True)
