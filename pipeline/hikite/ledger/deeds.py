"""Claims about one thing brought together: what was done, what was called for it, what was stated."""

from typing import NamedTuple

from hikite.ledger.rulebooks import Gives
from hikite.records import Claim

Pair = tuple[float, float]
DONE = frozenset({"completed", "given", "taken", "running", "stated"})


class Deed(NamedTuple):
    """A technique, hold or penalty that may have brought something; ``sides`` are P(each side did it).

    ``vouched`` says that a person stands for it, ``told`` that words name its side.
    """

    kind: str
    concept: str
    claims: tuple[int, ...]
    sides: Pair
    done: float
    start_ms: int
    end_ms: int
    landing: str | None = None
    fell: bool | None = None
    seconds: int | None = None
    ended: bool = False
    nothing: bool = False
    points: int | None = None
    ordinal: int | None = None
    paid: bool = False
    near_paid: bool = False
    vouched: bool = False
    told: bool = False


class Call(NamedTuple):
    """An award as called, once or more; ``deed`` is the index of what it was probably for, ``revises`` of the
    call just before it that it may take the place of ("waza-ari … no, yuko").

    ``ordinal`` is which one of its side and kind it is said to be ("a second yuko"); ``vouched`` says that a
    person stands for it, ``instead`` that the words themselves correct the call before ("no, sorry, a yuko"),
    ``summed`` that it is what two lesser scores make,
    ``slip`` that a score stated after the call before was taken back: that call may have been a slip too.
    """

    claims: tuple[int, ...]
    sides: Pair
    given: tuple[float, ...]
    value: Gives | None
    start_ms: int
    end_ms: int
    deed: int | None = None
    ordinal: int | None = None
    vouched: bool = False
    told: bool = False
    revises: int | None = None
    instead: bool = False
    summed: bool = False
    slip: bool = False


class Denial(NamedTuple):
    """A score said not to count; ``back`` that it had been given and no longer is."""

    claim: int
    sides: Pair
    value: Gives
    denied: float
    at_ms: int
    back: bool = False


class Matter(NamedTuple):
    """Everything of one bout that bears on the score, each list in time order.

    ``late`` are the statements and results told after the bout's end, ``alive`` the restarts and running
    clocks that say that it is on, ``brinks`` the words that somebody has one penalty to go before being put
    out.
    """

    deeds: tuple[Deed, ...]
    calls: tuple[Call, ...]
    denials: tuple[Denial, ...]
    statements: tuple[int, ...]
    verdicts: tuple[int, ...]
    late: frozenset[int]
    alive: tuple[int, ...] = ()
    brinks: tuple[int, ...] = ()


def chance(claim: Claim, *names: str) -> float:
    """P(the claim was meant in one of these ways)."""
    if claim.statuses:
        return min(1.0, sum(claim.statuses.get(name, 0.0) for name in names))
    return 0.95 if claim.status in names else 0.03


def lean(claim: Claim, sides: tuple[str, str]) -> Pair:
    """P(each side) of a claim; what is nobody's or unknown is shared."""
    if not claim.sides:
        if claim.side in sides:
            return (0.92, 0.08) if claim.side == sides[0] else (0.08, 0.92)
        return 0.5, 0.5
    one, two = (claim.sides.get(side, 0.0) for side in sides)
    rest = max(0.0, 1.0 - one - two) / 2
    total = one + two + 2 * rest
    return ((one + rest) / total, (two + rest) / total) if total > 0 else (0.5, 0.5)


def told(claim: Claim) -> bool:
    """Whether a claim's side is named by the words, or given as it is without probabilities."""
    return claim.told or (claim.side is not None and not claim.sides)


def agree(one: Pair, two: Pair) -> float:
    """P(two claims are of the same side)."""
    return one[0] * two[0] + one[1] * two[1]


def joined(one: Pair, two: Pair) -> Pair:
    """Both claims' evidence on a side they share."""
    left, right = one[0] * two[0] + 1e-6, one[1] * two[1] + 1e-6
    return left / (left + right), right / (left + right)
