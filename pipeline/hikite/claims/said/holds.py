"""Holds: called, counted aloud, broken or held to the end, with the seconds said."""

from collections.abc import Iterator, Sequence

from hikite.claims.said.counts import ALOUD, FIVES, STEPWISE, find_counts
from hikite.claims.said.drafting import draft, folded, whole_hits
from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.matching import Hit
from hikite.claims.said.reading import Reading
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason
from hikite.records.spans import tokens_of

_ANY_HOLD = {True: "hold-down", False: "osaekomi"}
ANY_HOLD = frozenset(_ANY_HOLD.values())
"""What a hold is called of which nobody says which it is."""
# A count this long after the hold was last spoken of is a count of something else.
_OPEN_MS = 25_000
# A word for any hold names none; calls about holds come from the phrases, which say if one begins or ends.
_GENERAL = frozenset(("osaekomi", "hold-down", "toketa", "osaekomi-toketa"))
# "Four!" over a hold is rather an award where points are given; a count that begins alone begins later.
_ALONE_FROM = {True: 5, False: 2}
# "Toketa! Seven-ish." says the length after the break.
_AFTER_BREAK_WORDS = 8
_AGAIN_WORDS = 4
# The same hold named anew in so many words is no second one: "chest across the body, yoko-shiho".
_RENAMED_WORDS = 12
# Marks of phrases that are of a hold only while one is on, shortly after one, or right before it is called.
_HELD, _AFTER, _SOON = "held", "after", "soon"
_SOON_WORDS = 25
# How a hold ends, and the shortest that any rules call a whole one.
_ENDS, _LEAST_FULL = ("broken", "completed"), 10
# No rules count a hold so long.
_TOO_LONG = 31


def find_holds(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """Holds ``running``, ``broken`` or ``completed``; ``seconds`` where a count or a length was said."""
    named = list(_named(reading, taken))
    busy = taken | tokens_of(named)
    spoken = [
        draft(reading, hit, "hold", "running", seconds=hit.values[0] if hit.values else None)
        for hit in whole_hits(reading, "hold", busy)
        if _comes_true(reading, hit)
    ]
    busy |= tokens_of(reading.hits.get("hold", ()))
    claims = sorted((*named, *spoken, *find_counts(reading, busy)), key=lambda claim: claim.first)
    told = tuple(folded(_told_of(tuple(folded(claims, _which))), _one_end))
    return tuple(
        claim.model_copy(update={"of": None, "side": claim.side or _called_for(reading, claim)})
        for claim in _followed(reading, told)
    )


def _called_for(reading: Reading, claim: Claim) -> str | None:
    """As in "Osaekomi, blue.": whoever is named alone behind a call that is all of a statement."""
    actor = reading.actors.get(claim.stop)
    if actor is None or claim.seconds is not None or not reading.named(claim.stop):
        return None
    whole = reading.gaps[claim.first] == HARD and reading.gaps[actor.stop] == HARD
    return actor.side if whole and actor.side in reading.sides else None


def _comes_true(reading: Reading, hit: Hit) -> bool:
    """Whether an end of a hold is told as one: not "if he gets out", and no full hold of a few seconds."""
    if any(value >= _TOO_LONG for value in hit.values):
        return False
    ends = hit.entry.status
    if ends not in _ENDS:
        return True
    if ends == "completed" and hit.values and hit.values[0] < _LEAST_FULL:
        return False
    return status_at(reading, hit.first, hit.stop, ends) == ends


def _which(kept: Claim, claim: Claim) -> Claim | None:
    """As in "he's got a hold on, lying straight across him": a hold that is on, told behind which it is."""
    tells = claim.of == _SOON and claim.concept != "" and claim.first - kept.stop <= _RENAMED_WORDS
    return (
        kept.model_copy(update={"concept": claim.concept})
        if tells and _is_call(kept) and not kept.concept
        else None
    )


def _told_of(claims: Sequence[Claim]) -> Iterator[Claim]:
    """The claims without names said anew, and words that would be of a hold were one called right after."""
    last: Claim | None = None
    for at, claim in enumerate(claims):
        near = (one for one in claims[at + 1 :] if one.first - claim.stop <= _SOON_WORDS)
        if claim.of == _SOON and not any(_tells(one) for one in near):
            continue
        names = claim.status == "running" and claim.concept != "" and claim.concept not in _GENERAL
        again = last is not None and names and _renames(last, claim)
        last = claim if names else last
        if not again:
            yield claim


def _renames(last: Claim, claim: Claim) -> bool:
    return last.concept == claim.concept and claim.first - last.stop <= _RENAMED_WORDS


def _tells(claim: Claim) -> bool:
    """Whether a claim alone tells that a hold is on, or how long it is."""
    return claim.status in ("running", "completed") and claim.of in (None, ALOUD, STEPWISE)


def _named(reading: Reading, taken: frozenset[int]) -> Iterator[Claim]:
    for mention in reading.mentions:
        span = range(mention.first, mention.stop)
        if (
            mention.kind != "hold"
            or mention.generic
            or mention.concept in _GENERAL
            or not taken.isdisjoint(span)
            or any(reading.gaps[at] != NONE for at in span[1:])
        ):
            continue
        yield Claim(
            **reading.talk.span(mention.first, mention.stop),
            kind="hold",
            concept=mention.concept,
            alternatives=mention.candidates[1:],
            generic=mention.generic,
            attributes=mention.attributes,
            status="running",
            reasons=(Reason(name="named", words=reading.talk.words(mention.first, mention.stop)),),
        )


class _Open:
    """What is known of the hold that is on while its talk is followed."""

    def __init__(self, concept: str, points: bool) -> None:
        self.untold = self.concept = concept
        self.until_ms, self.seconds = -1, 0
        self.last_ms = -_OPEN_MS - 1
        self.stop, self.called = 0, False
        self.least = _ALONE_FROM[points]

    def on(self, claim: Claim) -> bool:
        return claim.start_ms <= self.until_ms

    def recent(self, claim: Claim) -> bool:
        return claim.start_ms - self.last_ms <= _OPEN_MS

    def said_again(self, claim: Claim) -> bool:
        """As in "hold's on, hold's on": the same call in the same breath."""
        near = self.on(claim) and 0 <= claim.first - self.stop <= _AGAIN_WORDS
        return near and self.called and _is_call(claim)

    def extend(self, claim: Claim) -> None:
        self.last_ms, self.stop, self.called = claim.end_ms, claim.stop, _is_call(claim)
        # A new hold is counted from the start.
        self.seconds = claim.seconds or (self.seconds if self.on(claim) else 0)
        self.until_ms = claim.end_ms + _OPEN_MS

    def name_for(self, claim: Claim) -> str:
        """What the hold that a claim is of is called: its name while it is on, and told of right after."""
        told = self.on(claim) if claim.status == "running" else self.recent(claim)
        return self.concept if told else self.untold

    def close(self) -> None:
        self.until_ms, self.seconds = -1, 0


def _followed(reading: Reading, claims: Sequence[Claim]) -> Iterator[Claim]:
    """The claims that agree with a hold being on or off when they are said, in the order of the talk."""
    hold = _Open(_ANY_HOLD[reading.points], reading.points)
    for claim in claims:
        if not _agrees(claim, hold) or hold.said_again(claim):
            continue
        # "Scarf hold … osaekomi!": the call does not take back the name.
        if claim.concept and not (claim.concept in _GENERAL and hold.on(claim)):
            hold.concept = claim.concept
        claim = claim if claim.concept else claim.model_copy(update={"concept": hold.name_for(claim)})
        if claim.status == "running":
            hold.extend(claim)
            yield claim
        elif claim.status == "broken":
            yield claim.model_copy(update={"seconds": claim.seconds or hold.seconds or None})
            hold.close()
        else:
            yield claim
            if claim.status == "completed":
                hold.close()
            elif claim.status == "supposed":
                hold.last_ms = claim.end_ms


def _one_end(kept: Claim, claim: Claim) -> Claim | None:
    """One break told twice, or with its length right after: "he's out, toketa! Seven." """
    if (kept.status, kept.seconds) != ("broken", None) or claim.first - kept.stop > _AFTER_BREAK_WORDS:
        return None
    if claim.seconds is not None:
        if claim.status in ("recalled", "supposed"):
            return None
        told = claim if claim.first == kept.stop else kept
        return kept.model_copy(update={"seconds": claim.seconds, "stop": told.stop, "end_ms": told.end_ms})
    if claim.status != "broken":
        return None
    if claim.of == _HELD or claim.concept == kept.concept:
        return claim if kept.of == _HELD and claim.of is None else kept
    return claim if kept.of == _HELD else None


def _is_call(claim: Claim) -> bool:
    """Whether a phrase tells that a hold is on, without a count; names tell more."""
    return claim.status == "running" and claim.seconds is None and claim.reasons[0].name == "said"


def _agrees(claim: Claim, hold: _Open) -> bool:
    if claim.of == _HELD and not (hold.recent(claim) if claim.status == "completed" else hold.on(claim)):
        return False
    if claim.of == _AFTER and not hold.recent(claim):
        return False
    if claim.status == "recalled":
        return claim.seconds is not None or not hold.on(claim)
    rising = hold.seconds < (claim.seconds or 0)
    if claim.reasons[0].name != "counted":
        # "That's two already", said of a hold of ten seconds, is no count of it.
        return rising or claim.seconds is None or claim.status != "running" or not hold.on(claim)
    if claim.of == FIVES:
        return hold.on(claim) and rising and hold.seconds > 0
    # "He wants to pin him. … Eleven, twelve": what was only wanted has come about.
    wanted = claim.of is not None and rising and hold.recent(claim)
    if wanted or (claim.of == ALOUD and not hold.on(claim)):
        return True
    return hold.on(claim) and rising and (hold.seconds > 0 or (claim.seconds or 0) >= hold.least)
