"""Stated scores and leads: "seven three", "four all", "up by five", "one waza-ari each"."""

from hikite.claims.said.callouts import find_callouts
from hikite.claims.said.drafting import PSEUDO, longest_first
from hikite.claims.said.evens import fault_each, faults_had
from hikite.claims.said.fused import find_fused
from hikite.claims.said.gaps import HARD, NONE
from hikite.claims.said.grown import counted_on, parted
from hikite.claims.said.listings import find_accounts, find_listings
from hikite.claims.said.matching import SIDES, Hit
from hikite.claims.said.plausible import COUNTS, WRITTEN_AS_ONE, fits
from hikite.claims.said.reading import Reading
from hikite.claims.said.sharing import BARE_LEAD, BLANK, FAULTS, shared
from hikite.claims.said.status import status_at
from hikite.records import Claim, Reason, Status, Tally
from hikite.records.marks import AHEAD, BEHIND, CLASS_UNSAID
from hikite.records.spans import tokens_of

# Words that take a score back only where another number follows them ("six-five? No, six-four").
_LEADS_ON = "then"


def find_tallies(reading: Reading, taken: frozenset[int]) -> tuple[Claim, ...]:
    """One claim a stated score. ``tallies`` are by side where the words tell; else ``ordered`` is false and
    the first number said stands under the first side. A lead gives ``margin`` with ``side`` its leader, a
    level score without numbers ``margin`` 0. The attributes ``ahead`` and ``behind`` tell how whoever the
    statement is about stands, where the words do not say who that is."""
    heard = (faults_had(reading, hit) for hit in reading.hits.get("tally", ()))
    said = [_named_in(reading, hit) for hit in heard if hit is not None]
    fitting = [hit for hit in said if fits(reading, hit)]
    if reading.points:
        counts = set(counted_on(reading, fitting))
        fitting = [hit for hit in fitting if hit not in counts]
        fitting += parted(reading, (hit for hit in said if hit not in fitting and hit not in counts), fitting)
    hits = [_free(hit, taken) for hit in fitting]
    claims = [*find_listings(reading, taken), *find_callouts(reading, taken), *find_fused(reading, taken)]
    listed = taken | tokens_of(claims)
    claims += [] if reading.points else find_accounts(reading, listed)
    busy = taken | tokens_of(claims)
    for hit in longest_first(hits, busy):
        if hit.entry.concept == PSEUDO:
            continue
        fault = fault_each(reading, hit)
        if fault is not None and reading.points:
            claims.append(fault)
            continue
        counted = hit if fault is None else hit._replace(entry=hit.entry.model_copy(update={"of": FAULTS}))
        tallies, ordered, margin = shared(reading, counted)
        claims.append(_claim(reading, counted, tallies, ordered, margin))
    return tuple(claims)


def _named_in(reading: Reading, hit: Hit) -> Hit:
    """The hit, with what its numbers count where that is said beside them: "in shidos it's one and one"."""
    if reading.points or not hit.values or not _unsaid(reading, hit):
        return hit
    beside = (
        *(one for one in reading.ending("tally_in", hit.first) if reading.gaps[hit.first] != HARD),
        *(one for one in reading.starting("tally_in", hit.stop) if reading.gaps[hit.stop] != HARD),
    )
    for one in beside:
        names = (filler.name for filler in one.fillers if filler.slot == "<class>")
        of = one.entry.of or next(names, None)
        return hit._replace(entry=hit.entry.model_copy(update={"of": of}))
    return hit


def _claim(reading: Reading, hit: Hit, tallies: dict[str, Tally], ordered: bool, margin: int | None) -> Claim:
    first, stop = _span(hit)
    named = next((filler.name for filler in hit.fillers if filler.slot in SIDES), None)
    leads = margin is not None or hit.entry.concept == BARE_LEAD
    side = hit.side(reading.sides) if leads and named else None
    return Claim(
        **reading.talk.span(first, stop),
        kind="stated_score",
        concept="score",
        status=hit.entry.status or _status(reading, hit),
        side=side,
        attributes=(
            *_attributes(hit, side if leads else ordered or None),
            *_unsaid(reading, hit),
        ),
        tallies=tallies,
        ordered=ordered,
        margin=margin,
        of=hit.entry.of if not tallies else None,
        reasons=(Reason(name=hit.entry.concept, words=reading.talk.words(hit.first, hit.stop)),),
    )


def _status(reading: Reading, hit: Hit) -> Status:
    """How it is meant: taken back right after ("five-five. No, it isn't"), told as one of two or of what
    would be ("at four-four or five-five they'd look at …"), else as the words before tell."""
    if _taken_back(reading, hit):
        return "denied"
    if _in_place(reading, hit):
        return "stated"
    if len(hit.values) > 1 and _another(reading, hit):
        return "supposed"
    if reading.gaps[hit.stop] == NONE and reading.starting("tally_supposed", hit.stop):
        return "supposed"
    return status_at(reading, hit.first, hit.stop, "stated")


def _taken_back(reading: Reading, hit: Hit) -> bool:
    """As in "five-five. No, it isn't" and "six-five? No, five and five": words that withdraw it stand behind,
    apart, or lead to another number."""
    apart = reading.gaps[hit.stop] != NONE
    return any(
        (one.stop in reading.numbers and (apart or one.stop > hit.stop + 1))
        or (apart and one.entry.concept != _LEADS_ON and reading.gaps[one.stop] != NONE)
        for one in reading.starting("tally_withdrawn", hit.stop)
    )


def _in_place(reading: Reading, hit: Hit) -> bool:
    """Whether the words in front take back another score: the "no" in them denies that one."""
    return any(
        back.stop == hit.first
        for one in reading.hits.get("tally", ())
        if one.stop < hit.first
        for back in reading.starting("tally_withdrawn", one.stop)
    )


def _another(reading: Reading, hit: Hit) -> bool:
    """Whether an "or" parts the score from another one."""
    tallies = [one for one in reading.hits.get("tally", ()) if len(one.values) > 1]
    return any(
        (cue.stop == hit.first and any(one.stop == cue.first for one in tallies))
        or (cue.first == hit.stop and any(one.first == cue.stop for one in tallies))
        for cue in reading.hits.get("tally_or", ())
    )


def _attributes(hit: Hit, settled: str | bool | None) -> tuple[str, ...]:
    """What an unknown subject ("he leads six two") has of the score, for whoever finds out who it is."""
    how = hit.entry.concept
    if settled is not None or how not in ("lead", "leader", "trailer", "total", BARE_LEAD):
        return ()
    if how == "total":
        return (BEHIND,) if hit.entry.who == "other" else ()
    return (BEHIND,) if how == "trailer" or hit.entry.who == "other" else (AHEAD,)


def _unsaid(reading: Reading, hit: Hit) -> tuple[str, ...]:
    """As in "one each": in a sport of classes the words leave open what is counted."""
    named = hit.entry.of is not None or any(filler.slot == "<class>" for filler in hit.fillers)
    open_ = hit.entry.concept not in ("lead", "level", BLANK, BARE_LEAD)
    return (CLASS_UNSAID,) if open_ and not (reading.points or named) else ()


def _free(hit: Hit, taken: frozenset[int]) -> Hit:
    """The hit, or its numbers alone where its other words are taken: "Ivan wins seven two" tells a result,
    and "no score after two minutes" the clock as well."""
    if taken.isdisjoint(range(hit.first, hit.stop)):
        return hit
    first, stop = _span(hit)
    if hit.entry.concept == BLANK:
        stop = min(taken.intersection(range(first, stop)))
    return hit._replace(first=first, stop=stop) if first < stop else hit


def _span(hit: Hit) -> tuple[int, int]:
    """The words of the score itself: "Ivan wins by seven to two" also says who won."""
    numbers = [filler for filler in hit.fillers if filler.slot in (*COUNTS, WRITTEN_AS_ONE, "<class>")]
    if hit.entry.concept in ("leader", "trailer") and numbers:
        return numbers[0].first, numbers[-1].stop
    return hit.first, hit.stop
