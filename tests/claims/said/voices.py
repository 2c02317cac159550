"""Tables of invented sentences in many voices: what is expected of each, and what is heard."""

from functools import cache
from pathlib import Path
from typing import NamedTuple

from saying import SIDES, actors_of, talk_of

from hikite.claims.said import find_said
from hikite.mentions import find_mentions
from hikite.records import Claim, Tally
from hikite.terms import Terms, load_terms

FOLDER = Path(__file__).parent / "voices"
# Which claims a table is about.
KINDS = {
    "results": "result",
    "penalties": "penalty",
    "stoppages": "stoppage",
    "positions": "position",
    "landings": "landing",
    "holds": "hold",
    "scores": "score",
    "tallies": "stated_score",
    "clocks": "clock",
}


class Row(NamedTuple):
    """One line of a table: ``expected | said``; ``//`` parts cues, a leading ``J`` says it is judo."""

    table: str
    said: str
    expected: tuple[str, ...]
    judo: bool


def rows(setting: str, table: str) -> list[Row]:
    """The rows of one table of one set."""
    found = []
    for line in (FOLDER / setting / f"{table}.txt").read_text("utf-8").splitlines():
        if line.startswith("#") or not line.strip():
            continue
        expected, _, said = line.rpartition(" | ")
        judo = expected.startswith("J ")
        parts = expected.removeprefix("J ").strip()
        claims = tuple(parts.split(";" if table == "tallies" else ",")) if parts else ()
        found.append(Row(table, said, claims, judo))
    return found


@cache
def _terms() -> Terms:
    return load_terms()


def heard(row: Row) -> list[Claim]:
    """What is claimed in a row's words, of its table's kind, or of any kind for chatter."""
    talk = talk_of(*row.said.split(" // "))
    mentions = find_mentions(talk, _terms(), "en")
    points = None if row.table == "chatter" else not row.judo
    claims = find_said(talk, mentions, actors_of(talk), SIDES, points=points, duration_s=300)
    return [claim for claim in claims if KINDS.get(row.table, claim.kind) == claim.kind]


def agrees(row: Row) -> bool:
    """Whether exactly what is expected is heard; a side may stay open, it may not be the wrong one."""
    claims = heard(row)
    return len(claims) == len(row.expected) and all(
        _fits(row, expected, claim) for expected, claim in zip(row.expected, claims, strict=True)
    )


def _fits(row: Row, expected: str, claim: Claim) -> bool:
    rest, _, status = expected.partition("?")
    value, _, side = rest.partition("@")
    if side and claim.side not in (None, side):
        return False
    if row.table == "landings":
        where, _, fell = value.partition(":")
        told = {"any": claim.fell, "stood": False, "fell": True}[fell]
        return claim.fell == told and (where == "any" or claim.concept == f"landing:{where}")
    if row.table == "holds":
        return _fits_hold(value, claim)
    if row.table == "tallies":
        return _fits_tally(value, claim)
    if row.table == "clocks":
        return (claim.seconds, claim.elapsed) == (int(value.removeprefix("e")), value.startswith("e"))
    if row.table == "scores" and claim.status != (status or "given"):
        return False
    if row.table == "scores":
        return value in ("0", str(claim.points), claim.score_class)
    plain = "given" if row.table in ("results", "penalties") else "stated"
    return claim.concept in value.split("|") and claim.status == (status or plain)


def _fits_hold(value: str, claim: Claim) -> bool:
    concept, status, *seconds = value.split("/")
    return (
        concept in ("any", claim.concept)
        and claim.status == status
        and (not seconds or claim.seconds == int(seconds[0]))
    )


def _fits_tally(value: str, claim: Claim) -> bool:
    if value.startswith("lead"):
        return claim.margin == int(value.removeprefix("lead"))
    if value.startswith("red="):
        sides = {side: int(number) for side, _, number in (part.partition("=") for part in value.split(","))}
        told = {side: _one(tally) for side, tally in claim.tallies.items()}
        return told == sides or (not claim.ordered and sorted(told.values()) == sorted(sides.values()))
    return [_one(tally) for tally in claim.tallies.values()] == [int(part) for part in value.split("-")]


def _one(tally: Tally) -> int:
    return next((count for count in tally.model_dump().values() if count is not None), 0)
