"""Who won and how, said, denied or foretold."""

from collections.abc import Iterator, Sequence

from hikite.claims.said.drafting import phrased
from hikite.claims.said.reading import NONE, Reading
from hikite.records import Claim

_HOW_UNTOLD = "points"
# "Tap! Tap! Tap!" is one; "that's the tech … technical superiority, Ana" tells more the second time.
_BREATH_MS = 1_000


def find_results(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a result; ``side`` is the winner, whether named or known from who taps."""
    return tuple(_joined(reading, tuple(phrased(reading, "result", "result", "given", taken, _BREATH_MS))))


def _joined(reading: Reading, claims: Sequence[Claim]) -> Iterator[Claim]:
    """As in "Ana wins" and "by technical superiority" in one go are one result."""
    kept: Claim | None = None
    for claim in claims:
        if kept is not None and claim.first == kept.stop and reading.gaps[claim.first] == NONE:
            concept = claim.concept if kept.concept == _HOW_UNTOLD else kept.concept
            whole = {
                "stop": claim.stop,
                "end_ms": claim.end_ms,
                "concept": concept,
                "side": kept.side or claim.side,
            }
            kept = kept.model_copy(update=whole)
            continue
        if kept is not None:
            yield kept
        kept = claim
    if kept is not None:
        yield kept
