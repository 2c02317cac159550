"""What a stated score says about the state: P(these words | the scoreboard), for every state."""

import numpy as np

from hikite.ledger.deeds import chance, lean
from hikite.ledger.grids import Flags, Floats, Grid
from hikite.ledger.noise import Noise
from hikite.records import Claim, Tally
from hikite.records.marks import CLASS_UNSAID

LATE_MARGIN = 0.5
UNSAID = {"waza_ari": 0.7, "shido": 0.15, "yuko": 0.15}
UNSAID_AFTER = {
    "shido": {"waza_ari": 0.15, "shido": 0.82, "yuko": 0.03},
    "yuko": {"waza_ari": 0.25, "shido": 0.1, "yuko": 0.65},
}
"""What such numbers count, and what they do right after a penalty or a yuko. Common practice, no source."""
TALLIED = ("waza_ari", "yuko", "koka")
PENALTIES = "shido"
"""What a lead or a level score is said to be in, where it is not the score."""


HABITS = 3
"""Numbers without names come leader first, or in the order of the sides in the rules, or the other way round:
a speaker keeps to one of them."""


def emissions(
    grid: Grid, claim: Claim, sides: tuple[str, str], noise: Noise, late: bool = False, given: str = ""
) -> tuple[Floats, ...]:
    """The likelihood of a stated score by state: one, or one for each habit of the speaker where it matters.

    Nothing where it says nothing about the bout. ``late`` ones are said after the end, when leads are told
    as they had been ("he was four down"); ``given`` is what was called last, a penalty or a score of a class.
    """
    stated = chance(claim, "stated", "given", "completed")
    if stated < 0.1:
        return ()
    wrong = min(0.6, _wrong(claim, noise, late) + 0.5 * (1 - claim.confidence))
    room = max(4.0, _variety(grid, claim))
    right = stated * (1 - wrong) + (1 - stated) * 0.3
    other = (stated * wrong + (1 - stated) * 0.7) / room + 1e-12
    found = []
    for exact in _exact(grid, claim, sides, noise, given):
        if not exact.any():
            return ()
        found.append(exact * right + other)
    return tuple(found)


def _exact(grid: Grid, claim: Claim, sides: tuple[str, str], noise: Noise, given: str) -> tuple[Floats, ...]:
    """P(the words | each state) of a speaker who does not err, by habit."""
    if not claim.tallies:
        lead = _lead(grid, claim, sides)
        return () if lead is None else (lead,)
    readings = [
        (_ordered(grid, one, sides, noise) if one.ordered else _unordered(grid, one, sides, noise), share)
        for one, share in _readings(grid, claim, given)
    ]
    if not all(part for part, _ in readings):
        return ()
    # "Two all" in judo is no score: what no bout can show is not what was counted
    possible = [(part, share) for part, share in readings if any(one[grid.possible].any() for one in part)]
    if len(possible) < 2:
        return possible[0][0] if possible else readings[0][0]
    most = max(len(part) for part, _ in possible)
    every = [(part if len(part) == most else part * most, share) for part, share in possible]
    whole = sum(share for _, share in every)
    return tuple(
        sum((share / whole * part[n] for part, share in every), np.zeros(grid.size)) for n in range(most)
    )


def _readings(grid: Grid, claim: Claim, given: str) -> list[tuple[Claim, float]]:
    """The claim, or the claims it may be where nobody says what is counted ("one each" in judo)."""
    if CLASS_UNSAID not in claim.attributes or not grid.plan.classes:
        return [(claim, 1.0)]
    shares = UNSAID_AFTER.get(given, UNSAID)
    known = {"shido", *(name.replace("-", "_") for name, _ in grid.plan.classes)}
    total = sum(share for name, share in shares.items() if name in known)
    return [(_counting(claim, name), share / total) for name, share in shares.items() if name in known]


def _counting(claim: Claim, name: str) -> Claim:
    numbers = {side: tally.waza_ari for side, tally in claim.tallies.items()}
    tallies = {side: Tally.model_validate({name: number}) for side, number in numbers.items()}
    return claim.model_copy(update={"tallies": tallies})


def _wrong(claim: Claim, noise: Noise, late: bool) -> float:
    """P(what is stated is not the score), by the form it is stated in."""
    if claim.vouched:
        return 0.0
    if not claim.tallies:
        return max(noise.margin, LATE_MARGIN) if late else noise.margin
    alone = len(claim.tallies) == 1 and all(tally.points is not None for tally in claim.tallies.values())
    return noise.total if alone else noise.stated


def _variety(grid: Grid, claim: Claim) -> float:
    """How many other things might as well have been stated: scores, or the fewer leads and totals."""
    if grid.plan.classes:
        return float(np.sqrt(grid.size)) * 2
    if len(claim.tallies) < 2:
        return float(grid.plan.points + 1) / 2
    return float((grid.plan.points + 1) ** 2) / 2


def _ordered(grid: Grid, claim: Claim, sides: tuple[str, str], noise: Noise) -> tuple[Floats, ...]:
    one, two = (claim.tallies.get(side) for side in sides)
    if one is None and two is None:
        return ()
    plain = _match(grid, 0, one) & _match(grid, 1, two)
    crossed = _match(grid, 1, one) & _match(grid, 0, two)
    swapped = 0.0 if claim.vouched else noise.swapped
    return ((1 - swapped) * plain + swapped * crossed,)


def _match(grid: Grid, side: int, tally: Tally | None) -> Flags:
    """Whether the scoreboard shows what was said of this side, by state; unsaid parts match all."""
    match = np.ones(grid.size, bool)
    if tally is None:
        return match
    if tally.points is not None and not grid.plan.classes:
        match &= grid.tally["points"][side] == tally.points
    for field in TALLIED:
        said, name = getattr(tally, field), field.replace("_", "-")
        if said is not None and name in grid.tally:
            match &= grid.tally[name][side] == said
    if tally.ippon is not None and grid.plan.classes:
        match &= (grid.axes["ippon", 2] == side + 1) == bool(tally.ippon)
    shido = grid.shido(side)
    if tally.shido is not None and shido is not None:
        match &= shido == tally.shido
    return match


def _unordered(grid: Grid, claim: Claim, sides: tuple[str, str], noise: Noise) -> tuple[Floats, ...]:
    said = list(claim.tallies.values())
    led = lean(claim, sides)
    if len(said) == 1:
        return (led[0] * _match(grid, 0, said[0]) + led[1] * _match(grid, 1, said[0]),)
    if len(said) != 2:
        return ()
    first, second = said
    straight = _match(grid, 0, first) & _match(grid, 1, second)
    crossed = _match(grid, 1, first) & _match(grid, 0, second)
    ahead = _worth(first) - _worth(second)
    if ahead == 0:
        return (straight.astype(float),)
    if all(set(tally.model_dump(exclude_none=True)) == {PENALTIES} for tally in said):
        # of penalties nobody leads
        return (np.asarray(2 * led[0] * straight + 2 * led[1] * crossed, float),)
    # whoever is named beside the numbers is said to lead
    named = led if ahead > 0 else led[::-1]
    one, two = 2 * named[0] * straight, 2 * named[1] * crossed
    keeps, strays = 1 - noise.strays, noise.strays
    leader_first = (keeps if ahead > 0 else strays) * (one + two)
    return leader_first, keeps * one + strays * two, strays * one + keeps * two


def _worth(tally: Tally) -> float:
    """Which of two tallies is ahead: points, or judo scores by class; penalties count against."""
    if tally.points is not None:
        return float(tally.points)
    classes = (
        (tally.ippon or 0) * 1000 + (tally.waza_ari or 0) * 100 + (tally.yuko or 0) * 10 + (tally.koka or 0)
    )
    return classes - 0.01 * (tally.shido or 0)


def _lead(grid: Grid, claim: Claim, sides: tuple[str, str]) -> Floats | None:
    """P(the words | each state) of a lead in numbers, of one without ("he leads"), of "level"."""
    ahead, led = _ahead(grid, claim), lean(claim, sides)
    if ahead is None:
        return None
    if claim.margin is None:
        return np.asarray(led[0] * (ahead > 0) + led[1] * (ahead < 0), float)
    if claim.margin == 0:
        return np.asarray(ahead == 0, float)
    if grid.plan.classes and claim.of != PENALTIES:
        return None
    return np.asarray(led[0] * (ahead == claim.margin) + led[1] * (ahead == -claim.margin), float)


def _ahead(grid: Grid, claim: Claim) -> Floats | None:
    """How far the first side is ahead, by state, in what is spoken of: the score, or penalties alone."""
    if claim.of != PENALTIES:
        return grid.ahead
    one, two = grid.shido(0), grid.shido(1)
    return None if one is None or two is None else np.asarray(two - one, float)
