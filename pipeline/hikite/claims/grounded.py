"""What is told while a hold is on is done lying down: "grab a leg!" is no shot at the legs there."""

from collections.abc import Iterator, Sequence

from hikite.records import Claim, Mention
from hikite.terms import Terms

# So long after the last word of a hold it is taken to be over.
_OVER_MS = 10_000


def on_the_ground(mentions: Sequence[Mention], said: Sequence[Claim], terms: Terms) -> tuple[Mention, ...]:
    """The mentions without descriptions of what begins standing where a hold is on; names stay."""
    spans = tuple(_held(said))

    def stays(mention: Mention) -> bool:
        lying = any(first <= mention.first < stop for first, stop in spans)
        return not (lying and described(mention, terms) and _afoot(mention.concept, terms))

    return tuple(one for one in mentions if stays(one))


def _held(said: Sequence[Claim]) -> Iterator[tuple[int, int]]:
    """Where a hold is on, by tokens: from its first word to the one that ends it."""
    first, last = None, None
    for claim in (one for one in said if one.kind == "hold"):
        if last is not None and first is not None and claim.start_ms - last.end_ms > _OVER_MS:
            yield first, last.stop
            first = None
        if claim.status == "running":
            first, last = (claim.first if first is None else first), claim
        elif claim.status in ("broken", "completed") and first is not None:
            yield first, claim.stop
            first = None
    if first is not None and last is not None:
        yield first, last.stop


def described(mention: Mention, terms: Terms) -> bool:
    """Whether a mention is no form of a name but a description."""
    best = mention.candidates[0]
    return best.how == "near" and terms.name(best.concept, best.form) is None


def told(draft: Claim, terms: Terms) -> bool:
    """Whether a draft has no form of a name, here or elsewhere, but is told at length."""
    if not draft.reasons or draft.reasons[0].name != "near":
        return False
    concepts = (draft.concept, *(one.concept for one in draft.alternatives))
    return all(terms.name(concept, draft.reasons[0].words) is None for concept in concepts)


def _afoot(concept: str, terms: Terms) -> bool:
    return any(terms.concepts[one].afoot for one in terms.families(concept))
