"""JSON: one document a recording, with its bouts, results, contradictions and entries."""

from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.process import Lexicon
from hikite.records import Recording


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    return record.model_dump_json(indent=2) + "\n"


FORMAT = Format("json", ".record.json", "one JSON document with bouts, results and entries", False, _body)
