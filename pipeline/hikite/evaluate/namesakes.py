"""Which side of the labels is which of the record, where the talk tells no colours: names tell it then."""

from rapidfuzz import fuzz

from hikite.claims.rosters import split_words
from hikite.evaluate.golds import Gold
from hikite.records import Competitor, Sheet
from hikite.terms.speech import Speech

# Names are one name from this likeness on, 0 to 100: a recogniser may have spelt them.
_ONE_NAME = 75.0


def by_name(gold: Gold, learnt: Sheet, words: list[str], speech: Speech) -> Gold:
    """The labels with the record's sides for the same people, if no colour was said; else as they are.

    Whoever hears nothing of colours cannot know them: the record has to keep the two apart.
    """
    worn = {word for said in speech.actors.colours.values() for word in said}
    if len(gold.sheets) > 1 or len(learnt.competitors) < 2 or not worn.isdisjoint(words):
        return gold
    truly, here = gold.sheets[0].competitors, learnt.competitors
    straight = sum(_alike(one, two) for one, two in zip(truly, here, strict=True))
    crossed = sum(_alike(one, two) for one, two in zip(truly, reversed(here), strict=True))
    others = reversed(here) if crossed > straight else here
    return gold.called({one.side: two.side for one, two in zip(truly, others, strict=True)})


def _alike(one: Competitor, two: Competitor) -> int:
    """How many words of a labelled competitor's names and places the learnt one has."""
    known = [word for way in (two.name, two.nation, *two.aliases) for word in split_words(way or "")]
    asked = [word for way in (one.name, one.nation) for word in split_words(way or "")]
    return sum(any(fuzz.ratio(word, other) >= _ONE_NAME for other in known) for word in asked)
