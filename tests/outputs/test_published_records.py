"""The published record: valid under its schema by an outside validator, true to the recording."""

import json
from pathlib import Path

import pytest
from handmade import handmade
from jsonschema import Draft202012Validator

from hikite.outputs import FORMATS, record_of
from hikite.outputs.schemas import entry_schema, record_schema

DOCS = Path(__file__).parents[2] / "docs"
FORMAT = {form.name: form for form in FORMATS}


@pytest.fixture(params=["samples", "by hand"])
def told(request, lexicon, recordings):
    found = list(recordings.values()) if request.param == "samples" else [handmade()]
    return [(one, record_of(one, lexicon)) for one in found]


# The files in docs/ are what the code says, and are themselves schemas (JSON Schema, draft 2020-12).
@pytest.mark.parametrize(("file", "text"), [("record", entry_schema), ("document", record_schema)])
def test_published_schema_is_current(file, text):
    assert (DOCS / f"{file}.schema.json").read_text("utf-8") == text()
    Draft202012Validator.check_schema(json.loads(text()))


def test_every_line_and_every_document_validates(told, lexicon):
    line, document = (Draft202012Validator(json.loads(text())) for text in (entry_schema, record_schema))
    lines = 0
    for recording, record in told:
        for row in FORMAT["jsonl"].body(recording, record, lexicon).splitlines():
            line.validate(json.loads(row))
            lines += 1
        document.validate(json.loads(FORMAT["json"].body(recording, record, lexicon)))
    assert lines >= 4


# A validator that takes everything would prove nothing.
@pytest.mark.parametrize(
    ("key", "value"), [("kind", "dance"), ("start_ms", "soon"), ("schema_version", "0.9"), ("extra", 1)]
)
def test_schema_refuses(key, value, lexicon):
    entry = json.loads(record_of(handmade(), lexicon).bouts[0].entries[0].model_dump_json())
    assert not Draft202012Validator(json.loads(entry_schema())).is_valid(entry | {key: value})


@pytest.mark.parametrize("key", ["id", "quotes", "confidence", "row", "lexicon", "score_after"])
def test_schema_wants_every_key(key, lexicon):
    entry = json.loads(record_of(handmade(), lexicon).bouts[0].entries[0].model_dump_json())
    del entry[key]
    assert not Draft202012Validator(json.loads(entry_schema())).is_valid(entry)


def test_quotes_are_the_words_of_the_captions(told):
    for recording, record in told:
        cues = recording.transcript.cues
        for entry in (entry for bout in record.bouts for entry in bout.entries):
            for quote in entry.quotes:
                parts = [cues[span.cue].text[span.start : span.stop] for span in quote.spans]
                assert " ".join(parts) == quote.words
                assert quote.words in quote.statement
            assert entry.quotes or entry.unspoken


def test_ids_are_unique_and_links_lead_somewhere(told):
    for _, record in told:
        ids = [entry.id for bout in record.bouts for entry in bout.entries]
        assert len(set(ids)) == len(ids)
        for entry in (entry for bout in record.bouts for entry in bout.entries):
            assert {entry.counters, entry.after, entry.repeats} - {None} <= set(ids)
        for clash in (clash for bout in record.bouts for clash in bout.contradictions):
            assert set(clash.entries) <= set(ids)


def test_links_name_the_entry_of_the_claim(lexicon):
    entries = record_of(handmade(), lexicon).bouts[0].entries
    throw, answer = (
        next(one for one in entries if one.concept == id_) for id_ in ("uchi-mata", "ko-soto-gari")
    )
    assert (answer.counters, throw.kind) == (throw.id, "technique")


def test_confidences_are_probabilities(told):
    for _, record in told:
        for entry in (entry for bout in record.bouts for entry in bout.entries):
            for sure in (entry.confidence, entry.side_confidence, entry.status_confidence):
                assert 0 <= sure <= 1


# --least leaves out what is less sure, never a line of the score: it would no longer add up.
@pytest.mark.parametrize(("least", "kinds"), [(0.0, 4), (0.5, 3), (1.0, 1)])
def test_least(least, kinds, lexicon):
    entries = record_of(handmade(), lexicon, least).bouts[0].entries
    assert len(entries) == kinds
    assert any(entry.counts for entry in entries)


def test_a_quote_may_cross_captions(lexicon):
    throw = record_of(handmade(), lexicon).bouts[0].entries[0]
    assert throw.quotes[0].words == "ooch ee matter"
    assert [span.cue for span in throw.quotes[0].spans] == [0, 1]
    assert (throw.competitor, throw.label) == ("Orvik Tandel", "uchi-mata (inner thigh throw)")
