"""Searching in the room: the archive's own expression, narrowed by what the hits have in common."""

import csv
import io
import json
import re
from html import unescape
from pathlib import Path

import pytest
from rooms import PLAIN, field, send, sign
from starlette.testclient import TestClient

from hikite.archive import Archive, search
from hikite.archive.derivations.deriving import loaded
from hikite.archive.searches.expressions import read_expression
from hikite.numbers import Ask, count
from hikite.web import Arrangement
from hikite.web.drawings import Bar, against, bars, columns
from hikite.web.facets import look
from hikite.web.saved import Saved, drop_saved, keep_saved, read_saved


@pytest.fixture
def opened(archive: Path):
    with Archive.open(archive) as found:
        yield found


# The room finds exactly what the archive finds for the same expression.
@pytest.mark.parametrize("text", ["hip throw", "foot sweep failed", "grip:belt", 'said "hip throw"'])
def test_the_same_as_the_archive(opened: Archive, text: str) -> None:
    found = look(opened, loaded(), text, {}, skip=0, limit=100).found
    assert found.hits == search(opened, read_expression(text)).hits
    assert found.hits


# Law: each facet's count is how many are left once the search is narrowed to it; narrowing only takes away.
@pytest.mark.parametrize("text", ["", "foot sweep", "kind grip", "scored", "kind technique"])
def test_facets_keep_their_word(opened: Archive, text: str) -> None:
    lexicon = loaded()
    whole = look(opened, lexicon, text, {}, skip=0, limit=500)
    ids = {hit.id for hit in whole.found.hits}
    seen = 0
    for name, facets in whole.facets.items():
        for facet in facets:
            narrow = look(opened, lexicon, text, {name: facet.value}, skip=0, limit=500)
            assert {hit.id for hit in narrow.found.hits} <= ids, (name, facet)
            assert len(narrow.found.hits) == facet.times, (name, facet)
            seen += 1
    assert seen > 3


def test_a_page_of_many(opened: Archive) -> None:
    lexicon = loaded()
    whole = look(opened, lexicon, "", {}, skip=0, limit=100).found
    pages = [
        look(opened, lexicon, "", {}, skip=skip, limit=5).found.hits for skip in range(0, len(whole.hits), 5)
    ]
    assert tuple(hit for page in pages for hit in page) == whole.hits


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("within", "column"),
        ("qwrtzplk", "no name"),
        ("hip throw by by", "column"),
    ],
)
def test_what_cannot_be_understood_is_said(client: TestClient, asked: str, told: str) -> None:
    answer = client.get("/search", params={"q": asked})
    assert answer.status_code == 400
    assert told in unescape(answer.text)


@pytest.mark.parametrize("name", ["rules", "who", "family", "outcome"])
def test_a_facet_of_nothing(client: TestClient, name: str) -> None:
    answer = client.get("/search", params={"q": "hip throw", name: "nothing of that kind"})
    assert answer.status_code in (200, 400)


def test_found_to_take_away(client: TestClient) -> None:
    rows = list(csv.DictReader(io.StringIO(client.get("/search.csv?q=foot+sweep").text)))
    whole = json.loads(client.get("/search.json?q=foot+sweep").text)
    assert len(rows) == whole["total"] > 1
    assert client.get("/search.txt?q=foot+sweep").text.count("#t=") == len(rows)
    assert client.get("/search.vtt?q=foot+sweep").status_code == 400
    only = client.get("/search.vtt?q=foot+sweep&who=Rafe+Pennaluk")
    assert only.status_code in (200, 400)
    assert client.get("/search.xls?q=foot+sweep").status_code == 404


@pytest.mark.parametrize(
    ("typed", "concept"),
    [("uchi m", "uchi-mata"), ("inner thi", "uchi-mata"), ("UCHI", "uchi-mata"), ("double l", "double-leg")],
)
def test_names_suggested(client: TestClient, typed: str, concept: str) -> None:
    assert concept in [one["concept"] for one in client.get("/names", params={"q": typed}).json()]


@pytest.mark.parametrize("typed", ["", "u", "%", "qwrtzplk", "' OR 1=1 --"])
def test_no_names_suggested(client: TestClient, typed: str) -> None:
    assert client.get("/names", params={"q": typed}).json() == []


# Where no name begins so, what it sounds like, if that is asked for.
def test_names_by_sound(client: TestClient) -> None:
    assert client.get("/names", params={"q": "oochee mutta"}).json() == []
    heard = client.get("/names", params={"q": "oochee mutta", "sound": "1"}).json()
    assert [one["concept"] for one in heard] == ["uchi-mata"]


def test_searches_are_kept(client: TestClient, archive: Path) -> None:
    file = Arrangement(archive=archive).search_file
    assert send(client, "/searches", name="mine", address="?q=hip+throw").status_code == 403
    sign(client, "Odrun")
    answer = send(client, "/searches", name="mine", address="?q=hip+throw")
    assert answer.headers["location"] == "/search?q=hip+throw"
    send(client, "/searches", name="mine", address="?q=foot+sweep")
    assert [(one.name, one.address, one.who) for one in read_saved(file)] == [
        ("mine", "?q=foot+sweep", "Odrun")
    ]
    assert send(client, "/searches", name="evil", address="//evil.example").status_code == 400
    send(client, "/searches/drop", name="mine")
    assert read_saved(file) == ()


def test_a_spoilt_line_of_the_kept_is_passed_over(tmp_path: Path) -> None:
    file = tmp_path / "searches.jsonl"
    one = Saved(name="één", address="?q=x", who="Odrun", when="2026-05-11T10:00:00Z")
    keep_saved(file, one)
    file.write_text("{spoilt\n" + file.read_text("utf-8"), "utf-8")
    assert read_saved(file) == (one,)
    drop_saved(file, "other")
    assert read_saved(file) == (one,)


def test_numbers_follow_the_rules_chosen(client: TestClient) -> None:
    whole = client.get("/numbers").text
    assert whole.count("<svg") == 3
    assert "Nobody has checked anything yet" in whole
    assert client.get("/numbers?rules=sambo.sport.2020").status_code == 200
    # What is not known is as if nothing had been chosen.
    assert client.get("/numbers?rules=no.such&by=nothing").text.count("<svg") == 3
    for by in ("technique", "family", "athlete", "grip", "rules"):
        assert f"Tries by {by}" in client.get("/numbers", params={"by": by}).text


# The bars are the counts of `hikite numbers`.
def test_bars_are_the_counts(client: TestClient, archive: Path) -> None:
    with Archive.open(archive) as opened:
        table = count(opened, Ask(by="technique", sure=0.5))
    page = client.get("/numbers").text
    told = [f"{one.counts['scored']:.0f} of {one.counts['tries']:.0f}" for one in table.lines[:14]]
    assert re.findall(r">(\d+ of \d+)</text>", page) == told
    assert table.basis in unescape(page)


# What is checked becomes the plot of how far the machine was right.
# Two that were there, and how they went, and one that was not there: five judgements.
def test_decisions_become_calibration(client: TestClient, archive: Path) -> None:
    sign(client, "Odrun")
    with Archive.open(archive) as opened:
        events = [one.id for one in opened.events(PLAIN)][:3]
    for event, kind in zip(events, ("accept", "accept", "reject"), strict=True):
        page = client.get(f"/recordings/{PLAIN}/check/{event}").text
        kept = page.split('name="kept" value="')[1].split('"')[0]
        send(client, f"/recordings/{PLAIN}/check/{event}", kept=kept, kind_of=kind)
    page = client.get("/numbers").text
    rows = page.split("<tbody>")[1].split("</tbody>")[0]
    assert sum(int(row.split("<td>")[3].split("<")[0]) for row in rows.split("<tr>")[1:]) == 5
    assert page.count("<svg") == 4


# Drawn without colour: the parts differ by pattern, the figures stand beside; what is told is escaped.
def test_drawings() -> None:
    drawn = bars("<b>", [Bar("a & b", 1, 3), Bar("c", 0, 0)], "scored", "not")
    assert "1 of 3" in drawn
    assert "a &amp; b" in drawn
    assert "<b>" not in drawn
    assert "<svg" in bars("none", [], "a", "b")
    assert "<svg" in columns("none", [], "")
    assert against("x", [(0.5, 0.5, 4)]).count("<circle") == 1


# A reviewer's notes are counted anew where one is struck out: what a search found leads to the same words.
def test_a_hit_leads_to_its_note(client: TestClient, archive: Path) -> None:
    sign(client, "Odrun")
    with Archive.open(archive) as opened:
        first = next(one.id for one in opened.events(PLAIN) if one.kind == "technique")
    (late,) = re.findall(rf"/recordings/{PLAIN}/events/(\d+)", client.get("/search?q=inner+thigh+throw").text)
    for struck in (None, first):
        if struck is not None:
            kept = field(client.get(f"/recordings/{PLAIN}/check/{struck}").text, "kept")
            send(client, f"/recordings/{PLAIN}/check/{struck}", kept=kept, kind_of="reject")
        answer = client.get(f"/recordings/{PLAIN}/events/{late}", follow_redirects=False)
        path, _, entry = answer.headers["location"].partition("#n-")
        page = client.get(path).text
        assert "inner thigh" in page[page.index(f'id="n-{entry}"') :].partition("</li>")[0]
    gone = client.get(f"/recordings/{PLAIN}/events/{first}", follow_redirects=False)
    assert gone.headers["location"] == f"/recordings/{PLAIN}?all=1"
