"""Labelled spans, read back by spaCy itself."""

import json
from pathlib import Path

import pytest
import spacy
from spacy.tokens import Doc

from hikite.outputs import FORMATS, record_of
from hikite.outputs.documents import GROUP
from hikite.process import load_lexicon, process
from hikite.sheets import read_sheet
from hikite.transcripts import read

SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.mark.parametrize("name", ["final-79kg.vtt", "golden-score.ctm"])
def test_spacy_reads_the_spans_back_over_their_words(name: str) -> None:
    lexicon = load_lexicon()
    recording = process(read(SAMPLES / name), lexicon, read_sheet(SAMPLES / f"{name}.sheet.toml"))
    record = record_of(recording, lexicon)
    form = next(one for one in FORMATS if one.name == "spans")
    doc = Doc(spacy.blank("en").vocab).from_json(json.loads(form.body(recording, record, lexicon)))
    entries = [entry for bout in record.bouts for entry in bout.entries if entry.quotes]
    assert doc.text == " ".join(cue.text for cue in recording.transcript.cues)
    assert len(doc.spans[GROUP]) == len(entries) > 10
    for span, entry in zip(doc.spans[GROUP], entries, strict=True):
        assert (span.label_, span.kb_id_) == (entry.kind, entry.concept)
        assert entry.quotes[0].words in span.text
