"""What is told of another mat is of another bout: "From mat one, a win by ippon for …"."""

from collections.abc import Iterable, Iterator

from hikite.claims.said.matching import Hit
from hikite.claims.said.reading import Reading
from hikite.records import Claim

_KINDS = ("score", "penalty", "result")
# So many words behind the mat's name are of it, while the same person speaks on.
_REACH = 12


def set_apart(reading: Reading, claims: Iterable[Claim]) -> Iterator[Claim]:
    """The claims, those told of another mat as told over; the mat named first is this one's."""
    named = reading.hits.get("elsewhere", ())
    own = next((hit.values for hit in named if hit.values), ())
    theirs = [hit for hit in named if hit.values != own or not hit.values]
    for claim in claims:
        if claim.kind in _KINDS and claim.status == "given" and _covered(reading, claim, theirs):
            claim = claim.model_copy(update={"status": "recalled"})
        yield claim


def _covered(reading: Reading, claim: Claim, theirs: Iterable[Hit]) -> bool:
    """Whether another mat is named so shortly before, and this one's competitors not since."""
    for hit in theirs:
        near = hit.first <= claim.first <= hit.stop + _REACH
        ours = any(reading.named(at) for at in range(hit.stop, claim.stop))
        if near and not ours and claim.side is None:
            return True
    return False
