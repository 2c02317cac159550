"""One bout's claims put through the lattice: from matter to the solved bout."""

from collections import Counter
from typing import NamedTuple

import numpy as np

from hikite.ledger.clocks import Clocks
from hikite.ledger.deeds import Matter, chance
from hikite.ledger.falls import pinned
from hikite.ledger.gathering import gather
from hikite.ledger.grids import Floats, Grid, grid
from hikite.ledger.lattices import Solved, solve
from hikite.ledger.links import link
from hikite.ledger.noise import Noise, Temper
from hikite.ledger.plans import plan
from hikite.ledger.rulebooks import Gives, Ruleset
from hikite.ledger.steps import Steps
from hikite.ledger.uncalled import OUT
from hikite.ledger.verdicts import Verdict, find_verdicts, verdict_weights
from hikite.ledger.worths import Scales
from hikite.records import Claim, Tally
from hikite.records.marks import CLASS_UNSAID

MOST_POINTS, STEP, MOST_PENALTIES = 40, 4, 9
OUT_SAID = 0.3
"""How surely somebody must be said to be put out for it to bear on the end."""
UNPAID = 6
"""Room for so many points, at most, that techniques without an award may have brought."""
MIDWAY_POINTS, MIDWAY = 5, 0.3
"""A first stated score that exceeds all that was named before it by more than so many points suggests, with
this probability, that the recording begins midway. Common practice, no source."""


class Reckoning(NamedTuple):
    """The solved bout with all that led to it."""

    matter: Matter
    grid: Grid
    steps: Steps
    solved: Solved
    verdicts: tuple[Verdict, ...]
    temper: Temper = Temper()

    def final_chance(self) -> float:
        """P(the final score is the one reported)."""
        shown = self.grid.shown
        state = self.solved.path[-1][1]
        found = min(1.0, float(self.solved.marginal[shown == shown[state]].sum()))
        return round(self.temper(found), 4)


def reckon(
    claims: dict[int, Claim], rules: Ruleset, scales: Scales, noise: Noise, lead: int | None, clocks: Clocks
) -> Reckoning:
    """Exact inference over the claims of one bout (by their index in the testimony)."""
    matter = pinned(link(gather(claims.items(), rules), scales), claims, rules.sides)
    board = grid(plan(rules, *_room(matter, claims, rules), lead))
    golden = next((period.start_ms for period in clocks.periods if period.golden), None)
    resets = tuple(period.start_ms for period in clocks.periods[1:]) if rules.resets else ()
    steps = Steps(matter, claims, board, scales, noise, golden, resets)
    start = _joined(matter, claims, board)
    verdicts = find_verdicts(matter, claims, rules, noise)
    weights = verdict_weights(verdicts, board, rules, _put_out(matter))
    solved = solve(board, steps.steps, weights, start, noise.habits)
    return Reckoning(matter, board, steps, solved, verdicts, noise.final)


def _put_out(matter: Matter) -> bool:
    """Whether somebody is said to be put out."""
    return any(deed.concept in OUT and deed.done > OUT_SAID for deed in matter.deeds)


def _joined(matter: Matter, claims: dict[int, Claim], board: Grid) -> Floats | None:
    """A start from any score, where the first one stated is more than was called before; else nothing."""
    first = next((claims[n] for n in matter.statements if len(claims[n].tallies) == 2), None)
    started = any(claim.kind == "stoppage" and claim.concept == "start" for claim in claims.values())
    if first is None or started or board.plan.classes or chance(first, "stated") < 0.5:
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
    stated = [tally for number in matter.statements for tally in claims[number].tallies.values()]
    called = [call.value for call in matter.calls if max(call.given) > 0.1]
    unsaid = [claims[number] for number in matter.statements if CLASS_UNSAID in claims[number].attributes]
    faults = [tally.shido or 0 for tally in stated]
    faults += [MOST_PENALTIES for _ in matter.brinks]
    faults += [tally.waza_ari or 0 for claim in unsaid for tally in claim.tallies.values()]
    return (
        _point_room(matter, called, stated),
        _class_room(rules, called, stated),
        _penalty_room(matter, rules, max(faults, default=0)),
    )


def _point_room(matter: Matter, called: list[Gives | None], stated: list[Tally]) -> int:
    points = [tally.points for tally in stated if tally.points is not None and tally.points <= MOST_POINTS]
    named = sum(value or 2 for value in called if not isinstance(value, str))
    linked = {call.deed for call in matter.calls}
    unpaid = sum(deed.done > 0.4 and n not in linked for n, deed in enumerate(matter.deeds))
    room = max(named, *points, 4) + 2 + min(unpaid, UNPAID)
    return min(MOST_POINTS, -(-room // STEP) * STEP)


def _class_room(rules: Ruleset, called: list[Gives | None], stated: list[Tally]) -> dict[str, int]:
    room = {}
    for name in rules.classes:
        field = name.replace("-", "_")
        most = max((getattr(tally, field) or 0 for tally in stated), default=0)
        ends = next((end.count for end in rules.ends if end.score == name and not end.golden), 6)
        room[name] = min(max(called.count(name), most) + 1, ends, 8)
    return room


def _penalty_room(matter: Matter, rules: Ruleset, said: int) -> dict[str, int]:
    """``said`` is the most penalties that a side was said to have."""
    penalties = [deed for deed in matter.deeds if deed.kind == "penalty"]
    if _put_out(matter):
        said = MOST_PENALTIES
    room = dict(Counter(deed.concept for deed in penalties))
    for ladder in rules.ladders:
        count = room.get(ladder.concept, 0)
        if ladder.counted:
            room[ladder.concept] = min(len(ladder.steps), max(count, said) + 1)
        elif count:
            room[ladder.concept] = min(len(ladder.steps), count + 1)
    return room
