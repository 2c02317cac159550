"""A grip that is broken or lost: which one it was, told of whoever loses it."""

from collections.abc import Iterable

from hikite.records import Candidate, Claim, Reason

# What is told of whoever strips the other's hold, and of whoever, or whatever hold, is stripped.
_LOST = "grip:grip-lost"
_WHICHEVER = ("grip:grip-break", _LOST)
# A grip taken longer ago is hardly the one that is stripped now. Set by hand.
_REACH_MS = 20_000
# What is told without a name is no surer than this, and as sure where there was a grip to break. Set by hand.
_NAMED = 0.6
_LIVE = ("taken", "sought")
_LOOSENED = "loosened"


def loosened(claims: Iterable[Claim]) -> tuple[Claim, ...]:
    """The claims, each grip broken or lost turned into the one it was: "strips it" breaks the other's last,
    "the grip's gone" whoever's. Where none was taken lately, what is told without a name is left out.
    """
    found: list[Claim] = []
    for claim in claims:
        if claim.concept in _WHICHEVER and claim.status in ("taken", "broken"):
            claim = _broken(claim, found)
            if claim.concept in _WHICHEVER and claim.confidence < _NAMED:
                continue
        found.append(claim)
    return tuple(found)


def _broken(claim: Claim, before: list[Claim]) -> Claim:
    """The claim of a broken grip; ``before`` are those that precede it."""
    if claim.status != "broken":
        claim = claim.model_copy(update={"status": "broken", "statuses": {"broken": 1.0}})
    if claim.concept == _LOST or claim.side is None:
        return _named(claim, before)
    claim = _turned(claim)
    return _named(claim, [one for one in before if one.side == claim.side])


def _turned(claim: Claim) -> Claim:
    """The claim told of the other side."""
    (one, first), (two, second) = claim.sides.items()
    return claim.model_copy(
        update={"side": two if claim.side == one else one, "sides": {one: second, two: first}}
    )


def _named(claim: Claim, before: list[Claim]) -> Claim:
    """The claim with the grip that was taken last, if that was lately, and with its side."""
    last = next((one for one in reversed(before) if one.kind == "grip"), None)
    if last is None or last.status not in _LIVE or claim.start_ms - last.start_ms > _REACH_MS:
        return claim
    own = Candidate(concept=claim.concept, probability=claim.confidence, form=claim.concept, how="near")
    return claim.model_copy(
        update={
            "concept": last.concept,
            "side": last.side,
            "sides": last.sides,
            "alternatives": (own, *claim.alternatives),
            "confidence": max(claim.confidence, _NAMED),
            "reasons": (*claim.reasons, Reason(name=_LOOSENED, words=last.concept)),
        }
    )
