"""The marks that words leave on a claim, in ``attributes`` or ``of``, for those who weigh it later."""

from hikite.records.claim import Claim

# In ``attributes``.
ABOUT = "about"
"""Of a clock: rounded or bounded, "under a minute"."""
AHEAD, BEHIND = "ahead", "behind"
"""Of a stated score: how whoever the words are about stands, where they do not say who that is."""
BOTH = "both"
"""Of a penalty: one of two claims on the same words, one a side."""
CLASS_UNSAID = "class unsaid"
"""Of a stated score in a sport of classes: the words leave open what is counted, "one each"."""
FURTHER = "further"
"""Of a penalty: the words say that it is one more, "another for her opponent"."""
INSTEAD = "instead"
"""Of an award: the words correct the award before it, "no, sorry, a yuko"."""
SAME_ONE = "same one"
"""About whomever the claim before is about: "he has two cards, he's a throw down"."""
_COUNT = "count:"

# In ``of``.
BRINK = "brink"
"""Of a penalty: one more puts somebody out."""
TAKEN_BACK = "taken-back"
"""Of a score or penalty denied: it had been given and no longer is."""
SUM = "sum"
"""Of a top score: what two lesser ones make."""


def counted_as(number: int) -> str:
    """The mark of a claim that is said to be its side's first, second … of its kind."""
    return f"{_COUNT}{number}"


def ordinal_of(claim: Claim) -> int | None:
    """Which one of its side and kind a claim says it is, if it does."""
    counts = (mark.removeprefix(_COUNT) for mark in claim.attributes if mark.startswith(_COUNT))
    return next((int(count) for count in counts), None)
