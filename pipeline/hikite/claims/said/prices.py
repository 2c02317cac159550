"""Points that are told of and not given: what landings are worth, and what the speaker makes of one."""

from collections.abc import Sequence
from itertools import pairwise

from hikite.claims.said.awards import Award
from hikite.records import Claim

# Marks of words for a landing in front of its points, and of words that tell whose opinion it is.
_WORTH, _OPINION = "worth", "opinion"
# So many words apart at most are two rows of one table, and an award and the same once more.
_ROWS_WITHIN, _AGAIN_WITHIN = 8, 6


def priced(awards: Sequence[tuple[Award, Claim]]) -> list[tuple[Award, Claim]]:
    """The awards, those ``supposed`` that are rows of a table ("side standing, four; belly standing, two") or
    that the speaker gives again for his own ("that's four, I've got four in my book")."""
    meant = [claim.status for _, claim in awards]
    for at, (one, two) in enumerate(pairwise(awards)):
        if _rows(one, two):
            meant[at] = meant[at + 1] = "supposed"
        elif _own(one[1], *two):
            meant[at] = "supposed"
    return [
        (award, claim if claim.status == status else claim.model_copy(update={"status": status}))
        for (award, claim), status in zip(awards, meant, strict=True)
    ]


def _rows(one: tuple[Award, Claim], two: tuple[Award, Claim]) -> bool:
    """Whether two awards of different worth stand side by side, each behind the landing it is for."""
    award, claim = two
    near = claim.first - one[1].stop <= _ROWS_WITHIN and {claim.status, one[1].status} == {"given"}
    return near and claim.points != one[1].points and _has(one[0], _WORTH) and _has(award, _WORTH)


def _own(one: Claim, award: Award, claim: Claim) -> bool:
    """Whether an award is told once more as an opinion."""
    again = (one.status, one.points) == ("given", claim.points) and claim.first - one.stop <= _AGAIN_WITHIN
    return again and claim.status == "supposed" and _has(award, _OPINION)


def _has(award: Award, mark: str) -> bool:
    return any(cue.entry.concept == mark for cue in award.cues)
