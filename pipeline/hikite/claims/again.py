"""Back-references: "the same again", "that grip" stand for what was named last."""

from collections.abc import Iterator, Sequence

from hikite.claims.phrases import phrases_of
from hikite.records import Claim, Reason, Talk
from hikite.terms.speech import Again

# What was named longer ago than this is not what is meant.
_REACH_MS = 40_000
_SURE = 0.6


def named_again(talk: Talk, named: Sequence[Claim], again: Again) -> Iterator[Claim]:
    """A draft for every back-reference, with the concept of the last named technique or grip."""
    words = [token.text for token in talk.tokens]
    used = {index for one in named for index in range(one.first, one.stop)}
    last_stop = 0
    for found in sorted(
        phrases_of(("technique", again.technique), ("grip", again.grip)).find(words),
        key=lambda one: (one.first, -one.stop),
    ):
        before = [one for one in named if one.kind == found.name and one.stop <= found.first]
        start_ms = talk.tokens[found.first].start_ms
        free = used.isdisjoint(range(found.first, found.stop)) and found.first >= last_stop
        if not before or not free or start_ms - before[-1].start_ms > _REACH_MS:
            continue
        last_stop = found.stop
        yield before[-1].model_copy(
            update={
                "first": found.first,
                "stop": found.stop,
                "start_ms": start_ms,
                "end_ms": talk.tokens[found.stop - 1].end_ms,
                "generic": True,
                "confidence": _SURE * before[-1].confidence,
                "reasons": (Reason(name="back-reference", words=found.phrase),),
            }
        )
