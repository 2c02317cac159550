"""A WebVTT metadata track: an entry a cue, its payload one line of JSON (W3C WebVTT, "metadata text").

A page loads it with ``<track kind="metadata">`` and gets a cue's JSON when its moment is played.
"""

import json

from hikite.outputs.entries import BoutRecord, Entry
from hikite.outputs.formats.format import Format
from hikite.process import Lexicon
from hikite.records import Recording
from hikite.transcripts.stamps import clock

KEYS = (
    "id", "bout", "kind", "concept", "label", "side", "competitor", "status", "counts", "points",
    "score_class", "generic", "unspoken", "confidence", "side_confidence", "status_confidence",
)  # fmt: skip


def _cue(entry: Entry) -> str:
    told = {name: getattr(entry, name) for name in KEYS}
    told["score_after"] = {
        side: tally.model_dump(exclude_none=True) for side, tally in entry.score_after.items()
    }
    told["words"] = entry.quotes[0].words if entry.quotes else None
    # An arrow would open a new cue.
    payload = json.dumps(told, ensure_ascii=False).replace(">", "\\u003e")
    times = f"{clock(entry.start_ms)} --> {clock(max(entry.end_ms, entry.start_ms + 1))}"
    return f"{entry.id}\n{times}\n{payload}\n"


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    entries = [entry for bout in record.bouts for entry in bout.entries]
    cues = (_cue(entry) for entry in sorted(entries, key=lambda entry: (entry.start_ms, -entry.end_ms)))
    return "\n".join(["WEBVTT\n", *cues])


FORMAT = Format("metadata", ".metadata.vtt", "a WebVTT metadata track, JSON in its cues", False, _body)
