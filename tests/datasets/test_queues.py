"""What is disputed, unsure and rare comes first; what people agree on does not come at all."""

import csv
import io

import pytest

from hikite.archive.anchors import anchor_of
from hikite.archive.decisions import Change, decide, undo
from hikite.datasets.queues import Due, as_csv, entropy, queue_of


# C. E. Shannon, A Mathematical Theory of Communication (1948), section 6: H is 1 at even chances, 0 at
# certainty; H(1/4) = 2 - 3/4 log2 3.
@pytest.mark.parametrize(
    ("chance", "bits"), [(0.5, 1.0), (0.25, 0.811278), (0.75, 0.811278), (0.0, 0.0), (1.0, 0.0)]
)
def test_entropy(chance, bits):
    assert entropy(chance) == pytest.approx(bits, abs=1e-6)


def test_in_order_of_weight(archive):
    queue = queue_of(archive, 10_000)
    assert len(queue) == sum(1 for _ in archive.events())
    weights = [one.weight for one in queue]
    assert weights == sorted(weights, reverse=True)
    assert queue_of(archive, 5) == queue[:5]
    for one in queue[:50]:
        assert one.weight == pytest.approx(one.uncertainty * (1 + one.rarity), abs=2e-4)


# Of two that are as unsure the rarer one is first.
def test_rare_before_common(archive):
    named = {}
    for event in archive.events():
        named[event.concept] = named.get(event.concept, 0) + 1
    for one in queue_of(archive, 10_000):
        assert one.rarity == pytest.approx(named[one.concept] ** -0.5, abs=1e-4)


def test_what_is_decided_leaves_and_what_is_disputed_leads(own):
    last = queue_of(own, 10_000)[-1]
    event = next(e for e in own.events(last.recording) if e.entry == last.entry)
    decide(own, "Odrun", "accept", anchor_of(own, event.id))
    assert event.id not in ids(own)
    decide(own, "Perin", "accept", anchor_of(own, event.id))
    assert event.id not in ids(own)
    made = decide(own, "Perin", "correct", anchor_of(own, event.id), Change(side="blue"))
    first = queue_of(own, 1)[0]
    assert (first.recording, first.entry, first.disagreement) == (last.recording, last.entry, 1.0)
    undo(own, made.id, "Perin")
    assert event.id not in ids(own)


def ids(archive):
    numbers = {(e.recording, e.entry): e.id for e in archive.events()}
    return {numbers[one.recording, one.entry] for one in queue_of(archive, 10_000)}


def test_csv(archive):
    queue = queue_of(archive, 20)
    rows = list(csv.DictReader(io.StringIO(as_csv(queue), newline="")))
    assert list(rows[0]) == list(Due.model_fields)
    assert [row["entry"] for row in rows] == [one.entry for one in queue]
