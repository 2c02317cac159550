"""W3C Web Annotation: an entry an annotation, on a stretch of the media and on the words of the transcript.

The model is that of https://www.w3.org/TR/annotation-model/, times are W3C Media Fragments. What the
standard has no word for (confidence, side, status …) is said in the terms of the entry's own schema.
"""

import json

from hikite.outputs.entries import BoutRecord, Entry
from hikite.outputs.formats.format import Format
from hikite.outputs.identities import ENTRY_TERMS, fragment, hash_name, media_name
from hikite.outputs.phrases import value_words
from hikite.outputs.texts import Text
from hikite.process import Lexicon
from hikite.records import Recording

Json = dict[str, object]
_MEDIA_FRAGMENTS = "http://www.w3.org/TR/media-frags/"
_AROUND = 32
_OWN = (
    "bout", "kind", "concept", "status", "side", "competitor", "counts", "points", "score_class", "generic",
    "unspoken", "confidence", "side_confidence", "status_confidence",
)  # fmt: skip
CONTEXT = ["http://www.w3.org/ns/anno.jsonld", {name: f"{ENTRY_TERMS}{name}" for name in _OWN}]


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    text = Text(recording.transcript)
    words = hash_name(record.sha256)
    items = [
        _annotation(entry, record, text, record.language or lexicon.language)
        for bout in record.bouts
        for entry in bout.entries
    ]
    collection = {
        "@context": CONTEXT,
        "id": f"{words}#annotations",
        "type": "AnnotationCollection",
        "label": record.title or record.recording,
        "generator": {"id": f"urn:hikite:tool:{record.tool}", "type": "Software", "name": "hikite"},
        "total": len(items),
        "first": {
            "id": f"{words}#annotations-1",
            "type": "AnnotationPage",
            "partOf": f"{words}#annotations",
            "startIndex": 0,
            "items": items,
        },
    }
    return json.dumps(collection, ensure_ascii=False, indent=1) + "\n"


def _annotation(entry: Entry, record: BoutRecord, text: Text, language: str) -> Json:
    value = value_words(entry) if entry.counts else ""
    who = " ".join(part for part in (entry.side, entry.competitor) if part)
    told = ", ".join(part for part in (entry.label, entry.status, value) if part)
    bodies: list[Json] = [
        {
            "type": "TextualBody",
            "purpose": "describing",
            "value": f"{who}: {told}" if who else told,
            "format": "text/plain",
        },
        {"type": "TextualBody", "purpose": "tagging", "value": entry.concept},
    ]
    moment, words = _moment(entry, record), _words(entry, record, text, language)
    own = {name: value for name in _OWN if (value := getattr(entry, name)) is not None}
    return {
        "id": f"{hash_name(record.sha256)}#{entry.id}",
        "type": "Annotation",
        "motivation": "describing",
        "body": bodies,
        "target": [moment, *words] if words else moment,
        **own,
    }


def _moment(entry: Entry, record: BoutRecord) -> Json:
    selector = {
        "type": "FragmentSelector",
        "conformsTo": _MEDIA_FRAGMENTS,
        "value": fragment(entry.start_ms, entry.end_ms),
    }
    return {"type": "SpecificResource", "source": media_name(record), "selector": selector}


def _words(entry: Entry, record: BoutRecord, text: Text, language: str) -> list[Json]:
    """The entry's own words in the transcript, twice told: by what they are and by where they stand."""
    if not entry.quotes:
        return []
    start, stop = text.place(entry.quotes[0])
    quoted = {
        "type": "TextQuoteSelector",
        "exact": text.whole[start:stop],
        "prefix": text.whole[max(start - _AROUND, 0) : start],
        "suffix": text.whole[stop : stop + _AROUND],
    }
    placed = {"type": "TextPositionSelector", "start": start, "end": stop}
    source = {"id": hash_name(record.sha256), "type": "Text", "language": language}
    return [{"type": "SpecificResource", "source": source, "selector": [quoted, placed]}]


FORMAT = Format(
    "annotations", ".annotations.jsonld", "W3C Web Annotations of the media and the words", False, _body
)
