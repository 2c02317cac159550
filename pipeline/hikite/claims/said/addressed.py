"""Whom a speaker with a competitor of their own speaks to: "you're five up"."""

from collections.abc import Iterator, Sequence

from hikite.claims.phrases import phrases_of
from hikite.claims.references import Reference
from hikite.records import Talk
from hikite.terms.speech import Actors

_HOW = "subject"


def addressed(talk: Talk, pointed: Sequence[Reference], actors: Actors) -> Iterator[Reference]:
    """A reference for every "you're", where "us" is known to be one of the two: it is that one's."""
    words = talk.texts
    ours = {one.side: one for one in pointed if " ".join(words[one.first : one.stop]) in actors.ours}
    if len(ours) != 1:
        return
    (own,) = ours.values()
    for found in phrases_of(("addressing", actors.addressing)).find(words):
        yield own._replace(first=found.first, stop=found.stop, how=_HOW)
