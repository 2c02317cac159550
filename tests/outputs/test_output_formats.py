"""Each format read back: by our own reader, by a reference library, by the standard library."""

import csv
import io
import itertools
import json
import re

import pytest
import webvtt
from handmade import handmade

from hikite.outputs import FORMATS, record_of
from hikite.outputs.formats.captions import mendings_of
from hikite.outputs.formats.table import COLUMNS
from hikite.transcripts import read

FORMAT = {form.name: form for form in FORMATS}


def written(name, recording, lexicon):
    form = FORMAT[name]
    return form.head + form.body(recording, record_of(recording, lexicon), lexicon)


def ms(stamp):
    hours, minutes, seconds = stamp.split(":")
    return round((int(hours) * 3600 + int(minutes) * 60 + float(seconds)) * 1000)


def test_names_and_suffixes_are_unique():
    assert len({form.name for form in FORMATS}) == len({form.suffix for form in FORMATS}) == len(FORMATS)


def test_jsonl_is_the_record_line_by_line(recording, record, lexicon):
    rows = [json.loads(row) for row in written("jsonl", recording, lexicon).splitlines()]
    entries = [entry for bout in record.bouts for entry in bout.entries]
    assert rows == [json.loads(entry.model_dump_json()) for entry in entries]


# RFC 4180: every row as many fields as the head, CRLF at line ends, quotes and commas in fields survive.
def test_csv_read_back(recording, record, lexicon):
    text = written("csv", recording, lexicon)
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    entries = [entry for bout in record.bouts for entry in bout.entries]
    assert tuple(rows[0]) == COLUMNS
    assert [row["id"] for row in rows] == [entry.id for entry in entries]
    assert [row["statement"] for row in rows] == [e.quotes[0].statement if e.quotes else "" for e in entries]
    assert [float(row["confidence"]) for row in rows] == [entry.confidence for entry in entries]
    assert all(None not in row.values() for row in rows)
    assert text.count("\r\n") == text.count("\n")


def test_markdown_rows_have_as_many_cells_as_heads(recording, lexicon):
    text = written("markdown", recording, lexicon)
    blocks = [
        list(rows)
        for table, rows in itertools.groupby(text.splitlines(), lambda row: row[:1] == "|")
        if table
    ]
    for rows in blocks:
        assert len({len(re.findall(r"(?<!\\)\|", row)) for row in rows}) == 1
    assert blocks
    assert "qualified coach" in text


# What a caption or a sheet says is text, never Markdown.
def test_markdown_is_escaped(lexicon):
    text = written("markdown", handmade(), lexicon)
    assert r"# Cup \| \*final\*" in text
    assert r"\| two" in text


# W3C WebVTT, "chapter title text" and nested cues: one line a title; cues are apart or one in the other.
def test_chapters_nest(recording, lexicon):
    text = written("chapters", recording, lexicon)
    cues = list(webvtt.from_string(text))
    spans = [(ms(cue.start), ms(cue.end)) for cue in cues]
    assert len(cues) >= 3
    assert all("\n" not in cue.text and cue.text.strip() for cue in cues)
    assert spans == sorted(spans, key=lambda span: (span[0], -span[1]))
    for (start, end), (other, stop) in itertools.combinations(spans, 2):
        assert start < end
        assert end <= other or stop <= end
    ours = read(text.encode())
    assert sorted((cue.start_ms, cue.end_ms) for cue in ours.cues if cue.text)[0][0] == spans[0][0]


# Common practice, no source: the first time is 0:00, times rise, ten seconds lie between two.
def test_list_of_times(recording, lexicon):
    rows = written("list", recording, lexicon).splitlines()
    times = []
    for row in rows:
        stamp, title = row.split(" ", 1)
        assert re.fullmatch(r"(\d+:[0-5])?\d:[0-5]\d", stamp)
        assert title.strip()
        times.append(sum(int(part) * 60**place for place, part in enumerate(reversed(stamp.split(":")))))
    assert times[0] == 0
    assert all(later - sooner >= 10 for sooner, later in itertools.pairwise(times))
    assert len(times) >= 3


# Times, speakers and numbers of captions stay; only the words of mended names change.
def test_captions_change_names_alone(recording, lexicon):
    text = written("captions", recording, lexicon)
    ours, before = read(text.encode()), recording.transcript
    assert [(c.start_ms, c.end_ms, c.speaker) for c in ours.cues] == [
        (c.start_ms, c.end_ms, c.speaker) for c in before.cues
    ]
    mended = mendings_of(recording, lexicon.terms)
    for number, (now, then) in enumerate(zip(ours.cues, before.cues, strict=True)):
        if number not in mended:
            assert now.text == then.text
        else:
            assert f"NOTE heard: {then.text.replace('&', '&amp;')}" in text
    theirs = list(webvtt.from_string(text))
    assert [(ms(cue.start), ms(cue.end)) for cue in theirs] == [(c.start_ms, c.end_ms) for c in before.cues]


def test_measured_word_times_stay(recordings, lexicon):
    recording = recordings["quarter-final-87kg.json"]
    mended = mendings_of(recording, lexicon.terms)
    ours = read(written("captions", recording, lexicon).encode())
    cues = list(enumerate(zip(ours.cues, recording.transcript.cues, strict=True)))
    plain = [(now, then) for number, (now, then) in cues if number not in mended]
    assert plain
    for now, then in plain:
        assert [word.start_ms for word in now.words] == [word.start_ms for word in then.words]


# Sure enough by sound: mended, across captions into the one with more of it. Less sure: left alone.
def test_captions_by_hand(lexicon):
    text = written("captions", handmade(), lexicon)
    assert "<v Ada>Red goes for the <c.mended>uchi-mata</c>" in text
    assert "<v Ada> &amp; over, that's | two" in text
    assert "ko sotto carry from *blue*" in text
    assert "NOTE heard: Red goes for the ooch ee" in text
    assert "00:00:10.000 --> 00:00:12.000 align:start" in text


@pytest.mark.parametrize("form", FORMATS, ids=lambda form: form.name)
def test_same_recording_same_text(form, lexicon):
    assert written(form.name, handmade(), lexicon) == written(form.name, handmade(), lexicon)
