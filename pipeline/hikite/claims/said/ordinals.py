"""Which one of its side's a penalty is said to be, and one more for the other."""

from collections.abc import Iterable, Iterator

from hikite.claims.said.reading import Reading
from hikite.records import Claim
from hikite.records.marks import BOTH, FURTHER, counted_as

# "Shido for red. That's two": so many words after a penalty it is counted at most.
_COUNTED_WITHIN = 4
# How a reference points at whichever of the two was not spoken of; so many words back the other is
# looked for. Set by hand.
_OPPONENT, _OTHER_WITHIN = "opponent", 24


def counted(reading: Reading, claim: Claim) -> Claim:
    """The claim with which one of its side's it is said to be: "second shido", "shido number two"."""
    ordinals, words = reading.phrases.wording.numbers.ordinals, reading.words
    if any(reading.starting("count_of_all", at) for at in range(claim.first, claim.stop + 1)):
        return claim
    near = range(max(claim.first - 1, 0), min(claim.stop + 1, len(words)))
    said = [ordinals[words[at]] for at in near if words[at] in ordinals]
    said += [
        reading.numbers[hit.stop].value
        for at in near
        for hit in reading.starting("count_mark", at)
        if hit.stop in reading.numbers
    ]
    beyond = range(claim.stop, min(claim.stop + _COUNTED_WITHIN, len(words)))
    counts = [hit for at in beyond for hit in reading.starting("class_count", at)]
    said += [hit.entry.plus for hit in counts]
    if not said or BOTH in claim.attributes:
        return claim
    whose = claim.side or reading.whose(counts)
    return claim.model_copy(update={"side": whose, "attributes": (*claim.attributes, counted_as(said[0]))})


def further(reading: Reading, claim: Claim) -> Claim:
    """The claim, marked where the words say that it is one more: "another shido", "and another for blue"."""
    near = range(max(claim.first - 1, 0), min(claim.stop + 1, len(reading.words)))
    more = any(reading.starting("count_more", at) for at in near)
    if claim.status != "given" or BOTH in claim.attributes or not more:
        return claim
    return claim.model_copy(update={"attributes": (*claim.attributes, FURTHER)})


def of_the_other(reading: Reading, claims: Iterable[Claim]) -> Iterator[Claim]:
    """The claims, one "for her opponent" being of whoever was not penalised just before."""
    last: Claim | None = None
    for claim in claims:
        named = {reading.actors[at].how for at in range(claim.first, claim.stop) if at in reading.actors}
        near = last is not None and claim.first - last.stop <= _OTHER_WITHIN
        if claim.side is None and named == {_OPPONENT} and last is not None and near:
            claim = claim.model_copy(update={"side": reading.other(last.side) if last.side else None})
        last = claim
        yield claim
