"""One pass over a bout's claims that brings those about one thing together."""

from collections.abc import Iterable

from hikite.ledger.courses import OPENING, Course, opening_of
from hikite.ledger.deeds import DONE, Call, Deed, Denial, Matter, Pair, agree, chance, joined, lean
from hikite.ledger.plans import TOP
from hikite.ledger.rulebooks import Gives, Ruleset
from hikite.records import Claim

HOLD_MS, LANDING_MS, NOTHING_MS, AGAIN_MS = 25_000, 10_000, 22_000, 7_000
SAME_MS, FINAL_MS, ACTIVITY_MS = 6_000, 40_000, 90_000
BACK_MS, SOON_MS, BEFORE_MS = 60_000, 8_000, 9_000
"""How far apart claims of one thing lie at most: hold counts, landing after throw, "nothing given" after the
action, an award said twice, a penalty said twice, an ippon said twice, an activity clock after its penalty,
an award and its taking back, an award and a plain "no score", a landing and the throw named after it.
Common practice, no source; read off the labelled bouts."""
BARELY = 0.4
"""A call so much less likely than the one just before it says nothing more of it."""
ACTIVITY = "activity"
"""The clock that runs against a passive wrestler, and the award for letting it run out."""
TAKEN_BACK, PLAINLY = "taken-back", 0.4
"""The mark of words that say of a score given that it no longer is, and how much less plain words say so."""


def gather(claims: Iterable[tuple[int, Claim]], rules: Ruleset) -> Matter:
    """The matter of one bout's claims (with their indexes in the testimony)."""
    claims = tuple(claims)
    gathering = _Gathering(rules, opening_of([claim for _, claim in claims[:OPENING]]))
    for number, claim in claims:
        gathering.take(number, claim)
    return gathering.matter()


class _Gathering:
    def __init__(self, rules: Ruleset, opening_ms: int) -> None:
        self.rules, self.sides = rules, rules.sides
        self.deeds: list[Deed] = []
        self.calls: list[Call] = []
        self.denials: list[Denial] = []
        self.statements: list[int] = []
        self.verdicts: list[int] = []
        self.late: set[int] = set()
        self.fresh = False
        self.loose: Claim | None = None
        self.course = Course(rules, opening_ms)
        self.ladders = {
            name: ladder.concept
            for ladder in reversed(rules.ladders)
            for name in (*ladder.also, ladder.concept)
        }
        self.ladders.update({ladder.concept: ladder.concept for ladder in rules.ladders})

    def matter(self) -> Matter:
        return Matter(
            tuple(self.deeds),
            tuple(self.calls),
            tuple(self.denials),
            tuple(self.statements),
            tuple(self.verdicts),
            frozenset(self.late),
        )

    def take(self, number: int, claim: Claim) -> None:
        self.live = 1.0 if claim.vouched else self.course.live(claim.start_ms)
        self.course.hear(claim)
        match claim.kind:
            case "technique":
                self._technique(number, claim)
            case "hold":
                self._hold(number, claim)
            case "landing":
                self._landing(claim)
            case "penalty":
                self._penalty(number, claim)
            case "score":
                self._score(number, claim)
            case "stated_score":
                self.statements.append(number)
                self.fresh = True
                if self.live < 0.6:
                    self.late.add(number)
            case "result":
                self._result(number, claim)
            case "clock":
                self._clock(number, claim)

    def _technique(self, number: int, claim: Claim) -> None:
        done = chance(claim, *DONE) * self.live
        if done >= 0.1:
            deed = Deed(
                "technique",
                claim.concept,
                (number,),
                lean(claim, self.sides),
                done,
                claim.start_ms,
                claim.end_ms,
                fell=claim.fell,
                vouched=claim.vouched,
            )
            self.deeds.append(self._landed(deed))
            self.fresh = self.fresh or done > 0.5

    def _landed(self, deed: Deed) -> Deed:
        """The deed with the landing told just before it was named, if that belongs to no other."""
        loose, self.loose = self.loose, None
        if loose is None or deed.start_ms - loose.end_ms > BEFORE_MS:
            return deed
        thrown = lean(loose, self.sides)
        sides = joined(deed.sides, (0.25 + 0.5 * thrown[1], 0.25 + 0.5 * thrown[0]))
        return deed._replace(landing=loose.concept.removeprefix("landing:"), fell=loose.fell, sides=sides)

    def _hold(self, number: int, claim: Claim) -> None:
        live = chance(claim, "running", "broken", *DONE) * self.live
        if live < 0.3:
            return
        ended = claim.status in ("broken", "completed")
        sides = lean(claim, self.sides)
        for at in range(len(self.deeds) - 1, max(-1, len(self.deeds) - 4), -1):
            deed = self.deeds[at]
            near = claim.start_ms - deed.end_ms <= HOLD_MS and agree(deed.sides, sides) > 0.3
            if deed.kind == "hold" and near and not deed.ended:
                seconds = max(deed.seconds or 0, claim.seconds or 0) or None
                self.deeds[at] = deed._replace(
                    claims=(*deed.claims, number),
                    sides=joined(deed.sides, sides),
                    done=max(deed.done, live),
                    end_ms=claim.end_ms,
                    seconds=seconds,
                    ended=ended,
                    concept=claim.concept if deed.concept in ("osaekomi", "hold-down") else deed.concept,
                )
                return
        self.deeds.append(
            Deed(
                "hold",
                claim.concept,
                (number,),
                sides,
                live,
                claim.start_ms,
                claim.end_ms,
                seconds=claim.seconds,
                ended=ended,
                vouched=claim.vouched,
            )
        )
        self.fresh = True

    def _landing(self, claim: Claim) -> None:
        thrown = lean(claim, self.sides)
        thrower = thrown[1], thrown[0]
        place = claim.concept.removeprefix("landing:")
        for at in range(len(self.deeds) - 1, max(-1, len(self.deeds) - 3), -1):
            deed = self.deeds[at]
            if (
                deed.kind == "technique"
                and claim.start_ms - deed.end_ms <= LANDING_MS
                and deed.landing is None
            ):
                fell = deed.fell if claim.fell is None else claim.fell
                sides = joined(deed.sides, (0.25 + 0.5 * thrower[0], 0.25 + 0.5 * thrower[1]))
                self.deeds[at] = deed._replace(landing=place, fell=fell, sides=sides)
                return
        self.loose = claim

    def _penalty(self, number: int, claim: Claim) -> None:
        ladder, sides = self.ladders.get(claim.concept), lean(claim, self.sides)
        given = chance(claim, *DONE) * self.live
        if ladder is None or given < 0.05:
            return
        ordinal = next((int(tag[6:]) for tag in claim.attributes if tag.startswith("count:")), None)
        last = self.deeds[-1] if self.deeds else None
        if last and _same_penalty(last, ladder, claim.start_ms, sides, ordinal):
            if given < last.done * BARELY:
                return
            points = last.points if claim.points is None else claim.points
            self.deeds[-1] = last._replace(
                claims=(*last.claims, number),
                sides=joined(last.sides, sides),
                done=max(last.done, given),
                end_ms=claim.end_ms,
                points=points,
                vouched=last.vouched or claim.vouched,
            )
            return
        self.deeds.append(
            Deed(
                "penalty",
                ladder,
                (number,),
                sides,
                given,
                claim.start_ms,
                claim.end_ms,
                points=claim.points,
                ordinal=ordinal,
                vouched=claim.vouched,
            )
        )
        self.fresh = self.fresh or given > 0.5

    def _score(self, number: int, claim: Claim) -> None:
        value: Gives | None = claim.points if self.rules.by_points else claim.score_class
        given, denied = chance(claim, *DONE) * self.live, chance(claim, "denied") * self.live
        sides = lean(claim, self.sides)
        if denied > 0.4 and value is not None and value != 0:
            self.denials.append(Denial(number, sides, value, denied, claim.start_ms))
        if value == 0 or (value is None and denied > 0.4):
            self._nothing(number, claim, denied)
            return
        if given >= 0.03 and (self.rules.by_points or value in (None, *self.rules.classes)):
            ordinal = next((int(tag[6:]) for tag in claim.attributes if tag.startswith("count:")), None)
            self._call(number, sides, given, value, claim, ordinal)

    def _nothing(self, number: int, claim: Claim, denied: float) -> None:
        """Nothing is given for the last deed, or what was given for it is taken back."""
        last = self.calls[-1] if self.calls else None
        done = self.deeds[-1].start_ms if self.deeds else -1
        told = any(denial.at_ms > last.end_ms for denial in self.denials[-1:]) if last else False
        if last is not None and last.value is not None and not told:
            back, apart = claim.of == TAKEN_BACK, claim.start_ms - last.end_ms
            if apart <= (BACK_MS if back else SOON_MS) and (back or last.end_ms > done):
                sure = denied * (1.0 if back else PLAINLY)
                self.denials.append(Denial(number, last.sides, last.value, sure, claim.start_ms, back))
        if self.deeds and claim.start_ms - self.deeds[-1].end_ms <= NOTHING_MS:
            self.deeds[-1] = self.deeds[-1]._replace(nothing=True)

    def _clock(self, number: int, claim: Claim) -> None:
        """An activity clock that has run out may bring a point against the passive one."""
        if claim.of != ACTIVITY or claim.seconds != 0 or claim.elapsed or claim.status != "stated":
            return
        passive = next(
            (d for d in reversed(self.deeds) if d.kind == "penalty" and d.concept == "passivity"), None
        )
        if passive is not None and claim.start_ms - passive.end_ms <= ACTIVITY_MS:
            sides = passive.sides[::-1]
            self.deeds.append(
                Deed("technique", ACTIVITY, (number,), sides, self.live, claim.start_ms, claim.end_ms)
            )
            self.fresh = True

    def _result(self, number: int, claim: Claim) -> None:
        self.verdicts.append(number)
        top = TOP in self.rules.classes and claim.concept in (TOP, "submission")
        if top and chance(claim, *DONE) > 0.3:
            self._call(number, lean(claim, self.sides), chance(claim, *DONE), TOP, claim)

    def _call(
        self,
        number: int,
        sides: Pair,
        given: float,
        value: Gives | None,
        claim: Claim,
        ordinal: int | None = None,
    ) -> None:
        last = self.calls[-1] if self.calls else None
        if last and self._same_call(last, sides, value, claim.start_ms):
            self.calls[-1] = last._replace(
                claims=(*last.claims, number),
                sides=joined(last.sides, sides),
                given=(*last.given, given),
                value=last.value if value is None else value,
                end_ms=claim.end_ms,
                ordinal=last.ordinal or ordinal,
                vouched=last.vouched or claim.vouched,
            )
            return
        call = Call((number,), sides, (given,), value, claim.start_ms, claim.end_ms)
        self.calls.append(call._replace(ordinal=ordinal, vouched=claim.vouched))
        if given > 0.5:
            self.fresh = False

    def _same_call(self, last: Call, sides: Pair, value: Gives | None, start: int) -> bool:
        if value is not None and last.value is not None and value != last.value:
            return False
        final = value == TOP
        near = start - last.end_ms <= (FINAL_MS if final else AGAIN_MS)
        return near and agree(last.sides, sides) > 0.3 and (final or not self.fresh)


def _same_penalty(last: Deed, ladder: str, start: int, sides: Pair, ordinal: int | None) -> bool:
    alike = last.kind == "penalty" and last.concept == ladder and (ordinal is None or ordinal == last.ordinal)
    return alike and start - last.end_ms <= SAME_MS and agree(last.sides, sides) > 0.3
