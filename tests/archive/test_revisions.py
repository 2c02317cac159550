"""A person's word in the record: taken as certain, reckoned anew, taken back without a trace."""

from pathlib import Path

import pytest

from hikite.archive import Archive
from hikite.archive.anchors import Attached, anchor_of, attach
from hikite.archive.decisions import Anchor, Change, Decision, decide, undo
from hikite.archive.keeping import keep_files
from hikite.archive.revisions import revised
from hikite.process import Lexicon, load_lexicon
from hikite.records import Event, Recording

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


SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.fixture(scope="module")
def samples(tmp_path_factory: pytest.TempPathFactory):
    with Archive.open(tmp_path_factory.mktemp("certain") / "bouts.archive", write=True) as opened:
        keep_files(opened, tuple(SAMPLES / name for name in ("final-79kg.vtt", "quarter-final-87kg.json")))
        yield opened


def vouched(recording: Recording, kind: str) -> list[Event]:
    claims = recording.testimony.claims
    events = (event for bout in recording.ledger.bouts for event in bout.events)
    return [
        event
        for event in events
        if event.kind == kind and any(claims[n].vouched and claims[n].kind == kind for n in event.claims)
    ]


# A person's word holds against whatever else is said: later scores, denials, the ladder of a penalty. Asked
# of every line of two samples, with values that an action has and that none has and with either side.
def test_a_line_that_a_person_corrected_stands_so(samples: Archive, lexicon: Lexicon) -> None:
    asked = 0
    for kept in samples.recordings():
        reading = samples.reading(kept.id)
        for event in (one for one in samples.events(kept.id) if one.counts and one.kind == "score"):
            other = "red" if event.side == "blue" else "blue"
            said = [Change(points=points) for points in (1, 2, 3, 4, 5)] + [Change(side=other), Change()]
            for change in said:
                decision = Decision(
                    id=1, reviewer="Odrun", made_at="", kind="correct", change=change,
                    anchor=anchor_of(samples, event.id),
                )  # fmt: skip
                after = revised(reading, (Attached(decision=decision, event=event),), lexicon)
                wanted = {"side": event.side, "points": event.points, **change.given}
                lines = [(one.side, one.points) for one in vouched(after, "score") if one.counts]
                assert (wanted["side"], wanted["points"]) in lines, (event.entry, change.given)
                asked += 1
    assert asked > 50


def test_a_throw_stays_with_whom_a_person_gave_it_to(samples: Archive, lexicon: Lexicon) -> None:
    for kept in samples.recordings():
        reading = samples.reading(kept.id)
        throws = (one for one in samples.events(kept.id) if one.kind == "technique" and one.side)
        for event in throws:
            side = "red" if event.side == "blue" else "blue"
            decision = Decision(
                id=1, reviewer="Odrun", made_at="", kind="correct", change=Change(side=side),
                anchor=anchor_of(samples, event.id),
            )  # fmt: skip
            after = revised(reading, (Attached(decision=decision, event=event),), lexicon)
            assert [one.side for one in vouched(after, "technique")] == [side], event.entry


# Two like scores a few seconds apart are one said twice, unless a person says that one was missed.
def test_what_is_added_is_one_more(archive: Archive, lexicon: Lexicon) -> None:
    digest = archive.reading(1).transcript.sha256
    place = Anchor(sha256=digest, at_ms=46_000, words="four points")
    for _ in range(2):
        decide(archive, "Odrun", "add", place, Change(kind="score", concept="points", points=4, side="blue"))
    assert final(now(archive, lexicon)) == {"red": 2, "blue": 12}


# The winner a person names is the winner, whatever the score says.
def test_a_winner_is_certain(archive: Archive, lexicon: Lexicon) -> None:
    digest = archive.reading(1).transcript.sha256
    place = Anchor(sha256=digest, at_ms=83_000, words="blocked")
    decide(archive, "Odrun", "add", place, Change(kind="result", concept="points", side="red"))
    result = now(archive, lexicon).ledger.bouts[0].result
    assert (result.winner, result.by) == ("red", "points")
    assert result.confidence > 0.99


# More cautions than put a side out under the rules: those beyond are left out, the bout is told all the same.
def test_more_than_the_rules_allow(archive: Archive, lexicon: Lexicon) -> None:
    digest = archive.reading(1).transcript.sha256
    for at in range(5):
        place = Anchor(sha256=digest, at_ms=11_000 + at * 100, words="hip throw")
        told = Change(kind="penalty", concept="caution", side="red")
        decide(archive, "Odrun", "add", place, told)
    bout = now(archive, lexicon).ledger.bouts[0]
    assert (bout.result.winner, bout.result.by) == ("blue", "disqualification")
