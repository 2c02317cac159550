"""Who won and how, said or unsaid, and with what probability."""

import numpy as np

from hikite.ledger.grids import ENDED, OUT, Floats, Grid
from hikite.ledger.plans import TOP
from hikite.ledger.reckonings import Reckoning
from hikite.ledger.rulebooks import TOTAL, Ruleset
from hikite.ledger.scorings import Scoring
from hikite.ledger.uncalled import worth_of
from hikite.ledger.verdicts import HARDLY, OUT_BY, decided_early, put_outs
from hikite.records import Result

FAVOURED = 0.7
"""P(the side won that the rules on ties favour | the score is level)."""


def decide(
    reckoning: Reckoning,
    scorings: list[Scoring],
    rules: Ruleset,
    golden: bool,
    lead: int | None,
) -> Result:
    """The most probable result: from the results named, the final score and the rules on ties."""
    solved = reckoning.solved
    ahead = reckoning.grid.ahead
    odds, early = _odds(reckoning, scorings, rules, ahead)
    state = solved.path[-1][1] if solved.path else solved.start
    ended = abs(float(ahead[state])) >= ENDED
    shown = ended or (not early and ahead[state] != 0)
    winner = int(ahead[state] < 0) if shown else int(odds.argmax())
    if rules.resets and not early:
        winner = _by_periods(reckoning, scorings, winner)
    by = early or _by(reckoning.grid, rules, state, winner, golden, float(ahead[state]), lead)
    row = next((end.id for end in rules.ends if end.by == by), None)
    if not (reckoning.matter.verdicts or scorings or ended):
        return Result(winner=None, by=None, confidence=0.0, row=row)
    return Result(winner=rules.sides[winner], by=by, confidence=round(float(odds[winner]), 4), row=row)


def _odds(
    reckoning: Reckoning, scorings: list[Scoring], rules: Ruleset, ahead: Floats
) -> tuple[Floats, str | None]:
    """P(each side won), and the early end if there was one."""
    marginal = reckoning.solved.marginal
    odds = np.array([marginal[ahead > 0].sum(), marginal[ahead < 0].sum()]) + 1e-4
    level = float(marginal[ahead == 0].sum())
    broken = _tie(reckoning, scorings, rules)
    odds[broken] += FAVOURED * level
    odds[1 - broken] += (1 - FAVOURED) * level
    outs = put_outs(reckoning.matter, rules, reckoning.steps.noise)
    said, early = decided_early((*reckoning.verdicts, *outs))
    if early is None:
        said, early = _clean_throw(reckoning, scorings)
    if early == "superiority" or early in OUT_BY:
        odds = np.sqrt(odds * said)
    elif early:
        odds = said
    for verdict in reckoning.verdicts:
        if verdict.wrong <= HARDLY:
            odds = odds * (verdict.given * np.array(verdict.won) + 1 - verdict.given) + HARDLY
    return odds / odds.sum(), early


def _by_periods(reckoning: Reckoning, scorings: list[Scoring], last: int) -> int:
    """The side that won more periods where each begins at nothing; ``last`` won the last one."""
    starts = reckoning.steps.resets_ms
    points = np.zeros((len(starts) + 1, 2))
    for scoring in scorings:
        at = reckoning.steps.steps[scoring.step].at_ms
        if isinstance(scoring.value, int):
            points[sum(start <= at for start in starts), scoring.side] += scoring.value
    won = np.sign(points[:, 0] - points[:, 1])
    won[-1] = 1 if last == 0 else -1
    return last if won.sum() == 0 else int(won.sum() < 0)


def _clean_throw(reckoning: Reckoning, scorings: list[Scoring]) -> tuple[Floats, str | None]:
    """The bout's end by a throw that the rules call total victory, when nothing is done after it."""
    deeds, scales = reckoning.matter.deeds, reckoning.steps.scales
    ends = [deed for deed in deeds if deed.kind == "technique" and worth_of(scales, deed).clean > 0.5]
    if not ends or ends[-1].done < 0.5:
        return np.ones(2), None
    throw = ends[-1]
    if throw.paid or throw.near_paid:
        return np.ones(2), None
    last = max((reckoning.steps.steps[scoring.step].at_ms for scoring in scorings), default=0)
    if last > throw.end_ms or any(deed.start_ms > throw.end_ms and deed.done > 0.5 for deed in deeds):
        return np.ones(2), None
    return np.array(throw.sides), TOTAL


def _by(
    grid: Grid, rules: Ruleset, state: int, winner: int, golden: bool, ahead: float, lead: int | None
) -> str:
    """How the side ahead in a state won."""
    if abs(ahead) >= OUT:
        named = {end.by for end in rules.ends}
        return "hansoku-make" if "hansoku-make" in named else "disqualification"
    if grid.plan.classes:
        return _by_class(grid, rules, state, winner, golden)
    red, blue = (int(pair[state]) for pair in grid.tally["points"])
    full = next((end for end in rules.ends if end.score == "points"), None)
    if full is not None and max(red, blue) >= full.count:
        return full.by
    return "superiority" if lead is not None and abs(red - blue) >= lead else "points"


def _by_class(grid: Grid, rules: Ruleset, state: int, winner: int, golden: bool) -> str:
    """How the side ahead won where scores have classes."""
    for end in rules.ends:
        if end.score == TOP and grid.axes[TOP, 2][state] == winner + 1:
            return end.by
        if end.score in grid.tally and not end.golden and grid.tally[end.score][winner][state] >= end.count:
            return end.by
    if golden:
        return "golden-score"
    for name in rules.classes:
        if name != TOP and grid.tally[name][winner][state] > grid.tally[name][1 - winner][state]:
            return name
    mine, theirs = grid.shido(winner), grid.shido(1 - winner)
    fewer = mine is not None and theirs is not None and mine[state] < theirs[state]
    return "shido" if fewer and any(end.by == "shido" for end in rules.ends) else "decision"


def _tie(reckoning: Reckoning, scorings: list[Scoring], rules: Ruleset) -> int:
    """The side that the rules on ties favour on the best path."""
    lines = [scoring for scoring in scorings if isinstance(scoring.value, int)]
    for tie in rules.ties:
        if tie.by == "quality":
            best = [sorted((s.value for s in lines if s.side == side), reverse=True) for side in (0, 1)]
            if best[0] != best[1]:
                return int(best[1] > best[0])
        if tie.by == "penalties":
            faults = [_faults(reckoning, side) for side in (0, 1)]
            if faults[0] != faults[1]:
                return int(faults[1] < faults[0])
        if tie.by == "last" and lines:
            return lines[-1].side
    return lines[-1].side if lines else 0


def _faults(reckoning: Reckoning, side: int) -> int:
    """How many grave penalties (those that can end in exclusion) a side has on the best path."""
    grid, state = reckoning.grid, reckoning.solved.path[-1][1]
    grave = [rail.concept for rail in grid.plan.rails if not rail.shared]
    return sum(int(grid.axes[concept, side][state]) for concept in grave)
