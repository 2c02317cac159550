"""JSON Lines: one entry a line, each valid under the published schema."""

from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.process import Lexicon
from hikite.records import Recording


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    return "".join(entry.model_dump_json() + "\n" for bout in record.bouts for entry in bout.entries)


FORMAT = Format("jsonl", ".jsonl", "JSON Lines, one entry a line", True, _body)
