"""Who won and how, said, denied or foretold."""

from collections.abc import Iterator, Sequence

from hikite.claims.said.drafting import folded, phrased
from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.reading import Reading
from hikite.records import Claim

_HOW_UNTOLD = "points"
# "Tap! Tap! Tap!" is one; "that's the tech … technical superiority, Ana" tells more the second time.
_BREATH_MS = 1_000
_SAME_BREATH_WORDS = 4
# The mark of an arm that goes up; it raises the winner's so many words after the end at most.
_ARM, _ENDS, _OVER_WORDS = "arm-up", ("end", "signal"), 60


def find_results(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a result; ``side`` is the winner, whether named or known from who taps."""
    said = phrased(reading, "result", "result", "given", taken, _BREATH_MS)
    told = (
        claim.model_copy(update={"of": None}) if claim.of == _ARM else claim
        for claim in said
        if claim.of != _ARM or _over(reading, claim)
    )
    return tuple(_joined(reading, tuple(told)))


def _over(reading: Reading, claim: Claim) -> bool:
    """Whether the end was called before: an arm that goes up sooner gives points."""
    calls = [hit for hit in reading.hits.get("stoppage", ()) if hit.stop <= claim.first]
    ends = [hit for hit in calls if hit.entry.concept in _ENDS and hit.entry.of is None]
    return not reading.points or (bool(ends) and claim.first - ends[-1].stop <= _OVER_WORDS)


def _joined(reading: Reading, claims: Sequence[Claim]) -> Iterator[Claim]:
    """As in "Ana wins" and "by technical superiority" in one go are one result; so are how and who won."""

    def whole(kept: Claim, claim: Claim) -> Claim | None:
        if not _tells_more(reading, kept, claim):
            return None
        adjacent = claim.first == kept.stop
        return kept.model_copy(
            update={
                "stop": claim.stop if adjacent else kept.stop,
                "end_ms": claim.end_ms if adjacent else kept.end_ms,
                "concept": claim.concept if kept.concept == _HOW_UNTOLD else kept.concept,
                "side": kept.side or claim.side,
                "of": kept.of or claim.of,
            }
        )

    return folded(claims, whole)


def _tells_more(reading: Reading, kept: Claim, claim: Claim) -> bool:
    """As in "disqualified, Orsan goes through": no second result, unless another's or meant otherwise."""
    if claim.first == kept.stop and reading.gaps[claim.first] == NONE:
        return True
    if claim.first - kept.stop > _SAME_BREATH_WORDS or HARD in reading.gaps[kept.stop : claim.first + 1]:
        return False
    alike = claim.status == kept.status and {kept.side, claim.side} != set(reading.sides)
    return alike and (_HOW_UNTOLD in (kept.concept, claim.concept) or kept.concept == claim.concept)
