"""What becomes of bouts: who scores first, who comes from behind."""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from hikite.archive import Archive
from hikite.archive.derivations.standings import standing
from hikite.numbers.asking import Ask
from hikite.numbers.rates import wilson
from hikite.numbers.tables import Line, Table
from hikite.numbers.tries import Try, bout_conditions, people_called, scores
from hikite.records import Tally

_BOUTS = """
    SELECT b.id, b.recording, b.ruleset, b.first_side, b.second_side, b.winner, b.result_confidence,
        b.final_confidence, b.ruleset_confidence
    FROM bouts b
"""


class _Bout(NamedTuple):
    id: int
    recording: int
    ruleset: str
    first_side: str
    second_side: str
    winner: str | None
    result_confidence: float
    final_confidence: float
    ruleset_confidence: float

    @property
    def sides(self) -> tuple[str, str]:
        return self.first_side, self.second_side


class _Case(NamedTuple):
    """One chance to win: which lines it stands in, whether it was won, how sure that is."""

    bout: _Bout
    keys: tuple[tuple[str, str], ...]
    won: bool
    sure: float


def first_scores(archive: Archive, ask: Ask) -> Table:
    """How often the side that scored first won, over bouts with a score and a winner."""
    cases = []
    whose = _whose(archive, ask)
    for bout, lines in _told(archive, ask):
        first = lines[0]
        if whose is not None and (bout.id, first.side) not in whose:
            continue
        sure = first.confidence * first.side_confidence * bout.result_confidence
        if ask.rules is not None:
            sure *= bout.ruleset_confidence
        keys = (("all", "all rules"), (bout.ruleset, bout.ruleset))
        cases.append(_Case(bout, keys, bout.winner == first.side, sure))
    return _table(ask, "bouts", ("scored first",), cases)


def comebacks(archive: Archive, ask: Ask) -> Table:
    """How often a side won that was behind at some time: at all, and by one point or more, two or more …"""
    cases = []
    whose = _whose(archive, ask)
    for bout, lines in _told(archive, ask):
        sure = bout.final_confidence * bout.result_confidence
        if ask.rules is not None:
            sure *= bout.ruleset_confidence
        for side, (behind, by) in _trailed(bout, lines).items():
            if not behind or (whose is not None and (bout.id, side) not in whose):
                continue
            keys = (("behind", "behind at all"), *((str(n), f"by {n} or more") for n in range(1, by + 1)))
            cases.append(_Case(bout, keys, bout.winner == side, sure))
    return _table(ask, "sides", ("was behind",), cases)


def _whose(archive: Archive, ask: Ask) -> set[tuple[int, str]] | None:
    """The bouts and sides of who is asked for; nothing where nobody is."""
    if ask.who is None:
        return None
    people = people_called(archive, ask.who)
    marks = ", ".join("?" * len(people))
    rows = archive.db.execute(f"SELECT bout, side FROM competitors WHERE person IN ({marks})", people)
    return {(bout, side) for bout, side in rows}


def _told(archive: Archive, ask: Ask) -> Iterator[tuple[_Bout, list[Try]]]:
    """Every bout with a winner, and its lines of the score in time order, where it has any."""
    terms, values = bout_conditions(ask)
    where = " AND ".join(["b.winner IS NOT NULL", *terms])
    # All of the score is needed, whoever is asked for.
    whole = ask.model_copy(update={"who": None, "what": None})
    lines: dict[int, list[Try]] = defaultdict(list)
    for one in scores(archive, whole):
        if one.side is not None:
            lines[one.bout].append(one)
    for row in archive.db.execute(f"{_BOUTS} WHERE {where} ORDER BY b.id", values):
        bout = _Bout(*row)
        if lines[bout.id]:
            yield bout, lines[bout.id]


def _trailed(bout: _Bout, lines: list[Try]) -> dict[str, tuple[bool, int]]:
    """By side whether it was ever behind, and by how many points at most (0 in classes)."""
    score: dict[str, Tally] = {}
    found = dict.fromkeys(bout.sides, (False, 0))
    for one in lines:
        if one.side not in bout.sides:
            continue
        score[one.side] = _added(score.get(one.side, Tally()), one)
        for side in bout.sides:
            stands = standing(score, bout.sides, side)
            behind, by = found[side]
            if stands.sign is not None and stands.sign < 0:
                found[side] = True, max(by, -(stands.lead or 0))
            else:
                found[side] = behind, by
    return found


def _added(tally: Tally, one: Try) -> Tally:
    if one.score_class is None:
        return tally.model_copy(update={"points": (tally.points or 0) + (one.points or 0)})
    name = one.score_class.replace("-", "_")
    return tally.model_copy(update={name: (getattr(tally, name) or 0) + 1})


def _table(ask: Ask, unit: str, names: tuple[str, ...], cases: list[_Case]) -> Table:
    taken = [case for case in cases if case.sure >= ask.sure]
    groups: dict[tuple[str, str], list[_Case]] = defaultdict(list)
    for case in taken:
        for key in case.keys:
            groups[key].append(case)
    lines = (_line(ask, key, unit, groups[key]) for key in sorted(groups, key=_order))
    return Table(
        ask=ask, unit=unit, names=names,
        lines=tuple(line for line in lines if line.rests_on >= ask.least),
        rests_on=len(taken), left_out=len(cases) - len(taken), placeless=0,
        bouts=len({case.bout.id for case in taken}),
        recordings=len({case.bout.recording for case in taken}), overlapping=True,
    )  # fmt: skip


def _line(ask: Ask, key: tuple[str, str], unit: str, cases: list[_Case]) -> Line:
    of = sum(case.sure if ask.weighted else 1.0 for case in cases)
    won = sum((case.sure if ask.weighted else 1.0) for case in cases if case.won)
    return Line(
        keys=key[:1], labels=key[1:], rests_on=len(cases), counts={unit: of, "won": won},
        rates={"won": wilson(won, of)},
    )  # fmt: skip


def _order(key: tuple[str, str]) -> tuple[int, int, str]:
    """The line of all first, then by number or name."""
    whole = key[0] in ("all", "behind")
    return not whole, int(key[0]) if key[0].isdigit() else 0, key[0]
