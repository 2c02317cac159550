"""Decisions made on the pages: what they change, what is told of it, whose they are."""

import re
import tomllib
from html import unescape
from pathlib import Path

import pytest
from rooms import AT, PLAIN, field, final, seal, send, sign
from starlette.testclient import TestClient

from hikite.archive import Archive
from hikite.archive.decisions import decisions_of
from hikite.datasets.agreements import kappa
from hikite.process import load_lexicon
from hikite.terms.aliases import read_aliases
from hikite.web import Arrangement, reading_room
from hikite.web.corrected_names import language_of
from hikite.web.pages.asked import ms_of
from hikite.web.queues import queue_of
from hikite.web.rooms import Room
from hikite.web.wordings import precise


@pytest.fixture
def odrun(client: TestClient) -> TestClient:
    sign(client, "Odrun")
    return client


def event(archive: Path, kind: str, **told: object) -> str:
    """The number of the first event of a kind of which this is told."""
    with Archive.open(archive) as opened:
        found = (one for one in opened.events(PLAIN) if one.kind == kind)
        return str(next(one.id for one in found if all(getattr(one, k) == v for k, v in told.items())))


def line(archive: Path) -> tuple[str, int]:
    """Blue's line of the score that was called at 1:03, and its points."""
    with Archive.open(archive) as opened:
        lines = [
            one for one in opened.events(PLAIN) if one.kind == "score" and one.counts and one.side == "blue"
        ]
    assert lines
    assert lines[0].points
    return str(lines[0].id), lines[0].points


def points(client: TestClient, **asked: str) -> tuple[int, int]:
    red, blue = final(client, PLAIN, **asked).split("–")
    return int(red), int(blue)


def check(client: TestClient, number: str, kind: str, **fields: str):
    page = client.get(f"/recordings/{PLAIN}/check/{number}").text
    told = {"kept": field(page, "kept"), "kind_of": kind, **fields}
    return send(client, f"/recordings/{PLAIN}/check/{number}", **told)


def changed(client: TestClient, answer) -> str:
    assert answer.status_code == 303, unescape(answer.text)
    page = client.get(answer.headers["location"]).text
    found = re.search(r'class="changed".*?</section>', page, re.DOTALL)
    assert found
    return unescape(" ".join(re.sub(r"<[^>]+>", " ", found[0]).split()))


def test_one_begins_with_what_most_needs_a_look(odrun: TestClient, archive: Path) -> None:
    answer = odrun.get(f"/recordings/{PLAIN}/check", follow_redirects=False)
    room = Room(Arrangement(archive=archive))
    with room.opened() as opened:
        reading = room.reading(opened, PLAIN, None)
    assert reading
    queue = queue_of(reading)
    assert answer.headers["location"].endswith(f"/check/{queue[0].note.event}")
    assert [due.weight for due in queue] == sorted((due.weight for due in queue), reverse=True)
    # Of two notes as unsure, the line of the score comes before the grip.
    grips = [due for due in queue if due.note.kind == "grip"]
    lines = [due for due in queue if due.note.counts and due.note.chance < 0.99]
    assert all(
        line.weight > grip.weight for line in lines for grip in grips if grip.note.chance >= line.note.chance
    )


def test_accepted_and_taken_back(odrun: TestClient, archive: Path) -> None:
    number = event(archive, "technique", side="blue")
    answer = check(odrun, number, "accept")
    assert f"/check/{number}?" not in answer.headers["location"]
    page = odrun.get(f"/recordings/{PLAIN}").text
    assert "accepted by Odrun" in page
    assert "Taken back" in changed(odrun, send(odrun, f"/recordings/{PLAIN}/undo"))
    assert "accepted by Odrun" not in odrun.get(f"/recordings/{PLAIN}").text
    assert send(odrun, f"/recordings/{PLAIN}/undo").status_code == 409


# The score follows at once, and the page says what is different.
def test_points_corrected(odrun: TestClient, archive: Path) -> None:
    before = points(odrun)
    number, was = line(archive)
    told = changed(odrun, check(odrun, number, "correct", points="2"))
    assert points(odrun) == (before[0], before[1] - was + 2)
    assert f"final score {before[0]}–{before[1]} is now {final(odrun)}" in told
    again = changed(odrun, check(odrun, number, "correct", points="4"))
    assert "final score" in again
    assert points(odrun) == (before[0], before[1] - was + 4)
    with Archive.open(archive) as opened:
        assert len(decisions_of(opened, PLAIN, "Odrun")) == 1
    # What is accepted is what the note says now, not what the machine once read.
    changed(odrun, check(odrun, number, "accept"))
    assert points(odrun) == (before[0], before[1] - was + 4)
    changed(odrun, send(odrun, f"/recordings/{PLAIN}/undo"))
    assert points(odrun) == before


def test_struck_out(odrun: TestClient, archive: Path) -> None:
    before = points(odrun)
    number, was = line(archive)
    told = changed(odrun, check(odrun, number, "reject"))
    assert points(odrun) == (before[0], before[1] - was)
    assert f"final score {before[0]}–{before[1]} is now {final(odrun)}" in told
    page = odrun.get(f"/recordings/{PLAIN}").text
    assert "struck out" in page
    decision = re.search(r'name="decision" value="(\d+)"', page)
    assert decision
    send(odrun, f"/recordings/{PLAIN}/undo", decision=decision[1], to=f"/recordings/{PLAIN}#v3")
    assert points(odrun) == before


# The name may be written in any way; the words are kept as one more name if so wished.
@pytest.mark.parametrize("name", ["o-goshi", "O goshi", "major hip throw"])
def test_the_name_corrected(odrun: TestClient, archive: Path, name: str) -> None:
    number = event(archive, "technique", concept="foot-sweep")
    changed(odrun, check(odrun, number, "correct", concept=name, alias="1"))
    with Archive.open(archive) as opened:
        assert [one.change.concept for one in decisions_of(opened, PLAIN)] == ["o-goshi"]
    file = Arrangement(archive=archive).alias_file
    told = tomllib.loads(file.read_text("utf-8"))["alias"]
    assert [(one["words"].lower(), one["concept"], one["who"]) for one in told] == [
        ("foot sweep", "o-goshi", "Odrun")
    ]
    concepts = load_lexicon().terms.concepts
    assert read_aliases(file, concepts)
    changed(odrun, send(odrun, f"/recordings/{PLAIN}/undo"))
    assert read_aliases(file, concepts) == ()


# A name is kept in the language it was typed in; a name of none, in that of the concept's own name.
@pytest.mark.parametrize(
    ("concept", "typed", "language"),
    [
        ("uchi-mata", "uchi mata", "ja"),
        ("uchi-mata", "uchi-mata (inner-thigh throw)", "ja"),
        ("uchi-mata", "Inner thigh throw", "en"),
        ("double-leg", "double leg", "en"),
        ("o-goshi", "qwrtzplk", "ja"),
    ],
)
def test_the_language_of_a_corrected_name(concept: str, typed: str, language: str) -> None:
    assert language_of(load_lexicon(), concept, typed) == language


@pytest.mark.parametrize(
    ("fields", "why"),
    [
        ({"concept": "qwrtzplk"}, "no name"),
        ({"time": "soon"}, "A time is like"),
        ({"status": "splendid"}, "status"),
        ({"points": "-1"}, "whole number"),
        ({"points": "²"}, "whole number"),
    ],
)
def test_what_cannot_be_taken_is_said(
    odrun: TestClient, archive: Path, fields: dict[str, str], why: str
) -> None:
    answer = check(odrun, event(archive, "technique", side="blue"), "correct", **fields)
    assert answer.status_code == 400
    assert why in unescape(answer.text)
    with Archive.open(archive) as opened:
        assert decisions_of(opened, PLAIN) == ()


# Fields that say what the note says already are a person's word for it.
def test_nothing_corrected_is_accepted(odrun: TestClient, archive: Path) -> None:
    number = event(archive, "technique", side="blue")
    changed(odrun, check(odrun, number, "correct", note="heard it twice"))
    with Archive.open(archive) as opened:
        (made,) = decisions_of(opened, PLAIN)
    assert (made.kind, made.change.given) == ("accept", {"note": "heard it twice"})


def test_side_status_and_time(odrun: TestClient, archive: Path) -> None:
    number = event(archive, "technique", side="blue", status="completed")
    changed(odrun, check(odrun, number, "correct", side="nobody", status="failed", time="1:14.5"))
    with Archive.open(archive) as opened:
        made = decisions_of(opened, PLAIN)[0]
    assert made.change.given == {"side": None, "status": "failed", "start_ms": 74_500}


def test_told_again(odrun: TestClient, archive: Path) -> None:
    first = event(archive, "technique", concept="double-leg")
    again = event(archive, "technique", concept="uchi-mata")
    told = changed(odrun, check(odrun, again, "same", same=first))
    assert "recalled" in told
    with Archive.open(archive) as opened:
        same = decisions_of(opened, PLAIN)[0].change.same
    assert same
    assert same.concept == "double-leg"


def test_what_was_missed_is_added(odrun: TestClient, archive: Path) -> None:
    before = points(odrun)
    page = odrun.get(f"/recordings/{PLAIN}").text
    verse = re.search(r'id="v(\d+)"[^>]*data-time="1:30"', page)
    assert verse
    told = {"kind_of": "add", "kind": "score", "concept": "points", "side": "red", "points": "1"}
    answer = send(odrun, f"/recordings/{PLAIN}/verse/{verse[1]}", words="red tries", **told)
    assert "at 1:30 Ilmar Destrow, score, 1 point" in changed(odrun, answer)
    assert points(odrun) == (before[0] + 1, before[1])
    assert "added by Odrun" in odrun.get(f"/recordings/{PLAIN}").text
    changed(odrun, send(odrun, f"/recordings/{PLAIN}/undo"))
    assert points(odrun) == before


# What was added is corrected like anything else: the new word stands in the place of the old one.
def test_what_was_added_is_corrected(odrun: TestClient, archive: Path) -> None:
    before = points(odrun)
    page = odrun.get(f"/recordings/{PLAIN}").text
    verse = re.search(r'id="v(\d+)"[^>]*data-time="1:30"', page)
    assert verse
    place = f"/recordings/{PLAIN}/verse/{verse[1]}"
    told = {"kind_of": "add", "kind": "score", "concept": "points", "words": "red tries"}
    changed(odrun, send(odrun, place, **told, side="red", points="1"))
    link = re.search(rf'href="({place}\?mend=(\d+))"', odrun.get(f"/recordings/{PLAIN}").text)
    assert link
    form = odrun.get(link[1]).text
    assert field(form, "words").lower() == "red tries"
    assert field(form, "points") == "1"
    mend = {"mend": link[2], "side": "blue", "points": "2", "time": "1:31"}
    assert "at 1:31 Rafe Pennaluk" in changed(odrun, send(odrun, place, **told, **mend))
    assert points(odrun) == (before[0], before[1] + 2)
    # What was taken back meanwhile is not corrected a second time.
    assert send(odrun, place, **told, **mend).status_code == 409
    with Archive.open(archive) as opened:
        (made,) = decisions_of(opened, PLAIN, "Odrun")
    assert (made.kind, made.change.start_ms, made.change.points) == ("add", 91_000, 2)
    changed(odrun, send(odrun, f"/recordings/{PLAIN}/undo"))
    assert points(odrun) == before


def test_bouts_split_and_joined(odrun: TestClient) -> None:
    page = odrun.get(f"/recordings/{PLAIN}").text
    verse = re.search(r'id="v(\d+)"[^>]*data-time="1:30"', page)
    assert verse
    told = changed(odrun, send(odrun, f"/recordings/{PLAIN}/verse/{verse[1]}", kind_of="split"))
    assert "bouts 1 is now 2" in told
    page = odrun.get(f"/recordings/{PLAIN}").text
    assert page.count('class="chapter"') == 2
    # Where the second bout begins, the page offers to join them again.
    second = page.split('class="chapter"')[2]
    first = re.search(r'id="v(\d+)"', second)
    assert first
    assert "No new bout begins here" in odrun.get(f"/recordings/{PLAIN}/verse/{first[1]}").text
    changed(odrun, send(odrun, f"/recordings/{PLAIN}/undo"))
    assert odrun.get(f"/recordings/{PLAIN}").text.count('class="chapter"') == 1


def test_nobody_decides_without_a_name(client: TestClient, archive: Path) -> None:
    number = event(archive, "technique", side="blue")
    answer = send(client, f"/recordings/{PLAIN}/check/{number}", kind_of="accept")
    assert answer.status_code == 403
    assert "Sign with a name" in answer.text


# A page from before the archive was read anew speaks of other events: it is refused, not misread.
def test_an_old_page_is_refused(odrun: TestClient, archive: Path) -> None:
    number = event(archive, "technique", side="blue")
    told = {"kind_of": "accept", "kept": "2020-01-01T00:00:00Z"}
    assert send(odrun, f"/recordings/{PLAIN}/check/{number}", **told).status_code == 409


def test_two_reviewers_are_kept_apart_and_compared(archive: Path) -> None:
    app = reading_room(Arrangement(archive=archive))
    with TestClient(app, base_url=AT) as one, TestClient(app, base_url=AT) as two:
        sign(one, "Odrun")
        sign(two, "Teshka")
        before = points(one)
        score, was = line(archive)
        grip = event(archive, "grip")
        throw = event(archive, "technique", concept="foot-sweep")
        check(one, score, "correct", points="2")
        check(two, score, "accept")
        for each in (one, two):
            check(each, grip, "accept")
            check(each, throw, "reject")
        assert points(one) == (before[0], before[1] - was + 2)
        assert points(two) == before
        assert points(two, **{"as": "Odrun"}) == points(one)
        seal(two)
        page = unescape(one.get(f"/recordings/{PLAIN}/decisions?one=Odrun&other=Teshka").text)
        assert "Both looked at 3 notes and say the same of 2" in page
        expected = kappa([("correct", "accept"), ("accept", "accept"), ("reject", "reject")])
        assert f"<b>{expected:.2f}</b>" in page
        # One's decision is not the other's to take back.
        mine = re.search(r'name="decision" value="(\d+)"', page)
        assert mine
        assert send(two, f"/recordings/{PLAIN}/undo", decision=mine[1]).status_code == 409


@pytest.mark.parametrize("ms", [0, 999, 61_000, 74_500, 3_600_000, 3_723_004])
def test_times_are_read_back(ms: int) -> None:
    assert ms_of(precise(ms)) == ms
