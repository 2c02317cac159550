"""From all that was claimed to the most probable record of every bout."""

from datetime import date
from typing import NamedTuple

from hikite.ledger.bouts import split
from hikite.ledger.clocks import Clocks
from hikite.ledger.contradictions import doubts, find_contradictions
from hikite.ledger.entries import Entries
from hikite.ledger.in_all import in_all
from hikite.ledger.noise import Noise, load_noise
from hikite.ledger.reckonings import Reckoning, reckon
from hikite.ledger.results import decide
from hikite.ledger.rulebooks import End, Ruleset
from hikite.ledger.rulesets import Rulesets
from hikite.ledger.scorings import other_finals, read_path, scoreboard
from hikite.ledger.worths import Scales, scales
from hikite.records import Bout, Claim, Competitor, Ledger, Sheet, Testimony


class Weighed(NamedTuple):
    """The claims of one bout (a span of the testimony's) put through the lattice, with what weighed them."""

    span: tuple[int, int]
    claims: dict[int, Claim]
    rules: Ruleset
    scales: Scales
    clocks: Clocks
    reckoning: Reckoning


def keep(
    testimony: Testimony,
    rulesets: Rulesets,
    noise: Noise | None = None,
    weighed: tuple[Weighed, ...] = (),
) -> Ledger:
    """Every bout of a recording as it most probably went, by exact inference over all that was claimed.

    The rule set is the sheet's, else the most probable one given the date and the words heard; scores,
    sides and values that a claim leaves open are settled together with the stated scores and the rules.
    ``noise`` are the rates at which commentary errs; the shipped ones unless given. ``weighed`` are bouts of
    this testimony that went through the lattice before, with the same noise.
    """
    claims, sheet = testimony.claims, testimony.sheet
    day, noise = _day(testimony), noise or load_noise()
    rules, sure = choose(testimony, claims, rulesets)
    bouts = []
    for number, (first, stop) in enumerate(split(testimony, rules), start=1):
        told = sheet.ruleset or stop - first == len(claims)
        here, how_sure = (rules, sure) if told else choose(testimony, claims[first:stop], rulesets)
        known = (one for one in weighed if one.span == (first, stop) and one.rules.key == here.key)
        bout = next(known, None) or _weighed(testimony, (first, stop), here, rulesets, noise)
        bouts.append(_bout(number, bout, _cast(testimony, claims[first:stop]), how_sure, day, noise))
    return Ledger(bouts=tuple(bouts))


def weigh(testimony: Testimony, rulesets: Rulesets) -> tuple[Weighed, ...]:
    """All bouts of a recording under one rule set, with the rates at which commentary errs as shipped."""
    rules, _ = choose(testimony, testimony.claims, rulesets)
    noise = load_noise()
    return tuple(_weighed(testimony, span, rules, rulesets, noise) for span in split(testimony, rules))


def _weighed(
    testimony: Testimony, span: tuple[int, int], rules: Ruleset, rulesets: Rulesets, noise: Noise
) -> Weighed:
    sheet, weighing = testimony.sheet, scales(rules, rulesets.actions[rules.actions])
    claims = {number: in_all(testimony.claims[number], weighing) for number in range(*span)}
    clocks = Clocks(claims, rules, sheet.duration_s)
    reckoning = reckon(claims, rules, weighing, noise, _lead(rules, _day(testimony)), clocks)
    return Weighed(span, claims, rules, weighing, clocks, reckoning)


def _cast(testimony: Testimony, claims: tuple[Claim, ...]) -> Sheet:
    """The sheet with the competitors of the bout that most of the claims belong to."""
    if not testimony.casts or not claims:
        return testimony.sheet
    middle = claims[len(claims) // 2].first
    mine = max((cast for cast in testimony.casts if cast.first <= middle), key=lambda cast: cast.first)
    return testimony.sheet.model_copy(update={"competitors": mine.competitors})


def rules_of(testimony: Testimony, rulesets: Rulesets) -> str:
    """The key of the rules that all that was claimed most probably falls under."""
    return choose(testimony, testimony.claims, rulesets)[0].key


def choose(testimony: Testimony, claims: tuple[Claim, ...], rulesets: Rulesets) -> tuple[Ruleset, float]:
    """The rule set of the sheet, or the one that these of the claims most probably fall under, with its
    probability."""
    sheet = testimony.sheet
    if sheet.ruleset is not None:
        return _as_worn(rulesets[sheet.ruleset], sheet), 1.0
    odds = rulesets.weigh(_vocabulary(claims, sheet), _day(testimony), testimony.worn)
    key, sure = next(iter(odds.items()))
    return _as_worn(rulesets[key], sheet), sure


def _as_worn(rules: Ruleset, sheet: Sheet) -> Ruleset:
    """The rule set with the colours that the two competitors wear, where those are not its own: a club bout
    in red and blue under rules that say red and green."""
    worn = tuple(one.side for one in sheet.competitors)
    if len(worn) != 2 or set(worn) == set(rules.sides):
        return rules
    return rules.model_copy(update={"sides": worn})


def _vocabulary(claims: tuple[Claim, ...], sheet: Sheet) -> set[str]:
    heard = {competitor.side for competitor in sheet.competitors}
    for claim in claims:
        # "that would have been a koka once" tells of other rules than these
        if claim.kind == "score" and claim.status == "supposed":
            continue
        heard.add(claim.concept)
        heard.update(side for side, chance in claim.sides.items() if side and chance > 0.5)
        heard.update(name for name in (claim.score_class, claim.of) if name)
        if claim.kind == "score" and claim.points and claim.status == "given":
            heard.add(f"points:{claim.points}")
    return heard


def _day(testimony: Testimony) -> date | None:
    """The day whose rules hold: the bout's, else one in the middle of the year whose rules are named."""
    said = date(testimony.era, 6, 30) if testimony.era else None
    try:
        return date.fromisoformat(testimony.sheet.date) if testimony.sheet.date else said
    except ValueError:
        return said


def _bout(number: int, weighed: Weighed, sheet: Sheet, sure: float, day: date | None, noise: Noise) -> Bout:
    span, mine, rules, weighing, clocks, reckoning = weighed
    scorings = read_path(reckoning.steps, reckoning.solved, reckoning.grid, noise.line)
    golden = any(period.golden for period in clocks.periods)
    result = decide(reckoning, scorings, rules, golden, _likely_lead(rules, day))
    events = Entries(mine, reckoning, scorings, weighing, clocks, result).build()
    state = reckoning.solved.path[-1][1]
    return Bout(
        number=number, ruleset=rules.key, ruleset_confidence=round(sure, 4), sides=rules.sides,
        competitors=_competitors(sheet, rules),
        start_ms=min((claim.start_ms for claim in mine.values()), default=0),
        end_ms=max((claim.end_ms for claim in mine.values()), default=0),
        first_claim=span[0], stop_claim=span[1], events=events,
        final=scoreboard(reckoning.grid, state, rules.sides), final_confidence=reckoning.final_chance(),
        result=result, contradictions=find_contradictions(mine, reckoning, scorings, result, rules, clocks),
        warnings=doubts(events, result, rules),
        other_finals=other_finals(reckoning.grid, reckoning.solved, rules.sides, noise.final),
    )  # fmt: skip


def _lead(rules: Ruleset, day: date | None) -> int | None:
    """The lead that ends a bout, where its row is sure and in force."""
    for end in rules.ends:
        sure = end.mark == "published" and (day is not None or end.until is None)
        if end.lead is not None and sure and _in_force(end, day):
            return end.lead
    return None


def _likely_lead(rules: Ruleset, day: date | None) -> int | None:
    """The lead that ends a bout by any row in force, sure or not; the largest where no date tells."""
    leads = [end.lead for end in rules.ends if end.lead is not None and _in_force(end, day)]
    return max(leads, default=None)


def _in_force(end: End, day: date | None) -> bool:
    return day is None or (
        (end.since is None or end.since <= day) and (end.until is None or day <= end.until)
    )


def _competitors(sheet: Sheet, rules: Ruleset) -> tuple[Competitor, ...]:
    known = {competitor.side: competitor for competitor in sheet.competitors}
    return tuple(known.get(side, Competitor(side=side)) for side in rules.sides)
