"""One bout's claims put through the lattice: from matter to the solved bout."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.clocks import Clocks
from hikite.ledger.deeds import DONE, Matter, chance, lean
from hikite.ledger.gathering import gather
from hikite.ledger.grids import TOP, Floats, Grid, grid, plan
from hikite.ledger.lattices import Solved, solve
from hikite.ledger.links import link
from hikite.ledger.noise import Noise
from hikite.ledger.rulebooks import Ruleset
from hikite.ledger.steps import Steps
from hikite.ledger.worths import Scales
from hikite.records import Claim

MOST_POINTS, STEP = 40, 4
MIDWAY_POINTS, MIDWAY = 5, 0.3
"""A first stated score that exceeds all that was named before it by more than so many points suggests, with
this probability, that the recording begins midway. Common practice, no source."""
BY_LEAD = frozenset({"points", "waza-ari", "yuko", "koka"})


class Reckoning(NamedTuple):
    """The solved bout with all that led to it."""

    matter: Matter
    grid: Grid
    steps: Steps
    solved: Solved

    def final_chance(self) -> float:
        """P(the final score is the one reported)."""
        shown = self.grid.shown
        state = self.solved.path[-1][1]
        return round(min(1.0, float(self.solved.marginal[shown == shown[state]].sum())), 4)


def reckon(
    claims: dict[int, Claim], rules: Ruleset, scales: Scales, noise: Noise, lead: int | None, clocks: Clocks
) -> Reckoning:
    """Exact inference over the claims of one bout (by their index in the testimony)."""
    matter = link(gather(claims.items(), rules), scales)
    board = grid(plan(rules, *_room(matter, claims, rules), lead))
    golden = next((period.start_ms for period in clocks.periods if period.golden), None)
    resets = tuple(period.start_ms for period in clocks.periods[1:]) if rules.resets else ()
    steps = Steps(matter, claims, board, scales, noise, golden, resets)
    start = _joined(matter, claims, board)
    solved = solve(board, steps.steps, _verdict(matter, claims, board, rules, noise), start)
    return Reckoning(matter, board, steps, solved)


def _joined(matter: Matter, claims: dict[int, Claim], board: Grid) -> Floats | None:
    """A start from any score, where the first one stated is more than was called before; else nothing."""
    first = next((claims[n] for n in matter.statements if len(claims[n].tallies) == 2), None)
    if first is None or board.plan.classes or chance(first, "stated") < 0.5:
        return None
    stated = sum(tally.points or 0 for tally in first.tallies.values())
    before = [call.value for call in matter.calls if call.start_ms <= first.start_ms]
    called = sum(value for value in before if isinstance(value, int))
    deeds = sum(deed.done > 0.5 and deed.end_ms <= first.start_ms for deed in matter.deeds)
    if stated - called - 3 * deeds <= MIDWAY_POINTS:
        return None
    start = np.full(board.size, MIDWAY / board.size)
    start[0] = 1 - MIDWAY
    return start


def _room(
    matter: Matter, claims: dict[int, Claim], rules: Ruleset
) -> tuple[int, dict[str, int], dict[str, int]]:
    """How many points, scores of a class and penalties the grid must hold."""
    called = [call.value for call in matter.calls if max(call.given) > 0.1]
    stated = [claims[number].tallies for number in matter.statements]
    points = [tally.points for tallies in stated for tally in tallies.values() if tally.points is not None]
    plausible = [number for number in points if number <= MOST_POINTS]
    room = max(sum(value or 2 for value in called if not isinstance(value, str)), *plausible, 4) + 2
    classes = {}
    for name in rules.classes:
        field = name.replace("-", "_")
        most = max((getattr(t, field) or 0 for tallies in stated for t in tallies.values()), default=0)
        ends = next((end.count for end in rules.ends if end.score == name and not end.golden), 6)
        classes[name] = min(max(called.count(name), most) + 1, ends, 8)
    penalties: dict[str, int] = {}
    for deed in matter.deeds:
        if deed.kind == "penalty":
            penalties[deed.concept] = penalties.get(deed.concept, 0) + 1
    said = max((t.shido or 0 for tallies in stated for t in tallies.values()), default=0)
    for ladder in rules.ladders:
        count = penalties.get(ladder.concept, 0)
        if ladder.counted:
            penalties[ladder.concept] = min(len(ladder.steps), max(count, said) + 1)
        elif count:
            penalties[ladder.concept] = min(len(ladder.steps), count + 1)
    return min(MOST_POINTS, -(-room // STEP) * STEP), classes, penalties


def _verdict(
    matter: Matter, claims: dict[int, Claim], board: Grid, rules: Ruleset, noise: Noise
) -> Floats | None:
    """What the results named say about the final state, or nothing."""
    weight: Floats = np.ones(board.size)
    ahead = leading(board, rules)
    for number in matter.verdicts:
        claim = claims[number]
        given = chance(claim, *DONE)
        if given < 0.5:
            continue
        won = lean(claim, rules.sides)
        fits = np.full(board.size, 0.5)
        if claim.concept in BY_LEAD:
            fits = np.where(ahead > 0, won[0], np.where(ahead < 0, won[1], 0.4))
        elif claim.concept == "superiority" and board.plan.lead is not None:
            fits = np.where(board.over, np.where(ahead > 0, won[0], won[1]), 0.05)
        elif claim.concept in ("disqualification", "hansoku-make"):
            fits = _out(board, won)
        weight *= given * ((1 - noise.result) * fits + noise.result * 0.5) + (1 - given) * 0.5
    return weight if matter.verdicts else None


def _out(board: Grid, won: tuple[float, float]) -> Floats:
    fits = np.full(board.size, 0.3)
    for rail in board.plan.rails:
        if any(rung.out for rung in rail.rungs):
            for side in (0, 1):
                fits = np.where(board.axes[rail.concept, 1 - side] == len(rail.rungs), won[side], fits)
    return fits


def leading(board: Grid, rules: Ruleset) -> Floats:
    """By state: above zero where the first side is ahead, below where the second is, zero when level."""
    if not board.plan.classes:
        red, blue = board.tally["points"]
        return np.asarray(red - blue, float)
    ahead = np.zeros(board.size)
    for name in reversed([name for name in rules.classes if name != TOP]):
        one, two = board.tally[name]
        ahead = ahead / 100 + np.sign(one - two) + (one - two) / 50
    top = board.axes[TOP, 2]
    return np.where(top == 1, 100.0, np.where(top == 2, -100.0, ahead))
