"""Whom a penalty asked about is for, answered behind it: "A shido? Who for? White? No, blue."."""

from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.reading import Reading
from hikite.records import Claim

# So many words behind the question the answer comes at most. Set by hand.
_WITHIN = 12
_ASKED = "?"


def answered(reading: Reading, claim: Claim) -> Claim:
    """The claim, given and of whoever is named first in answer, if it or what follows it was asked."""
    if claim.side is not None or claim.status not in ("given", "supposed"):
        return claim
    asked, opens = False, False
    for at in range(claim.stop, min(claim.stop + _WITHIN, len(reading.words))):
        if reading.gaps[at] == HARD:
            asked = asked or reading.talk.tokens[at - 1].after.startswith(_ASKED)
            opens = True
        actor = reading.actors.get(at)
        if actor is not None and opens and asked and _answers(reading, at):
            meant = _instead(reading, actor.stop) or actor.side
            return claim.model_copy(update={"side": meant, "status": "given"})
        opens = opens and _no(reading, at)
    return claim


def _answers(reading: Reading, at: int) -> bool:
    """Whether a name is all of its clause and not asked in turn."""
    actor = reading.actors[at]
    alone = reading.named(at) and actor.side in reading.sides and reading.gaps[actor.stop] != NONE
    return alone and not reading.talk.tokens[actor.stop - 1].after.startswith(_ASKED)


def _instead(reading: Reading, stop: int) -> str | None:
    """As in "red... no, blue.": who is named behind words that take the first name back."""
    for hit in reading.starting("award_withdrawn", stop):
        if hit.stop in reading.actors and _answers(reading, hit.stop):
            return reading.actors[hit.stop].side
    return None


def _no(reading: Reading, at: int) -> bool:
    """Whether words that take back a name lead to another from here."""
    return bool(reading.starting("award_withdrawn", at))
