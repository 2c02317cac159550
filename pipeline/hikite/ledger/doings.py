"""What was done in a bout: techniques with their landings, holds with their counts, penalties."""

from collections.abc import Iterator

from hikite.ledger.activities import ACTIVITY, PASSIVE
from hikite.ledger.deeds import DONE, Deed, agree, chance, joined, lean, told
from hikite.ledger.landings import Landings
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim

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
HOLD_MS, AGAIN_MS = 25_000, 10_000
NOTHING_MS, SAME_MS, ACTIVITY_MS = 22_000, 6_000, 90_000
"""How far apart claims of one thing lie at most: hold counts, the end of a hold told twice, "nothing given"
after the action, a penalty said twice, an activity clock after its penalty. Common practice, no source; read
off the labelled bouts."""
STRAYS_S = 4.0
"""So far a count aloud strays from the clock. Common practice, no source."""
HOLDS_BACK = 3
"""Among so many last deeds a hold goes on."""
BARELY = 0.4
"""A call so much less likely than the one just before it says nothing more of it."""
UNNAMED_HOLDS = frozenset({"osaekomi", "hold-down"})


class Doings:
    """The deeds of one bout while its claims are taken in; each method says whether it heard of a new one.

    ``live`` is what is left of the chance that a claim tells of now.
    """

    def __init__(self, rules: Ruleset) -> None:
        self.sides = rules.sides
        self.awards = {award.name for award in rules.awards}
        self.challenged: Claim | None = None
        self.deeds: list[Deed] = []
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
        self.deeds[-1] = _joined_deeds(last, deed)
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
        for at, deed in self._last(HOLDS_BACK):
            near = fresh.start_ms - deed.end_ms <= HOLD_MS and agree(deed.sides, fresh.sides) > 0.3
            on = not deed.ended or _over_again(deed, fresh) or _counted_on(deed, fresh)
            if deed.kind == "hold" and near and on:
                self.deeds[at] = _held_on(deed, fresh)
                return False
        self.deeds.append(fresh)
        return True

    def penalty(self, number: int, claim: Claim, live: float) -> bool:
        """A penalty, or the last one said again."""
        ladder, given = self.ladders.get(claim.concept), chance(claim, *DONE) * live
        if ladder is None or given < 0.05:
            return False
        if claim.concept == LOOSELY and ladder != LOOSELY and STEP_OUT in self.awards and not claim.vouched:
            given *= VERBAL
        fresh = self._deed(number, claim, ladder, given)
        fresh = fresh._replace(points=claim.points, ordinal=ordinal_of(claim))
        for at, last in self._last(PENALTIES_TOGETHER if self._of_both() else 1):
            if _same_penalty(last, fresh, claim.repeats):
                if given >= last.done * BARELY:
                    self.deeds[at] = _said_again(last, fresh)
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


def ordinal_of(claim: Claim) -> int | None:
    """Which one of its side and kind a claim says it is, if it does."""
    counts = (tag.removeprefix("count:") for tag in claim.attributes if tag.startswith("count:"))
    return next((int(count) for count in counts), None)


def _joined_deeds(deed: Deed, again: Deed) -> Deed:
    """One deed of two that tell of the same thing."""
    return deed._replace(
        claims=(*deed.claims, *again.claims),
        sides=joined(deed.sides, again.sides),
        done=max(deed.done, again.done),
        told=deed.told or again.told,
        end_ms=again.end_ms,
    )


def _held_on(hold: Deed, later: Deed) -> Deed:
    """The hold with a later word of it."""
    return _joined_deeds(hold, later)._replace(
        seconds=max(hold.seconds or 0, later.seconds or 0) or None,
        ended=later.ended,
        concept=later.concept if hold.concept in UNNAMED_HOLDS else hold.concept,
    )


def _over_again(hold: Deed, later: Deed) -> bool:
    """Whether a hold's end is the last one's told once more: "six, and out! … toketa at six"."""
    soon = later.start_ms - hold.end_ms <= AGAIN_MS
    return later.ended and soon and (later.seconds is None or abs(later.seconds - (hold.seconds or 0)) <= 2)


def _counted_on(hold: Deed, later: Deed) -> bool:
    """Whether a count goes on from a hold as a clock would: "five … a leg between … ten" was not broken."""
    if hold.seconds is None or later.seconds is None or later.seconds <= hold.seconds:
        return False
    return abs((later.start_ms - hold.end_ms) / 1000 - (later.seconds - hold.seconds)) <= STRAYS_S


def _same_penalty(last: Deed, fresh: Deed, repeats: int | None) -> bool:
    """Whether a penalty is the last one said again; a person's is one of its own unless they say so."""
    if fresh.vouched:
        return repeats in last.claims
    alike = last.kind == "penalty" and last.concept == fresh.concept
    alike = alike and (fresh.ordinal is None or fresh.ordinal == last.ordinal)
    return alike and fresh.start_ms - last.end_ms <= SAME_MS and agree(last.sides, fresh.sides) > 0.3


def _said_again(last: Deed, again: Deed) -> Deed:
    """The penalty with what was said of it once more."""
    points = last.points if again.points is None else again.points
    return _joined_deeds(last, again)._replace(points=points, vouched=last.vouched or again.vouched)
