"""A person's word in the record: taken as certain, reckoned anew, taken back without a trace."""

from pathlib import Path

import pytest

from hikite.archive import Archive
from hikite.archive.anchors import anchor_of, attach
from hikite.archive.decisions import Anchor, Change, decide, undo
from hikite.archive.keeping import keep_files
from hikite.archive.revisions import revised
from hikite.process import Lexicon, load_lexicon
from hikite.records import Recording

# An invented bout under sport sambo 2020; the score after the last throw is never said.
TALK = """WEBVTT

00:01.000 --> 00:05.000
Here we go, Marrow in red, Teale in blue.

00:10.000 --> 00:14.000
Marrow with the hip throw, onto the side, that's two for red.

00:40.000 --> 00:44.000
Teale takes the back, foot sweep, down goes red.

00:45.000 --> 00:48.000
Four points for blue.

01:20.000 --> 01:24.000
Marrow tries the shoulder throw, blocked.
"""
SHEET = """ruleset = "sambo.sport.2020"
[[competitors]]
side = "red"
name = "Marrow"
[[competitors]]
side = "blue"
name = "Teale"
"""


@pytest.fixture(scope="module")
def lexicon() -> Lexicon:
    return load_lexicon()


@pytest.fixture
def archive(tmp_path: Path):
    file = tmp_path / "bout.vtt"
    file.write_text(TALK, "utf-8")
    file.with_name("bout.vtt.sheet.toml").write_text(SHEET, "utf-8")
    with Archive.open(tmp_path / "bouts.archive", write=True) as opened:
        keep_files(opened, (file,))
        yield opened


def final(recording: Recording) -> dict[str, int | None]:
    return {side: tally.points for side, tally in recording.ledger.bouts[0].final.items()}


def now(archive: Archive, lexicon: Lexicon) -> Recording:
    return revised(archive.reading(1), attach(archive, 1), lexicon)


def event(archive: Archive, kind: str, side: str, *, counts: bool = False) -> int:
    found = [e for e in archive.events(1) if (e.kind, e.side, e.counts) == (kind, side, counts)]
    return found[0].id


def test_the_machines_reading_is_untouched_without_decisions(archive: Archive, lexicon: Lexicon) -> None:
    reading = archive.reading(1)
    assert final(reading) == {"red": 2, "blue": 4}
    assert revised(reading, (), lexicon) is reading


# The score follows what a person says of one line of it: points, side, that it never was.
@pytest.mark.parametrize(
    ("kind", "change", "expected"),
    [
        ("correct", Change(points=1), {"red": 2, "blue": 1}),
        ("correct", Change(side="red"), {"red": 6, "blue": 0}),
        ("accept", None, {"red": 2, "blue": 4}),
    ],
)
def test_score_follows(archive: Archive, lexicon: Lexicon, kind, change, expected) -> None:
    made = decide(
        archive, "Odrun", kind, anchor_of(archive, event(archive, "score", "blue", counts=True)), change
    )
    reading = now(archive, lexicon)
    assert final(reading) == expected
    assert reading.ledger.bouts[0].final_confidence >= archive.reading(1).ledger.bouts[0].final_confidence
    undo(archive, made.id, "Odrun")
    assert now(archive, lexicon) == archive.reading(1)


def test_rejected_is_no_longer_claimed(archive: Archive, lexicon: Lexicon) -> None:
    score = event(archive, "score", "blue", counts=True)
    decide(archive, "Odrun", "reject", anchor_of(archive, score))
    reading = now(archive, lexicon)
    assert not [c for c in reading.testimony.claims if c.kind == "score" and c.side == "blue"]
    assert len(reading.testimony.claims) == len(archive.reading(1).testimony.claims) - 1


def test_added_where_it_was_said(archive: Archive, lexicon: Lexicon) -> None:
    digest = archive.reading(1).transcript.sha256
    place = Anchor(sha256=digest, at_ms=81_000, words="the shoulder throw")
    decide(archive, "Odrun", "add", place, Change(kind="score", concept="points", points=1, side="red"))
    reading = now(archive, lexicon)
    assert final(reading) == {"red": 3, "blue": 4}
    added = next(claim for claim in reading.testimony.claims if claim.vouched)
    assert reading.talk.words(added.first, added.stop) == "the shoulder throw"


def test_a_corrected_name_is_certain(archive: Archive, lexicon: Lexicon) -> None:
    throw = event(archive, "technique", "red")
    decide(archive, "Odrun", "correct", anchor_of(archive, throw), Change(concept="o-goshi", status="failed"))
    changed = [claim for claim in now(archive, lexicon).testimony.claims if claim.vouched]
    assert [(one.concept, one.status, one.confidence) for one in changed] == [("o-goshi", "failed", 1.0)]


def test_bouts_are_split_and_joined(archive: Archive, lexicon: Lexicon) -> None:
    border = Anchor(sha256=archive.reading(1).transcript.sha256, at_ms=75_000)
    decide(archive, "Odrun", "split", border)
    assert [bout.start_ms < 75_000 for bout in now(archive, lexicon).ledger.bouts] == [True, False]
