"""What a stated score says about the state: P(these words | the scoreboard), for every state."""

import numpy as np

from hikite.ledger.deeds import chance, lean
from hikite.ledger.grids import Floats, Grid
from hikite.ledger.noise import Noise
from hikite.records import Claim, Tally

LATE_MARGIN = 0.5
TALLIED = ("waza_ari", "yuko", "koka")


def emission(
    grid: Grid, claim: Claim, sides: tuple[str, str], noise: Noise, late: bool = False
) -> Floats | None:
    """The likelihood of a stated score by state, or nothing where it says nothing about the bout.

    ``late`` ones are said after the end, when leads are told as they had been ("he was four down").
    """
    stated = chance(claim, "stated", "given", "completed")
    if stated < 0.1:
        return None
    exact = _margin(grid, claim, sides) if claim.margin is not None and not claim.tallies else None
    if exact is None:
        exact = (
            _ordered(grid, claim, sides, noise) if claim.ordered else _unordered(grid, claim, sides, noise)
        )
    if exact is None or not exact.any():
        return None
    wrong = min(0.6, _wrong(claim, noise, late) + 0.5 * (1 - claim.confidence))
    room = max(4.0, float(_variety(grid)))
    return stated * ((1 - wrong) * exact + wrong / room) + (1 - stated) * (0.3 * exact + 0.7 / room) + 1e-12


def _wrong(claim: Claim, noise: Noise, late: bool) -> float:
    """P(what is stated is not the score), by the form it is stated in."""
    if not claim.tallies:
        return max(noise.margin, LATE_MARGIN) if late else noise.margin
    alone = len(claim.tallies) == 1 and all(tally.points is not None for tally in claim.tallies.values())
    return noise.total if alone else noise.stated


def _variety(grid: Grid) -> float:
    return float(np.sqrt(grid.size)) * 2 if grid.plan.classes else float((grid.plan.points + 1) ** 2) / 2


def _ordered(grid: Grid, claim: Claim, sides: tuple[str, str], noise: Noise) -> Floats | None:
    one, two = (claim.tallies.get(side) for side in sides)
    if one is None and two is None:
        return None
    plain = _match(grid, 0, one) * _match(grid, 1, two)
    crossed = _match(grid, 1, one) * _match(grid, 0, two)
    return (1 - noise.swapped) * plain + noise.swapped * crossed


def _match(grid: Grid, side: int, tally: Tally | None) -> Floats:
    """1 where the scoreboard shows what was said of this side, else 0; unsaid parts match all."""
    match = np.ones(grid.size)
    if tally is None:
        return match
    if tally.points is not None and not grid.plan.classes:
        match *= grid.tally["points"][side] == tally.points
    for field in TALLIED:
        said, name = getattr(tally, field), field.replace("_", "-")
        if said is not None and name in grid.tally:
            match *= grid.tally[name][side] == said
    if tally.ippon is not None and grid.plan.classes:
        match *= (grid.axes["ippon", 2] == side + 1) == bool(tally.ippon)
    shido = grid.shido(side)
    if tally.shido is not None and shido is not None:
        match *= shido == tally.shido
    return match


def _unordered(grid: Grid, claim: Claim, sides: tuple[str, str], noise: Noise) -> Floats | None:
    said = list(claim.tallies.values())
    led = lean(claim, sides)
    if len(said) == 1:
        return led[0] * _match(grid, 0, said[0]) + led[1] * _match(grid, 1, said[0])
    if len(said) != 2:
        return None
    first, second = said
    straight = _match(grid, 0, first) * _match(grid, 1, second)
    crossed = _match(grid, 1, first) * _match(grid, 0, second)
    if first.points is None or second.points is None:
        return noise.first_first * straight + (1 - noise.first_first) * crossed * 0.5 + straight * 0.2
    rest = 1 - noise.leader_first - noise.first_first
    if first.points == second.points:
        return straight
    if first.points > second.points:
        plain, swapped = noise.leader_first + noise.first_first, noise.leader_first + rest
    else:
        plain, swapped = noise.first_first, rest
    named = (led[0], led[1]) if first.points > second.points else (led[1], led[0])
    plain, swapped = plain * named[0], swapped * named[1]
    return (plain * straight + swapped * crossed) / (plain + swapped)


def _margin(grid: Grid, claim: Claim, sides: tuple[str, str]) -> Floats | None:
    if grid.plan.classes or claim.margin is None:
        return None
    led = lean(claim, sides)
    red, blue = grid.tally["points"]
    ahead = red - blue
    return np.asarray(led[0] * (ahead == claim.margin) + led[1] * (ahead == -claim.margin), float)
