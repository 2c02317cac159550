"""What people settled, as labelled data: each confidence that was told, and whether it was right."""

import csv
import io
from collections.abc import Iterator

from pydantic import BaseModel

from hikite.archive import Archive
from hikite.archive.anchors import Attached, attach
from hikite.archive.decisions import Decision
from hikite.archive.kept import KeptEvent
from hikite.evaluate.calibrations import Guess

_JUDGED = frozenset({"accept", "correct", "reject", "same"})
_LINE = ("kind", "concept", "side", "status", "points", "score_class")
COLUMNS = ("recording", "entry", "start_ms", "about", "probability", "right")


class Settled(BaseModel, frozen=True, extra="forbid"):
    """One confidence of one entry that a person settled: what it was about, and whether it was right."""

    recording: int
    entry: str
    start_ms: int
    about: str
    probability: float
    right: bool

    @property
    def guess(self) -> Guess:
        """As the figures of `hikite evaluate` take it."""
        return Guess(about=self.about, probability=self.probability, right=self.right)


def settled(archive: Archive, reviewer: str | None = None) -> tuple[Settled, ...]:
    """All that one reviewer settled, or all of them; entries of which their last words differ are left out.

    Of an entry it is asked whether it was there as named (a line of the score: as it stands), and of one that
    was, whether side and status were right. Told are the confidences of the reading that is kept now: after
    the recordings were read anew, they are those of the new reading.
    """
    with archive.looking():
        recordings = [
            number
            for (number,) in archive.db.execute(
                "SELECT DISTINCT r.id FROM decisions d JOIN recordings r ON r.sha256 = d.sha256 ORDER BY 1"
            )
        ]
        return tuple(one for number in recordings for one in _of(number, attach(archive, number, reviewer)))


def as_csv(found: tuple[Settled, ...]) -> str:
    """One line a confidence."""
    text = io.StringIO()
    out = csv.DictWriter(text, COLUMNS, lineterminator="\n")
    out.writeheader()
    out.writerows({**one.model_dump(), "right": int(one.right)} for one in found)
    return text.getvalue()


def _of(number: int, attached: tuple[Attached, ...]) -> Iterator[Settled]:
    events: dict[int, KeptEvent] = {}
    last: dict[int, dict[str, Decision]] = {}
    for one in attached:
        if one.event is not None and one.decision.kind in _JUDGED:
            events[one.event.id] = one.event
            last.setdefault(one.event.id, {})[one.decision.reviewer] = one.decision
    for id_, event in sorted(events.items()):
        verdicts = {tuple(_verdicts(event, said)) for said in last[id_].values()}
        for about, probability, right in verdicts.pop() if len(verdicts) == 1 else ():
            yield Settled(
                recording=number, entry=event.entry, start_ms=event.start_ms, about=about,
                probability=probability, right=right,
            )  # fmt: skip


def _verdicts(event: KeptEvent, said: Decision) -> Iterator[tuple[str, float, bool]]:
    """What a decision says of each confidence of its event."""
    given = said.change.given if said.kind == "correct" else {}
    wrong = {name for name in _LINE if name in given and given[name] != getattr(event, name)}
    if event.counts:
        yield "counted event", event.confidence, said.kind == "accept" or (bool(given) and not wrong)
        return
    there = said.kind != "reject" and not wrong & {"kind", "concept"}
    yield event.kind, event.confidence, there
    if there and event.side:
        yield "side", event.side_confidence, "side" not in wrong
    if there:
        yield "status", event.status_confidence, "status" not in wrong and said.kind != "same"
