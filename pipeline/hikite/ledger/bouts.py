"""Where one bout of a recording ends and the next begins."""

from hikite.ledger.deeds import chance
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim, Testimony

WITHIN = frozenset({"period", "golden-score", "regulation", "challenge", "break", "activity"})
FEWEST, SHORTEST_MS = 6, 30_000
"""A bout has at least so many claims and lasts at least so long; what is less is talk."""


FULL = 0.95, 1.1
"""A clock read between these shares of a bout's length may be one that has not run. Set by hand."""
MISREAD_S = 30
"""A clock may be misread by so much, or a bout be so much shorter. Common practice, no source."""
JOINED_MS = 10_000
"""A person's word that no bout begins at a time holds for openings heard so near to it."""


def split(testimony: Testimony, rules: Ruleset) -> tuple[tuple[int, int], ...]:
    """The claim ranges of the bouts, in order; claims before the first start belong to the first bout."""
    claims = testimony.claims
    heard = _heard(claims, rules, testimony.sheet.duration_s)
    kept = [
        cut
        for cut in heard
        if cut == 0 or all(abs(claims[cut].start_ms - at) > JOINED_MS for at in testimony.joins_ms)
    ]
    told = [sum(claim.start_ms < at for claim in claims) for at in testimony.opens_ms]
    cuts = sorted({*kept, *(cut for cut in told if 0 < cut < len(claims))})
    return tuple(zip(cuts, (*cuts[1:], len(claims)), strict=True))


def _heard(claims: tuple[Claim, ...], rules: Ruleset, duration_s: int | None) -> list[int]:
    """The claims that open a bout, as far as the talk tells."""
    length = (duration_s or rules.durations[0].seconds) // rules.durations[0].periods
    cuts, over, ends, began = [0], False, 0, 0
    for number, claim in enumerate(claims):
        if claim.kind == "result" and chance(claim, "given", "completed", "stated") > 0.5:
            over = True
        if claim.kind == "stoppage" and claim.concept == "end" and claim.of not in WITHIN:
            ends += 1
            over = over or ends >= rules.durations[0].periods + rules.golden
        opens = over and number - began >= FEWEST and _opens(claim, length)
        if opens and _afresh(claims, began, number) and not _runs_on(claims, began, number, length):
            cuts.append(number)
            over, ends, began = False, 0, number
    if len(cuts) > 1 and _too_little(claims[cuts[-1] :]):
        cuts.pop()
    return cuts


def _too_little(claims: tuple[Claim, ...]) -> bool:
    return len(claims) < FEWEST or claims[-1].end_ms - claims[0].start_ms < SHORTEST_MS


def _opens(claim: Claim, length: int) -> bool:
    """Whether a claim can be the first of a new bout: a start, a full clock, a score of nothing."""
    if claim.kind == "stoppage":
        return claim.concept == "start" and claim.of not in WITHIN
    if claim.kind == "clock":
        share = (claim.seconds or 0) / length
        full = FULL[0] <= share <= FULL[1] and not claim.elapsed
        return full and claim.of not in WITHIN and claim.status == "stated"
    if claim.kind == "stated_score":
        points = [tally.points for tally in claim.tallies.values()]
        return len(points) == 2 and points == [0, 0] and claim.status == "stated"
    return False


def _runs_on(claims: tuple[Claim, ...], began: int, number: int, length: int) -> bool:
    """Whether the clock read next goes on from that read last, and would have run faster than time since a
    start here: "four minutes" cannot be "a minute ten" after fifty seconds."""
    before = next((claim for claim in reversed(claims[began:number]) if _time_left(claim)), None)
    after = next((claim for claim in claims[number:] if _time_left(claim)), None)
    if before is None or after is None:
        return False
    passed = (after.start_ms - claims[number].start_ms) / 1000
    return (after.seconds or 0) < min(before.seconds or 0, length - passed - MISREAD_S)


def _time_left(claim: Claim) -> bool:
    """Whether a claim reads the time left in the bout."""
    read = claim.kind == "clock" and claim.status == "stated" and claim.of is None
    return read and claim.seconds is not None and not claim.elapsed


def _afresh(claims: tuple[Claim, ...], began: int, number: int) -> bool:
    """Whether the next score stated does not go on from the last one."""
    before = [
        _total(claim) for claim in claims[began:number] if claim.kind == "stated_score" and claim.tallies
    ]
    after = [_total(claim) for claim in claims[number:] if claim.kind == "stated_score" and claim.tallies]
    if not after:
        return any(claim.kind == "score" for claim in claims[number:])
    return not before or after[0] < max(before) or after[0] <= 4


def _total(claim: Claim) -> int:
    fields = ("points", "ippon", "waza_ari", "yuko", "koka")
    return sum(getattr(tally, field) or 0 for tally in claim.tallies.values() for field in fields)
