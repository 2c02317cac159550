"""One recording as something to learn from: its text, and the entries that are its labels."""

from collections.abc import Iterator
from typing import NamedTuple

from hikite.archive import Archive
from hikite.archive.anchors import attach
from hikite.archive.kept import KeptRecording
from hikite.archive.revisions import revised
from hikite.datasets.plans import Part, Plan
from hikite.datasets.splits import Split
from hikite.outputs import record_of
from hikite.outputs.entries import BoutRecord, Entry
from hikite.outputs.texts import Text
from hikite.process import Lexicon
from hikite.records import Recording


class Example(NamedTuple):
    """A recording with its part; ``entries`` are its labels, ``checked`` the ids that a person stands for.

    ``group`` is the number of the first recording that it hangs together with.
    """

    kept: KeptRecording
    part: Part
    group: int
    recording: Recording
    record: BoutRecord
    text: Text
    entries: tuple[Entry, ...]
    checked: frozenset[str]


def examples(archive: Archive, split: Split, plan: Plan, lexicon: Lexicon) -> Iterator[Example]:
    """Every recording of the split, in the order they came."""
    for kept in archive.recordings():
        if kept.id not in split.parts:
            continue
        recording = archive.reading(kept.id)
        if not plan.machine:
            attached = attach(archive, kept.id)
            recording = revised(recording, attached, lexicon) if attached else recording
        record = record_of(recording, lexicon)
        checked = _checked(recording)
        yield Example(
            kept=kept,
            part=split.parts[kept.id],
            group=split.groups[kept.id],
            recording=recording,
            record=record,
            text=Text(recording.transcript),
            entries=tuple(
                entry
                for bout in record.bouts
                for entry in bout.entries
                if entry.confidence >= plan.least or entry.id in checked
            ),
            checked=checked,
        )


def _checked(recording: Recording) -> frozenset[str]:
    """Ids of the entries that rest on a claim of their own kind that a person vouched for."""
    claims = recording.testimony.claims
    return frozenset(
        f"b{bout.number}.{number}"
        for bout in recording.ledger.bouts
        for number, event in enumerate(bout.events, 1)
        if any(claims[one].vouched and claims[one].kind == event.kind for one in event.claims)
    )
