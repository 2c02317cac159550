"""Names written with a letter or two wrong, and what each of them may mean."""

import math

from hikite.mentions.covers import EACH, UNWRITTEN, WORTH_OF_LETTER, Found, Option
from hikite.mentions.slips import Slips
from hikite.mentions.streams import Stream
from hikite.sounds import squash
from hikite.sounds.skeletons import Flags
from hikite.terms import Name

# How sure a misspelt name is, how fast those less like it fall behind, and how many are kept.
_SLIPPED, _SLIP_RIVALRY, _SEVERAL = 0.9, 30.0, 4


class Misspellings:
    """The misspelt names of one lexicon, to be found in any number of talks."""

    def __init__(self, names: tuple[Name, ...]) -> None:
        self._names, self._slips = names, Slips(names)

    def find(self, stream: Stream, odd: Flags) -> list[Found]:
        """Names with an ``odd`` word in them; of names equally alike the first in the lexicon leads."""
        spans: dict[tuple[int, int], dict[str, tuple[float, str]]] = {}
        for slip in self._slips.find(stream, odd):
            name = self._names[slip.name]
            concepts = spans.setdefault((slip.first, slip.stop), {})
            if slip.likeness > concepts.get(name.concept, (0.0, ""))[0]:
                concepts[name.concept] = slip.likeness, name.form
        return [_find(span, concepts) for span, concepts in spans.items()]


def _find(span: tuple[int, int], concepts: dict[str, tuple[float, str]]) -> Found:
    """What words may mean that are so much alike, in these forms, to names of these concepts."""
    ranked = sorted(concepts.items(), key=lambda item: -item[1][0])[:_SEVERAL]
    best = ranked[0][1][0]
    shares = [math.exp(-_SLIP_RIVALRY * (best - likeness)) for _, (likeness, _) in ranked]
    candidates = tuple(
        Option(concept=concept, probability=round(_SLIPPED * share / sum(shares), 4), form=form, how="near")
        for (concept, (_, form)), share in zip(ranked, shares, strict=True)
    )
    whole = WORTH_OF_LETTER * len(squash(ranked[0][1][1])) - EACH
    return Found(*span, UNWRITTEN * whole * best, candidates, slipped=True)
