"""How somebody was thrown, brought to the throw it tells of, or to one that nobody named."""

from typing import NamedTuple

from hikite.ledger.deeds import Deed, joined, lean
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim

LANDING_MS, NAMED_MS, EXPLAINED_MS = 10_000, 9_000, 25_000
"""How far apart a throw and its landing lie at most, a landing and the throw named after it, and a throw and
its landing where that belongs to nothing else. Common practice, no source; read off the labelled bouts."""
ENDS_MS = 6_000
"""So soon after a throw, going on, somebody comes to lie at last. Common practice, no source."""
LANDINGS_BACK = 2
"""Among so many last deeds a throw has its landing told."""
UNTOLD = "landing"
"""A landing of which only the thrower's part is told."""
THROW, UNNAMED = "throw", (0.15, 0.4)
"""A throw that nobody named, and P(there was one | a landing told, or that and the thrower's part), where the
landing belongs to no throw named. Common practice, no source."""


class Loose(NamedTuple):
    """A landing that belongs to no throw yet: its claims and what they tell."""

    claims: tuple[int, ...]
    told: Claim
    fell: bool | None


class Landings:
    """The landings of one bout while its claims are taken in; ``deeds`` are the bout's own, made to fit."""

    def __init__(self, rules: Ruleset, deeds: list[Deed]) -> None:
        self.sides, self.deeds, self.scored = rules.sides, deeds, bool(rules.throws)
        self.paid = frozenset(place for throw in rules.throws if throw.gives for place in throw.landing)
        self.loose: Loose | None = None

    def of(self, deed: Deed) -> Deed:
        """The deed with the landing told just before it was named, if that belongs to no other."""
        loose, self.loose = self.loose, None
        if loose is None or deed.start_ms - loose.told.end_ms > NAMED_MS:
            return deed
        return self._joined(deed, loose.told, loose.fell)

    def hear(self, number: int, claim: Claim) -> None:
        """A landing: of the throw before it, else perhaps of the one named next.

        One that only tells whether the thrower went down leaves open how the other landed.
        """
        untold = claim.concept == UNTOLD
        for at in range(len(self.deeds) - 1, max(-1, len(self.deeds) - 1 - LANDINGS_BACK), -1):
            deed = self.deeds[at]
            near = claim.start_ms - deed.end_ms <= LANDING_MS
            # "still on his feet … no, the knee went down": the last word on it counts.
            lands = deed.fell != claim.fell if untold else self._lands(deed, claim)
            if deed.kind == "technique" and near and lands:
                fell = deed.fell if claim.fell is None else claim.fell
                self.deeds[at] = self._joined(deed, claim, fell)
                return
        last = self.loose
        if last is None or claim.start_ms - last.told.end_ms > NAMED_MS:
            self.loose = Loose((number,), claim, claim.fell)
            return
        fell = claim.fell if last.fell is None else last.fell
        told = last.told if untold else claim
        self.loose = Loose((*last.claims, number), told, fell)

    def _lands(self, deed: Deed, claim: Claim) -> bool:
        """Whether a landing is a deed's first, or where it ends after one that gives nothing: "on the knees,
        and over he goes, on his side"."""
        place = claim.concept.removeprefix("landing:")
        soon = claim.start_ms - deed.end_ms <= ENDS_MS
        return deed.landing is None or (soon and deed.landing not in self.paid and place in self.paid)

    def settle(self, at: int) -> None:
        """What landed long enough ago, with no throw named since, was perhaps thrown all the same."""
        loose = self.loose
        if loose is None or at - loose.told.end_ms <= NAMED_MS:
            return
        self.loose = None
        claim = loose.told
        if self._explains(loose):
            return
        if self.scored and claim.concept != UNTOLD and claim.status == "stated":
            done = UNNAMED[loose.fell is not None]
            thrown = Deed("technique", THROW, loose.claims, (0.5, 0.5), done, claim.start_ms, claim.end_ms)
            self.deeds.append(self._joined(thrown, claim, loose.fell))

    def _explains(self, loose: Loose) -> bool:
        """Whether a technique was done a while before: the landing is told late, and of that."""
        claim = loose.told
        for at in range(len(self.deeds) - 1, -1, -1):
            deed = self.deeds[at]
            if claim.start_ms - deed.end_ms > EXPLAINED_MS:
                return False
            if deed.kind == "technique" and deed.start_ms <= claim.start_ms:
                fell = deed.fell if loose.fell is None else loose.fell
                if deed.landing is None and claim.concept != UNTOLD:
                    self.deeds[at] = self._joined(deed, claim, fell)
                elif claim.concept == UNTOLD:
                    self.deeds[at] = deed._replace(fell=fell)
                return True
        return False

    def _joined(self, deed: Deed, landing: Claim, fell: bool | None) -> Deed:
        """The deed with its landing; who was thrown tells a little of who threw."""
        thrown = lean(landing, self.sides)
        sides = joined(deed.sides, (0.25 + 0.5 * thrown[1], 0.25 + 0.5 * thrown[0]))
        how = deed.landing if landing.concept == UNTOLD else landing.concept.removeprefix("landing:")
        return deed._replace(landing=how, fell=fell, sides=sides)
