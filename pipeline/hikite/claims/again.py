"""Back-references: "the same again", "that grip", "the sweep" stand for what was named last."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from hikite.claims.phrases import Found, phrases_of
from hikite.records import Claim, Reason, Talk
from hikite.records.spans import tokens_of
from hikite.terms import Terms
from hikite.terms.speech import Again

BACK = "back-reference"
"""The reason of a draft that points back."""
# What was named longer ago than this is not what is meant; a word of its name points back farther.
_REACH_MS, _SHORT_REACH_MS = 40_000, 600_000
_SURE, _BESIDE = 0.6, 8
# So many words behind a back-reference its name may follow.
_ANNOUNCED = 16
_SHORT = "short"
# So many words before what points back a denial of it may stand. Set by hand.
_DENIED = 4


def named_again(talk: Talk, named: Sequence[Claim], again: Again, terms: Terms) -> Iterator[Claim]:
    """A draft for every back-reference, with the concept of the technique or grip it stands for."""
    words = talk.texts
    used = tokens_of(named)
    last_stop = 0
    for found in sorted(_references(words, again), key=lambda one: (one.first, -one.stop)):
        if found.first < last_stop or not used.isdisjoint(range(found.first, found.stop)):
            continue
        meant = None if _denied(found, talk, again) else _meant(found, talk, named, terms)
        if meant is None or _announces(found, talk, named):
            continue
        last_stop = found.stop
        yield meant.model_copy(
            update={
                **talk.span(found.first, found.stop),
                "generic": True,
                "confidence": _SURE * meant.confidence,
                "reasons": (Reason(name=BACK, words=found.phrase),),
            }
        )


def _references(words: list[str], again: Again) -> Iterator[Found]:
    """Every phrase that may point back, named by what it points back at."""
    yield from phrases_of(("technique", again.technique), ("grip", again.grip), *again.of.items()).find(words)
    for index, (before, word) in enumerate(pairwise(words)):
        if word in again.short and before in again.pointing:
            yield Found(index, index + 2, _SHORT, word)


def _denied(found: Found, talk: Talk, again: Again) -> bool:
    """Whether words say that it did not come to it: "no, he can't turn him"."""
    if found.name not in again.of:
        return False
    before = range(max(found.first - _DENIED, 0), found.first)
    return any(talk.texts[at] in again.denied and not any(talk.marks[at : found.first]) for at in before)


def _meant(found: Found, talk: Talk, named: Sequence[Claim], terms: Terms) -> Claim | None:
    """The last claim that a back-reference may stand for, if it is not too long ago."""
    kind = "grip" if found.name == "grip" else "technique"
    before = [one for one in named if one.kind == kind and one.stop <= found.first]
    reach = _REACH_MS
    if found.name == _SHORT:
        # Right beside the name it only says how it is done: "props the foot, turn the wheel".
        before = [one for one in before if found.first - one.stop > _BESIDE]
        before = [one for one in before if _in_name(found.phrase, one.concept, terms)]
        before = [one for one in before if not one.generic] or before
        reach = _SHORT_REACH_MS
    elif found.name != kind:
        before = [one for one in before if terms.is_a(one.concept, found.name)]
    if not before or talk.tokens[found.first].start_ms - before[-1].start_ms > reach:
        return None
    return before[-1]


def _announces(found: Found, talk: Talk, named: Sequence[Claim]) -> bool:
    """Whether what is meant is named right behind in one statement: "here it comes again, the sweep"."""
    if found.name == _SHORT:
        return False
    ends = min((one.stop for one in talk.utterances if one.stop > found.first), default=len(talk.tokens))
    reach = min(found.stop + _ANNOUNCED, ends)
    return any(one.kind == "technique" and found.stop <= one.first < reach for one in named)


def _in_name(word: str, concept: str, terms: Terms) -> bool:
    """Whether a concept has a name with that word in it."""
    return any(word in name.form.replace("-", " ").split() for name in terms.names_of(concept))
