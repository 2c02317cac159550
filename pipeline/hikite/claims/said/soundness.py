"""Which mentions met only by their sound are calls or scores where they stand."""

from collections.abc import Iterable, Iterator, Sequence

from hikite.records import Mention

# A name met by sound needs this probability inside a clause, less where a pause follows it, least between
# two pauses, where calls stand: "on you go again" says no yuko. Set on recogniser text of labelled bouts.
_INSIDE, _BEFORE_PAUSE, _ALONE = 0.6, 0.4, 0.35


def sound(mentions: Iterable[Mention], gaps: Sequence[int]) -> Iterator[Mention]:
    """The mentions without those met by sound too loosely for their place; ``gaps`` as in a reading."""
    for mention in mentions:
        best = mention.candidates[0]
        least = 0.0 if best.how != "sound" else _INSIDE
        if least and gaps[mention.stop]:
            least = _ALONE if gaps[mention.first] else _BEFORE_PAUSE
        if best.probability >= least:
            yield mention
