"""A recording as verses and notes: nothing of the talk is lost, notes stand at their words."""

import re
import time
from html import unescape
from pathlib import Path

import pytest
from rooms import AT, FINAL, MARKUP, seal, sign
from starlette.testclient import TestClient

from hikite.archive import Archive
from hikite.archive.anchors import attach, find_event
from hikite.archive.decisions import Anchor, Change, decide
from hikite.archive.derivations.deriving import loaded
from hikite.archive.keeping import keep_files
from hikite.archive.revisions import revised
from hikite.web import Arrangement, reading_room
from hikite.web.layouts import laid_out
from hikite.web.origins import Origins
from hikite.web.rooms import Room
from hikite.web.verses import grade_of


@pytest.fixture
def opened(archive: Path):
    with Archive.open(archive, write=True) as found:
        yield found


# Every character of every caption is on the page, in order: opening quotes and brackets too.
@pytest.mark.parametrize("number", [FINAL, MARKUP])
def test_the_whole_talk_is_there(opened: Archive, number: int) -> None:
    recording = opened.reading(number)
    chapters = laid_out(recording, loaded())
    shown = "".join(
        word.text
        for chapter in chapters
        for verse in chapter.verses
        for run in verse.runs
        for word in run.words
    )
    said = " ".join(cue.text for cue in recording.transcript.cues)
    assert "".join(shown.split()) == "".join(said.split())


def test_words_have_the_times_they_were_said_at(opened: Archive) -> None:
    recording = opened.reading(FINAL)
    times = [
        word.at_ms
        for chapter in laid_out(recording, loaded())
        for verse in chapter.verses
        for run in verse.runs
        for word in run.words
    ]
    assert times == sorted(times)
    assert set(times) <= {token.start_ms for token in recording.talk.tokens}


def test_every_event_has_one_note_with_its_words(opened: Archive) -> None:
    recording = opened.reading(FINAL)
    events = tuple(opened.events(FINAL))
    notes = [
        note for chapter in laid_out(recording, loaded(), (), Origins(events, ())) for note in chapter.notes
    ]
    assert sorted(note.event for note in notes if note.event) == [event.id for event in events]
    assert {note.entry for note in notes} == {event.entry for event in events}
    told = {event.id: event for event in events}
    assert all(note.words == told[note.event].words for note in notes if note.event)
    plain = Room(Arrangement(archive=opened.file)).reading(opened, FINAL, None)
    assert plain
    assert [note.event for chapter in plain.chapters for note in chapter.notes] == [
        note.event for note in notes
    ]


# What a correction moved, renamed or called is still the machine's event; what was added is none.
@pytest.mark.parametrize(
    ("kind", "counts", "change"),
    [
        ("technique", False, Change(concept="o-goshi")),
        ("technique", False, Change(start_ms=75_000)),
        ("technique", False, Change(side="red", status="failed")),
        ("score", True, Change(points=1)),
        ("score", True, Change(side="red")),
    ],
)
def test_a_changed_note_goes_back_to_its_event(
    opened: Archive, kind: str, counts: bool, change: Change
) -> None:
    events = tuple(opened.events(FINAL))
    event = next(one for one in events if (one.kind, one.counts) == (kind, counts) and one.side == "blue")
    anchor = Anchor(
        sha256=opened.reading(FINAL).transcript.sha256, at_ms=event.start_ms, words=event.words,
        kind=event.kind, concept=event.concept, side=event.side,
    )  # fmt: skip
    assert find_event(anchor, events) == event
    made = decide(opened, "Odrun", "correct", anchor, change)
    attached = attach(opened, FINAL, "Odrun")
    recording = revised(opened.reading(FINAL), attached, loaded())
    notes = [
        note
        for chapter in laid_out(recording, loaded(), attached, Origins(events, attached))
        for note in chapter.notes
    ]
    mine = [note for note in notes if note.event == event.id]
    assert mine
    assert mine[0].decision == made.id
    assert mine[0].grade == "vouched"
    for name, value in change.given.items():
        assert getattr(mine[0], name) == value


@pytest.mark.parametrize(
    ("confidence", "grade"),
    [(1.0, "sure"), (0.9, "sure"), (0.899, "likely"), (0.75, "likely"), (0.5, "doubtful"), (0.49, "guess")],
)
def test_grades(confidence: float, grade: str) -> None:
    assert grade_of(confidence) == grade


def test_the_page_tells_bout_score_and_notes(client: TestClient) -> None:
    page = unescape(client.get(f"/recordings/{FINAL}").text)
    assert "Ilmar Destrow against Rafe Pennaluk" in page
    standings = re.findall(r'class="standing"><span class="hid">score now </span>([^<]*)<', page)
    assert standings == ["0–2", "4–2", "4–3"]
    # Each number in the text leads to a note, and each note back.
    assert set(re.findall(r'href="#(n-b[\d.]+)"', page)) <= set(re.findall(r'id="(n-b[\d.]+)"', page))
    assert "clock 3:50" not in page
    assert "clock 3:50" in client.get(f"/recordings/{FINAL}?all=1").text


def test_what_does_not_add_up_is_told(client: TestClient, opened: Archive) -> None:
    clashes = [clash.problem for bout in opened.reading(FINAL).ledger.bouts for clash in bout.contradictions]
    page = unescape(client.get(f"/recordings/{FINAL}").text)
    assert all(problem in page for problem in clashes)
    assert ("What does not add up" in page) == bool(clashes)


def test_shelves(client: TestClient) -> None:
    assert "final, 79 kg" in client.get("/").text
    assert "final, 79 kg" in client.get("/?with=pennaluk").text
    assert "Nothing here" in client.get("/?with=nobody+of+this+name").text
    for page in ("0", "-1", "99", "x", "9" * 30):
        assert client.get("/", params={"page": page}).status_code == 200


@pytest.mark.parametrize(
    "path", ["/recordings/99", "/recordings/99/check", "/recordings/1/verse/999", "/recordings/1/record.tar"]
)
def test_what_is_not_there(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 404


@pytest.mark.parametrize(
    "form", ["json", "jsonl", "csv", "markdown", "captions", "chapters", "list", "spans"]
)
def test_the_record_to_take_away(client: TestClient, form: str) -> None:
    answer = client.get(f"/recordings/{FINAL}/record.{form}")
    assert answer.status_code == 200
    assert "attachment" in answer.headers["content-disposition"]
    assert len(answer.text) > 100


# The aim: the first page of a bout of 5,000 words within 300 ms of the server's own time.
def test_a_long_bout_comes_at_once(tmp_path: Path) -> None:
    said = (
        "Red takes the collar grip, blue tries a foot sweep, nothing comes of it for now. Hip throw from red."
    )
    lines, at = ["WEBVTT\n"], 0
    for number in range(250):
        lines.append(f"{_stamp(at)} --> {_stamp(at + 4)}\n{said} Number {number}.\n")
        at += 5
    (tmp_path / "long.vtt").write_text("\n".join(lines))
    with Archive.open(tmp_path / "long.archive", write=True) as archive:
        keep_files(archive, (tmp_path / "long.vtt",))
        assert len(archive.reading(1).talk.tokens) > 5_000
    with TestClient(reading_room(Arrangement(archive=tmp_path / "long.archive")), base_url=AT) as client:
        client.get("/signs")
        begun = time.process_time()
        page = client.get("/recordings/1")
        first = time.process_time() - begun
        assert page.status_code == 200
        sign(client, "Odrun")
        seal(client)
        begun = time.process_time()
        client.get("/recordings/1")
        again = time.process_time() - begun
    # Twice the aim is allowed for: the machine that tests is shared.
    assert first < 2 * 0.3, f"{first * 1000:.0f} ms"
    assert again < 2 * 0.3, f"{again * 1000:.0f} ms"


def _stamp(seconds: int) -> str:
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}.000"
