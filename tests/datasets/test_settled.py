"""What reviewers settled as labelled data: each confidence with its outcome, disputed ones left out."""

import csv
import io

from hikite.archive import Archive
from hikite.archive.anchors import anchor_of
from hikite.archive.decisions import Change, decide
from hikite.archive.kept import KeptEvent
from hikite.datasets.settled import as_csv, settled
from hikite.evaluate.calibrations import reliability


def some(archive: Archive, number: int, *, counts: bool = False) -> list[KeptEvent]:
    kind = "score" if counts else "technique"
    events = [one for one in archive.events() if (one.kind, one.counts) == (kind, counts) and one.side]
    return events[:number]


def told(archive: Archive, by: str | None = None) -> dict[tuple[int, str, str], tuple[float, bool]]:
    return {
        (one.recording, one.entry, one.about): (one.probability, one.right) for one in settled(archive, by)
    }


# What is asked of a decision: was it there, whose was it, how did it go; of what was not there, no more.
def test_each_confidence_with_its_outcome(own: Archive) -> None:
    right, named, whose, gone = some(own, 4)
    decide(own, "Odrun", "accept", anchor_of(own, right.id))
    decide(own, "Odrun", "correct", anchor_of(own, named.id), Change(concept="tomoe-nage"))
    decide(own, "Odrun", "correct", anchor_of(own, whose.id), Change(side=None))
    decide(own, "Odrun", "reject", anchor_of(own, gone.id))
    expected = {}
    for event, kinds in (
        (right, {"technique": True, "side": True, "status": True}),
        (named, {"technique": False}),
        (whose, {"technique": True, "side": False, "status": True}),
        (gone, {"technique": False}),
    ):
        sure = {
            "technique": event.confidence, "side": event.side_confidence, "status": event.status_confidence,
        }  # fmt: skip
        expected |= {(event.recording, event.entry, about): (sure[about], ok) for about, ok in kinds.items()}
    assert told(own) == expected


# A line of the score is right as a whole or not at all.
def test_lines_of_the_score(own: Archive) -> None:
    right, worth = some(own, 2, counts=True)
    decide(own, "Odrun", "accept", anchor_of(own, right.id))
    decide(own, "Odrun", "correct", anchor_of(own, worth.id), Change(points=(worth.points or 0) + 1))
    assert [(one.about, one.right) for one in settled(own)] == [
        ("counted event", True), ("counted event", False),
    ]  # fmt: skip


# The last word counts; where two reviewers' last words differ, nothing is settled but by one of them.
def test_disputed_is_not_settled(own: Archive) -> None:
    (event,) = some(own, 1)
    anchor = anchor_of(own, event.id)
    decide(own, "Odrun", "accept", anchor)
    decide(own, "Perin", "reject", anchor)
    assert settled(own) == ()
    assert [one.right for one in settled(own, "Perin")] == [False]
    decide(own, "Perin", "accept", anchor)
    assert [one.right for one in settled(own)] == [True, True, True]


def test_they_feed_the_figures_and_a_table(own: Archive) -> None:
    for event in some(own, 6):
        decide(own, "Odrun", "accept", anchor_of(own, event.id))
    found = settled(own)
    bins = reliability([one.guess for one in found], 5)
    assert sum(one.guesses for one in bins) == len(found) == 18
    assert all(one.right == 1.0 for one in bins)
    rows = list(csv.DictReader(io.StringIO(as_csv(found))))
    assert [(row["entry"], float(row["probability"]), row["right"]) for row in rows] == [
        (one.entry, one.probability, "1") for one in found
    ]
