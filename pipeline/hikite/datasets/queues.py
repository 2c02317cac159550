"""What to have a person look at next, across an archive: what teaches most, first.

What an entry teaches is how unsure it is (the entropy of its being right throughout), more so where its
concept is rare in the archive; that two people disagree on it comes before all.
"""

import csv
import heapq
import io
import math
from collections import Counter
from collections.abc import Iterator

from pydantic import BaseModel

from hikite.archive import Archive
from hikite.archive.anchors import attach
from hikite.archive.decisions import Decision
from hikite.archive.kept import entry_of
from hikite.archive.searches.hits import moment_link

_DISAGREED = 2.0
_EVENTS = """
    SELECT e.id, e.recording, e.bout, e.number, r.title, r.address, e.start_ms, e.end_ms, e.kind, e.concept,
        e.status, e.side, e.words, e.confidence, e.side_confidence, e.status_confidence
    FROM events e JOIN recordings r ON r.id = e.recording ORDER BY e.id
"""


class Due(BaseModel, frozen=True, extra="forbid"):
    """An entry to look at. ``uncertainty`` is in bits, ``rarity`` is 1 for a concept met once and falls to 0.

    ``disagreement`` is the share of pairs of reviewers who do not say the same; ``weight`` orders the queue.
    """

    weight: float
    uncertainty: float
    rarity: float
    disagreement: float
    recording: int
    title: str | None
    entry: str
    start_ms: int
    end_ms: int
    link: str | None
    kind: str
    concept: str
    status: str
    side: str | None
    words: str
    confidence: float
    side_confidence: float
    status_confidence: float


def queue_of(archive: Archive, count: int) -> tuple[Due, ...]:
    """The entries that teach most, at most so many: undecided ones, and those that reviewers disagree on."""
    with archive.looking() as db:
        named = Counter(dict(db.execute("SELECT concept, count(*) FROM events GROUP BY concept")))
        disagreed = _disagreed(archive)
        ranked = heapq.nlargest(
            count, _weighed(archive, named, disagreed), key=lambda one: (one[0], -one[1][0])
        )
        return tuple(_due(row, named, disagreed) for _, row in ranked)


def as_csv(queue: tuple[Due, ...]) -> str:
    """One entry a row (RFC 4180)."""
    text = io.StringIO()
    table = csv.DictWriter(text, list(Due.model_fields))
    table.writeheader()
    table.writerows(one.model_dump() for one in queue)
    return text.getvalue()


def entropy(chance: float) -> float:
    """The uncertainty of a yes or no, in bits: 1 at even chances, 0 where it is certain."""
    if not 0 < chance < 1:
        return 0.0
    return -chance * math.log2(chance) - (1 - chance) * math.log2(1 - chance)


Row = tuple[
    int, int, int, int, str | None, str | None, int, int, str, str, str, str | None, str, float, float, float
]


def _weighed(
    archive: Archive, named: Counter[str], disagreed: dict[int, float]
) -> Iterator[tuple[float, Row]]:
    for row in archive.db.execute(_EVENTS):
        if disagreed.get(row[0]) != 0:
            yield _weight(row, named, disagreed), row


def _weight(row: Row, named: Counter[str], disagreed: dict[int, float]) -> float:
    rarity = 1 / math.sqrt(named[row[9]])
    return entropy(_right(row)) * (1 + rarity) + _DISAGREED * disagreed.get(row[0], 0.0)


def _right(row: Row) -> float:
    """P(right throughout), taking that, whose it was and how it went as independent."""
    return row[13] * (row[14] if row[11] else 1.0) * row[15]


def _due(row: Row, named: Counter[str], disagreed: dict[int, float]) -> Due:
    id_, recording, bout, number, title, address, start_ms, end_ms, kind, concept, status, side, words = row[
        :13
    ]
    return Due(
        weight=round(_weight(row, named, disagreed), 4),
        uncertainty=round(entropy(_right(row)), 4),
        rarity=round(1 / math.sqrt(named[concept]), 4),
        disagreement=round(disagreed.get(id_, 0.0), 4),
        recording=recording,
        title=title,
        entry=entry_of(bout, number),
        start_ms=start_ms,
        end_ms=end_ms,
        link=moment_link(address, start_ms, end_ms) if address else None,
        kind=kind,
        concept=concept,
        status=status,
        side=side,
        words=words,
        confidence=row[13],
        side_confidence=row[14],
        status_confidence=row[15],
    )


def _disagreed(archive: Archive) -> dict[int, float]:
    """By event that somebody decided on, the share of pairs of reviewers whose last words differ."""
    found: dict[int, float] = {}
    known = archive.db.execute("SELECT DISTINCT sha256 FROM decisions").fetchall()
    for recording in {archive.recording_of(sha256) for (sha256,) in known} - {None}:
        assert recording is not None
        latest: dict[int, dict[str, Decision]] = {}
        for one in attach(archive, recording):
            if one.event is not None:
                latest.setdefault(one.event.id, {})[one.decision.reviewer] = one.decision
        for event, by in latest.items():
            found[event] = _differing([_verdict(decision) for decision in by.values()])
    return found


def _verdict(decision: Decision) -> str:
    return f"{decision.kind} {decision.change.model_dump_json(exclude={'note'}, exclude_unset=True)}"


def _differing(verdicts: list[str]) -> float:
    pairs = len(verdicts) * (len(verdicts) - 1) / 2
    same = sum(count * (count - 1) / 2 for count in Counter(verdicts).values())
    return (pairs - same) / pairs if pairs else 0.0
