"""Results as named: how far each is to be believed, and what it says about the final state."""

from typing import NamedTuple

import numpy as np

from hikite.ledger.deeds import DONE, Matter, Pair, chance, lean
from hikite.ledger.grids import Floats, Grid
from hikite.ledger.noise import Noise
from hikite.ledger.plans import TOP
from hikite.ledger.rulebooks import Ruleset
from hikite.records import Claim

BY_LEAD = frozenset({"points", "waza-ari", "yuko", "koka", "golden-score", "decision"})
OUT_BY = frozenset({"disqualification", "hansoku-make"})
GOES_ON, RUNS_ON, EARLY = 0.5, 0.85, 0.05
"""How much less a result is believed for every restart or running clock after it, and before any start."""
OUTRIGHT = frozenset({"submission", "fall", "ippon", "total-victory"})
AFTERWARDS = 0.1
"""How much less a win that ends a bout at once is believed once the bout was over, unless such a win was
named before. Common practice, no source."""
NAMED = 0.4
"""How much less a result is doubted whose winner or loser is named. Common practice, no source."""
LEVEL, DRAWN = 0.05, 0.4
"""P(a win by a score of a class is named | both have as many), or any win where the rules let no level bout
end; and P(a win is named | the score is level) where they settle it otherwise."""
HARDLY = 1e-6
"""P(a person who names the winner is wrong)."""
SHORT = 0.1
"""P(a win by superiority is named | the lead is less than any that ends a bout). Common practice, no
source."""
DIRECTLY = 0.1
"""P(put out with fewer penalties than put out). Common practice, no source."""


class Verdict(NamedTuple):
    """A result named: by which claim, how, ``given`` as P(it is this bout's), ``won`` as P(each side won).

    ``wrong`` is P(the winner named is not the winner), next to nothing where a person stands for it.
    """

    claim: int
    by: str
    given: float
    won: Pair
    wrong: float


def find_verdicts(
    matter: Matter, claims: dict[int, Claim], rules: Ruleset, noise: Noise
) -> tuple[Verdict, ...]:
    """The results named in a bout, in time order."""
    calls = [claim for claim in claims.values() if claim.kind == "stoppage"]
    opening = next((one.start_ms for one in calls if one.concept == "start" and one.of is None), 0)
    alive = [claim.start_ms for claim in calls if claim.concept in ("start", "restart")]
    running = [
        claim.start_ms
        for claim in claims.values()
        if claim.kind == "clock" and claim.seconds and claim.status == "stated" and claim.of is None
    ]
    won: set[str] = set()
    found = []
    for number in matter.verdicts:
        claim = claims[number]
        doubt = NAMED if claim.told else 1.0
        given = chance(claim, *DONE) * (1 - (1 - claim.confidence) * doubt)
        if not claim.vouched:
            given *= GOES_ON ** sum(at > claim.end_ms for at in alive)
            given *= RUNS_ON ** sum(at > claim.end_ms for at in running)
            given *= EARLY if claim.start_ms < opening else 1.0
            given *= AFTERWARDS if number in matter.late and claim.concept in OUTRIGHT - won else 1.0
            won |= {claim.concept} & OUTRIGHT if chance(claim, *DONE) > 0.5 else set()
        wrong = HARDLY if claim.vouched else noise.result * doubt
        found.append(Verdict(number, _by(claim.concept, rules), given, lean(claim, rules.sides), wrong))
    return tuple(found)


def put_outs(matter: Matter, rules: Ruleset, noise: Noise) -> tuple[Verdict, ...]:
    """The penalties that put somebody out, each a result too: it tells how the bout ended, and for whom."""
    return tuple(
        Verdict(deed.claims[0], _by(deed.concept, rules), deed.done, deed.sides[::-1], noise.result)
        for deed in matter.deeds
        if deed.kind == "penalty" and deed.concept in OUT_BY
    )


def _by(concept: str, rules: Ruleset) -> str:
    """The concept as this rule set names it."""
    if concept == "submission" and TOP in rules.classes:
        return TOP
    if concept in OUT_BY:
        return "hansoku-make" if any(end.by == "hansoku-make" for end in rules.ends) else "disqualification"
    return concept


def verdict_weights(
    verdicts: tuple[Verdict, ...], board: Grid, rules: Ruleset, put_out: bool = False
) -> Floats | None:
    """P(the results named | the final state), by state, or nothing where none is named.

    ``put_out`` says that somebody was put out for something grave: then the score tells nothing of who won.
    """
    weight: Floats = np.ones(board.size)
    ahead = board.ahead
    tied = LEVEL if not put_out and all(tie.by == "golden-score" for tie in rules.ties) else DRAWN
    for verdict in verdicts:
        if verdict.by in board.tally and verdict.by != "points":
            fits = _more(board, verdict.by, verdict.won)
        elif verdict.by in BY_LEAD:
            fits = np.where(ahead > 0, verdict.won[0], np.where(ahead < 0, verdict.won[1], tied))
        elif verdict.by == "superiority" and board.plan.lead is not None:
            fits = np.where(board.over, np.where(ahead > 0, verdict.won[0], verdict.won[1]), 0.02)
        elif verdict.by == "superiority" and rules.leads:
            fits = _far_ahead(board, rules.leads) * np.where(ahead > 0, verdict.won[0], verdict.won[1])
        elif verdict.by in OUT_BY:
            fits = _out(board, verdict.won)
        else:
            continue
        said = (1 - verdict.wrong) * fits + verdict.wrong * 0.5
        weight = weight * (verdict.given * said + (1 - verdict.given) * 0.5)
    return weight if verdicts else None


def _far_ahead(board: Grid, leads: tuple[int, ...]) -> Floats:
    """P(a win by superiority is named | each state) where it is unsure which of these leads ends a bout."""
    reached = np.stack([np.abs(board.ahead) >= lead for lead in leads]).mean(axis=0)
    return np.asarray(np.maximum(reached, SHORT), float)


def _more(board: Grid, name: str, won: Pair) -> Floats:
    """P(a side is said to win by a score of a class | each state): the one that has more of them."""
    one, two = board.tally[name]
    return np.where(one > two, won[0], np.where(one < two, won[1], LEVEL))


def _out(board: Grid, won: Pair) -> Floats:
    """P(a side is said to be put out | each state): by its penalties, else for something grave."""
    fits = np.full(board.size, DIRECTLY)
    for rail in board.plan.rails:
        if any(rung.out for rung in rail.rungs):
            for side in (0, 1):
                fits = np.where(board.axes[rail.concept, 1 - side] == len(rail.rungs), won[side], fits)
    return fits


def decided_early(verdicts: tuple[Verdict, ...]) -> tuple[Floats, str | None]:
    """The odds of each side by the results named, and the early end if one was named."""
    odds, weights = np.ones(2), dict[str, float]()
    for verdict in verdicts:
        if verdict.given < 0.2:
            continue
        won = np.array(verdict.won)
        said = verdict.wrong + (1 - 2 * verdict.wrong) * won
        odds = odds * (verdict.given * said + (1 - verdict.given) * 0.5)
        if verdict.by not in BY_LEAD:
            weights[verdict.by] = max(weights.get(verdict.by, 0.0), verdict.given)
    # a submission is a total victory too; the narrower word tells how
    if weights.get("submission", 0.0) > 0.4:
        weights.pop("total-victory", None)
    by = max(weights, key=lambda name: weights[name], default=None)
    return odds, by if by is not None and weights[by] > 0.5 else None
