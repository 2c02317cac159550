"""CSV on the Web: what the columns of the CSV table are (W3C Metadata Vocabulary for Tabular Data).

The file is called as the standard looks for it: ``final.vtt.csv-metadata.json`` beside ``final.vtt.csv``.
"""

import json

from hikite.outputs.entries import SCHEMA_VERSION, BoutRecord, Entry
from hikite.outputs.formats.format import Format
from hikite.outputs.formats.table import COLUMNS
from hikite.outputs.formats.table import FORMAT as TABLE
from hikite.outputs.identities import ENTRY_TERMS, hash_name
from hikite.outputs.phrases import CAUTION
from hikite.process import Lexicon
from hikite.records import Recording

Json = dict[str, object]
_TYPES: dict[str, tuple[str, ...]] = {
    "nonNegativeInteger": ("start_ms", "end_ms", "cue", "start", "stop"),
    "positiveInteger": ("bout",),
    "integer": ("points", "seconds"),
    "decimal": ("clock_low_s", "clock_high_s", "clock_best_s"),
    "boolean": ("golden", "counts", "generic", "fell", "unspoken"),
    "probability": ("confidence", "side_confidence", "status_confidence"),
}
_DATATYPES: dict[str, Json] = {
    "boolean": {"base": "boolean", "format": "True|False"},
    "probability": {"base": "decimal", "minimum": "0", "maximum": "1"},
}
_LISTS = ("stated", "score_after", "alternatives", "attributes", "reasons")
_ABOUT = {
    "clock_low_s": "match clock at least, seconds",
    "clock_high_s": "match clock at most, seconds",
    "clock_best_s": "match clock, best estimate, seconds",
    "golden": "whether the clock is golden score's, which counts up",
    "words": "the entry's own words",
    "cue": "the cue that the words begin in, from 0",
    "start": "first character of the words in that cue's text",
    "stop": "character after the last of the words in that cue",
    "statement": "the whole statement around the words",
    "speaker": "who said it",
}


def column(name: str) -> Json:
    """The description of one column of the table."""
    kind = next((kind for kind, names in _TYPES.items() if name in names), "string")
    described: Json = {
        "name": name,
        "titles": name,
        "propertyUrl": f"{ENTRY_TERMS}{name}",
        "datatype": _DATATYPES.get(kind, kind),
        "required": name in _REQUIRED,
    }
    if name in _ABOUT:
        described["dc:description"] = _ABOUT[name]
    return described | {"separator": "; "} if name in _LISTS else described


def _always(name: str) -> bool:
    """Whether an entry always has a value there: its type knows no None."""
    field = Entry.model_fields.get(name)
    return (
        field is not None
        and name not in _LISTS
        and type(None) not in getattr(field.annotation, "__args__", ())
    )


_REQUIRED = frozenset(name for name in COLUMNS if _always(name))


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    described = {
        "@context": ["http://www.w3.org/ns/csvw", {"@language": "en"}],
        "url": f"{record.recording}{TABLE.suffix}",
        "dc:title": record.title or record.recording,
        "dc:description": CAUTION,
        "dc:source": {"@id": hash_name(record.sha256)},
        "schema:version": SCHEMA_VERSION,
        "dialect": {"encoding": "utf-8", "header": True, "lineTerminators": ["\r\n"]},
        "tableSchema": {
            "columns": [column(name) for name in COLUMNS],
            "primaryKey": ["sha256", "id"],
        },
    }
    return json.dumps(described, ensure_ascii=False, indent=1) + "\n"


FORMAT = Format(
    "columns", ".csv-metadata.json", "what the CSV table's columns are, CSV on the Web", False, _body
)
