"""spaCy training documents, one a line: the whole talk's text with every named entry as a labelled span.

A line is what ``spacy.tokens.Doc.from_json`` takes. The span group ``hikite`` holds one span an entry that
has words of its own: its label is the entry's kind, its ``kb_id`` the concept. spaCy is loaded only here:
nothing else needs it, and it would double the time a command takes to start.
"""

import json

from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.outputs.texts import Text
from hikite.process import Lexicon
from hikite.records import Recording

GROUP = "hikite"


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    import spacy
    from spacy.tokens import SpanGroup

    text = Text(recording.transcript)
    doc = spacy.blank(lexicon.language)(text.whole)
    spans = []
    for entry in (entry for bout in record.bouts for entry in bout.entries if entry.quotes):
        first, last = text.place(entry.quotes[0])
        span = doc.char_span(first, last, label=entry.kind, kb_id=entry.concept, alignment_mode="expand")
        if span is not None:
            spans.append(span)
    doc.spans[GROUP] = SpanGroup(doc, name=GROUP, spans=spans)
    return json.dumps(doc.to_json(), ensure_ascii=False) + "\n"


FORMAT = Format("spans", ".spans.jsonl", "spaCy documents with labelled spans, one a line", True, _body)
