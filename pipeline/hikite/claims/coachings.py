"""Whom a speaker coaches: "you" is that one, and whoever is not spoken to the other."""

from collections.abc import Iterator, Sequence

from hikite.claims.phrases import phrases_of
from hikite.claims.references import Reference
from hikite.records import Talk
from hikite.records.spans import tokens_of
from hikite.terms.speech import Actors

# So much of the talk is "you" where somebody is coached, and so often that one is called to, the other hardly
# ever, with a "you" within so many words. Common practice, no source; read off the labelled bouts.
_SPOKEN_TO, _CALLED, _SELDOM = 0.02, 3, 4
_NEAR, _APART, _ENDS = 12, frozenset(",.!?;…"), frozenset(".!?…")
_NAMED, _SUBJECT = frozenset({"name", "epithet"}), "subject"


def coached(talk: Talk, found: Sequence[Reference], actors: Actors) -> str | None:
    """The side of whoever the speaker calls to again and again with a "you" about; None where nobody is."""
    words = talk.texts
    spoken_to = [at for at, word in enumerate(words) if word in actors.spoken_to]
    if len(spoken_to) < _SPOKEN_TO * len(words):
        return None
    called: dict[str, int] = {}
    for one in found:
        near = any(abs(at - one.first) <= _NEAR for at in spoken_to)
        if near and one.side and one.how in _NAMED and _called_to(talk, one):
            called[one.side] = called.get(one.side, 0) + 1
    if not called:
        return None
    side = max(called, key=lambda side: called[side])
    others = sum(called.values()) - called[side]
    return side if called[side] >= max(_CALLED, _SELDOM * others) else None


def _called_to(talk: Talk, one: Reference) -> bool:
    """Whether a name stands apart, and nothing but a call: "hands up, Ana!", "Ana, look at me"."""
    opens = one.first == 0 or talk.marks[one.first - 1].strip()[:1] in _APART
    return opens and talk.marks[one.stop - 1].strip()[:1] in _APART


def warned(
    talk: Talk, found: Sequence[Reference], sides: Sequence[str], actors: Actors
) -> tuple[Reference, ...]:
    """The references, whoever is warned standing for the other: "watch the arm, Ana! She's after it"."""
    return tuple(
        one._replace(side=_other(sides, one.side))
        if one.side and one.how in _NAMED and _called_to(talk, one) and _warns(talk, one.first, actors)
        else one
        for one in found
    )


def _other(sides: Sequence[str], side: str) -> str:
    return next(one for one in sides if one != side)


def _warns(talk: Talk, index: int, actors: Actors) -> bool:
    """Whether the sentence that holds a token begins with a warning."""
    first = index
    while first > 0 and talk.marks[first - 1].strip()[:1] not in _ENDS:
        first -= 1
    return first < index and talk.texts[first] in actors.warnings


def spoken_of(
    talk: Talk, found: Sequence[Reference], sides: Sequence[str], actors: Actors
) -> Iterator[Reference]:
    """The references of a coach's talk: "you" is the one coached, "she" the other where nobody else is named
    in the statement before her; as they were where nobody is coached."""
    own = coached(talk, found, actors)
    if own is None:
        yield from found
        return
    other = _other(sides, own)
    opens = {one.first for one in talk.utterances}
    made = [
        found[0]._replace(first=at.first, stop=at.stop, side=own, how=_SUBJECT)
        for at in phrases_of(("spoken", actors.spoken_to)).find(talk.texts)
        if not _to_all_the_world(talk, at.stop, actors)
    ]
    taken = tokens_of(found)
    fresh = [one for one in made if taken.isdisjoint(range(one.first, one.stop))]
    at, known = 0, False
    for one in sorted((*found, *fresh), key=lambda one: one.first):
        known = known and opens.isdisjoint(range(at + 1, one.first + 1))
        if one.how == _SUBJECT and not one.side and not known:
            one = one._replace(side=other)
        at, known = one.first, known or bool(one.side)
        yield one


def _to_all_the_world(talk: Talk, stop: int, actors: Actors) -> bool:
    """As in "you know", "you used to": what is said to anybody."""
    return stop < len(talk.texts) and talk.texts[stop] in actors.to_anybody
