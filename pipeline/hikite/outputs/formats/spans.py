"""spaCy training documents, one a line: the whole talk's text with every named entry as a labelled span.

A line is what ``spacy.tokens.Doc.from_json`` takes.
"""

import json

from hikite.outputs.documents import Documents
from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.outputs.texts import Text
from hikite.process import Lexicon
from hikite.records import Recording


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    entries = (entry for bout in record.bouts for entry in bout.entries)
    doc = Documents(lexicon.language).of(Text(recording.transcript), entries)
    return json.dumps(doc.to_json(), ensure_ascii=False) + "\n"


FORMAT = Format("spans", ".spans.jsonl", "spaCy documents with labelled spans, one a line", True, _body)
