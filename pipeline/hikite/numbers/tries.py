"""Tries and lines of the score as an archive holds them, with how sure each is."""

from collections.abc import Iterator
from typing import NamedTuple

from hikite.archive import Archive
from hikite.archive.folding import folded
from hikite.archive.searches.namings import naming
from hikite.numbers.asking import Ask

_TRY = """
    e.kind IN ('technique', 'hold') AND e.status NOT IN ('recalled', 'supposed', 'described', 'denied')
    AND (e.status IN ('attempted', 'completed', 'failed') AND e.head
        OR e.gained IS NOT NULL OR e.gained_class IS NOT NULL)
"""
_SCORE = "e.counts AND coalesce(e.score_class, '') <> 'shido' AND e.status <> 'denied'"
_COLUMNS = """
    SELECT e.recording, e.bout, e.concept, e.status, e.person, p.name, e.side, e.grips,
        CASE WHEN e.counts THEN e.points ELSE e.gained END,
        CASE WHEN e.counts THEN e.score_class ELSE e.gained_class END,
        e.clock_best_s, coalesce(e.golden, 0), b.duration_s, b.ruleset, b.ruleset_confidence,
        e.confidence, e.side_confidence, e.status_confidence
    FROM events e JOIN bouts b ON b.id = e.bout LEFT JOIN people p ON p.id = e.person
"""


class Try(NamedTuple):
    """One try of a technique, or one line of the score."""

    recording: int
    bout: int
    concept: str
    status: str
    person: int | None
    name: str | None
    side: str | None
    grips: str
    points: int | None
    score_class: str | None
    clock_s: float | None
    golden: int
    duration_s: int | None
    ruleset: str
    ruleset_confidence: float
    confidence: float
    side_confidence: float
    status_confidence: float

    @property
    def scored(self) -> bool:
        """Whether it brought a score."""
        return self.points is not None or self.score_class is not None

    @property
    def completed(self) -> bool:
        """Whether it came off: it is said to have, or it brought a score."""
        return self.status == "completed" or self.scored

    @property
    def minute(self) -> tuple[int, str] | None:
        """The minute of the bout it fell in, from 1, by the match clock; golden score stands after all."""
        if self.golden:
            return 1000, "golden score"
        if self.clock_s is None or self.duration_s is None:
            return None
        # The last second belongs to the last minute; a clock that was heard too high to the first.
        elapsed = min(max(self.duration_s - self.clock_s, 0.0), self.duration_s - 0.001)
        at = int(elapsed // 60) + 1
        return at, f"{at - 1}:00–{at}:00"


def tries(archive: Archive, ask: Ask) -> Iterator[Try]:
    """Every try that was made, not merely spoken of, and meets the conditions but ``sure``."""
    yield from _asked(archive, ask, _TRY)


def scores(archive: Archive, ask: Ask) -> Iterator[Try]:
    """Every line of the score, penalties that bring nobody points left out."""
    yield from _asked(archive, ask, _SCORE)


def bout_conditions(ask: Ask) -> tuple[list[str], list[object]]:
    """The conditions on the bout ``b`` and its recording, with their values."""
    terms: list[str] = []
    values: list[object] = []
    if ask.rules is not None:
        terms.append("b.ruleset = ?")
        values.append(ask.rules)
    for sign, day in ((">=", ask.since), ("<=", ask.until)):
        if day is not None:
            terms.append(f"b.recording IN (SELECT id FROM recordings WHERE date {sign} ?)")
            values.append(day)
    return terms, values


def people_called(archive: Archive, who: str) -> tuple[int, ...]:
    """The athletes whose names have all these words, case and accents aside."""
    words = folded(who).split()
    rows = archive.db.execute("SELECT id, folded FROM people ORDER BY id")
    return tuple(id_ for id_, name in rows if words and set(words) <= set(name.split()))


def _asked(archive: Archive, ask: Ask, which: str) -> Iterator[Try]:
    terms, values = bout_conditions(ask)
    if ask.what is not None:
        meant = naming(archive, ask.what).meant
        terms.append(f"e.concept IN ({', '.join('?' * len(meant))})")
        values += meant
    if ask.who is not None:
        people = people_called(archive, ask.who)
        terms.append(f"e.person IN ({', '.join('?' * len(people))})")
        values += people
    where = " AND ".join([f"({which})", *terms])
    for row in archive.db.execute(f"{_COLUMNS} WHERE {where} ORDER BY e.id", values):
        yield Try(*row)
