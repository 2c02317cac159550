"""What does not add up, in plain words, and what rests on rows that are not sure."""

from hikite.ledger.callings import BACK_MS
from hikite.ledger.clocks import Clocks
from hikite.ledger.deeds import DONE, Call, Matter, chance, lean
from hikite.ledger.reckonings import Reckoning
from hikite.ledger.rulebooks import Ruleset
from hikite.ledger.scorings import Scoring, scoreboard, unused
from hikite.records import Claim, Contradiction, Event, Result, Tally

UNSURE = frozenset({"memory", "contradicted"})
TOLD_OVER_MS, PUT_RIGHT_MS = 45_000, 12_000
"""How long an award is talked about at most before the next, and how soon a speaker puts one right. Common
practice, no source."""


def find_contradictions(
    claims: dict[int, Claim],
    reckoning: Reckoning,
    scorings: list[Scoring],
    result: Result,
    rules: Ruleset,
    clocks: Clocks,
) -> tuple[Contradiction, ...]:
    """Every clash between claims, or of claims with the rules, in time order."""
    found = [
        *_stated(claims, reckoning, rules),
        *_calls(claims, reckoning, scorings, result, rules),
        *_foreign(claims, rules),
        *_winner(claims, reckoning, result, rules),
        *(_risen(number, claims[number]) for number in clocks.risen),
    ]
    return tuple(sorted(found, key=lambda clash: clash.at_ms))


def _risen(number: int, claim: Claim) -> Contradiction:
    problem = f"at {stamp(claim.start_ms)} the clock is said to rise to {claim.seconds} s"
    return Contradiction(at_ms=claim.start_ms, problem=problem, claims=(number,))


def stamp(ms: int) -> str:
    """A time of the recording as minutes and seconds."""
    return f"{ms // 60_000}:{ms // 1000 % 60:02d}"


def _shown(tallies: dict[str, Tally]) -> str:
    return ", ".join(f"{side} {_counted(tally)}" for side, tally in tallies.items())


def _counted(tally: Tally) -> str:
    """A tally in words: its points, or what it has of each class."""
    said = tally.model_dump(exclude_none=True)
    if set(said) == {"points"}:
        return str(said["points"])
    parts = [f"{count} {name.replace('_', '-')}" for name, count in said.items() if count]
    return " and ".join(parts) or "nothing"


def _as_stated(claim: Claim) -> str:
    if not claim.tallies:
        return "level" if claim.margin == 0 else f"a lead of {claim.margin}" if claim.margin else "a lead"
    if not claim.ordered:
        return " to ".join(_counted(tally) for tally in claim.tallies.values())
    return _shown(claim.tallies)


def _stated(claims: dict[int, Claim], reckoning: Reckoning, rules: Ruleset) -> list[Contradiction]:
    found = []
    last: int | None = None
    for k, source in enumerate(reckoning.steps.sources):
        if source.kind == "call":
            last = reckoning.matter.calls[source.about].claims[0]
        if source.kind != "statement":
            continue
        likely = reckoning.steps.steps[k].emission
        state = reckoning.solved.path[k][1]
        if likely is None or likely[state] > 0.2 * likely.max():
            continue
        claim = claims[source.about]
        if len(claim.tallies) == 1 and not claim.ordered:
            # a number alone ("eighteen!") is too often something else to be held against anybody
            continue
        counted = _shown(scoreboard(reckoning.grid, state, rules.sides))
        said = f"at {stamp(claim.start_ms)} the score is said to be {_as_stated(claim)}"
        problem = f"{said}, but what counted gives {counted}"
        at_odds = (source.about,) if last is None else (last, source.about)
        found.append(Contradiction(at_ms=claim.start_ms, problem=problem, claims=at_odds))
    return found


def _calls(
    claims: dict[int, Claim], reckoning: Reckoning, scorings: list[Scoring], result: Result, rules: Ruleset
) -> list[Contradiction]:
    found = []
    for index in sorted(unused(reckoning.matter, scorings)):
        call = reckoning.matter.calls[index]
        claim = claims[call.claims[0]]
        if max(call.given) < 0.6 or call.value is None or _taken_back(call, reckoning.matter):
            continue
        if call.summed or call.value == result.by or _told_over(call, reckoning, scorings):
            continue
        side = f" for {claim.side}" if claim.side else ""
        called = f"at {stamp(call.start_ms)} {call.value}{side} is called"
        nearest = min(
            reckoning.matter.statements, key=lambda n: abs(claims[n].start_ms - call.start_ms), default=None
        )
        problem = f"{called}, but the scores stated leave no room for it"
        odds = call.claims if nearest is None else (*call.claims, nearest)
        found.append(Contradiction(at_ms=call.start_ms, problem=problem, claims=odds))
    return found


def _told_over(call: Call, reckoning: Reckoning, scorings: list[Scoring]) -> bool:
    """Whether the same was counted for the same side shortly before, of which the call tells again, or a call
    for that side right behind counted instead: "that's two, no, his knee went down, one"."""
    side = int(call.sides[1] > call.sides[0])
    for one in scorings:
        ago = call.start_ms - reckoning.steps.steps[one.step].at_ms
        again = one.value == call.value and 0 <= ago <= TOLD_OVER_MS
        instead = one.source == "call" and 0 <= -ago <= PUT_RIGHT_MS
        if one.side == side and (again or instead):
            return True
    return False


def _taken_back(call: Call, matter: Matter) -> bool:
    """Whether it was said afterwards that what a call gave no longer counts."""
    return any(
        one.value == call.value and 0 <= one.at_ms - call.end_ms <= BACK_MS
        for one in matter.denials
        if one.denied > call.given[0] / 2
    )


def _foreign(claims: dict[int, Claim], rules: Ruleset) -> list[Contradiction]:
    """Score classes and values that the rule set does not know."""
    found = []
    for number, claim in claims.items():
        if claim.kind != "score" or chance(claim, *DONE) < 0.6:
            continue
        unknown = claim.score_class is not None and claim.score_class not in rules.classes
        if unknown:
            problem = (
                f"at {stamp(claim.start_ms)} {claim.score_class} is called, which {rules.key} does not have"
            )
            found.append(Contradiction(at_ms=claim.start_ms, problem=problem, claims=(number,)))
    return found


def _winner(
    claims: dict[int, Claim], reckoning: Reckoning, result: Result, rules: Ruleset
) -> list[Contradiction]:
    found = []
    for number in reckoning.matter.verdicts:
        claim = claims[number]
        likely = lean(claim, rules.sides)
        named = rules.sides[0] if likely[0] > likely[1] else rules.sides[1]
        if chance(claim, *DONE) > 0.6 and max(likely) > 0.75 and result.winner and named != result.winner:
            problem = (
                f"at {stamp(claim.start_ms)} {named} is named the winner, but {result.winner} won as counted"
            )
            found.append(Contradiction(at_ms=claim.start_ms, problem=problem, claims=(number,)))
    return found


def doubts(events: tuple[Event, ...], result: Result, rules: Ruleset) -> tuple[str, ...]:
    """The rows used that are from memory or contradicted, and the usual caution."""
    used = {event.row for event in events if event.counts and event.row} | (
        {result.row} if result.row else set()
    )
    rows = [row for row in rules.rows() if row.id in used and row.mark in UNSURE]
    return (
        *(f"row {row.id} is {_mark(row.mark)}{': ' + row.source if row.source else ''}" for row in rows),
        rules.caution,
    )


def _mark(mark: str) -> str:
    return "from memory" if mark == "memory" else "contradicted by another source"
