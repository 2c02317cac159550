"""Hits as files: JSON, CSV, WebVTT, addresses."""

import csv
import io
import json
from html import escape

from hikite.archive.searches.hits import Found, Hit
from hikite.archive.searches.queries import Query

COLUMNS = (
    "recording", "title", "date", "path", "link", "start_ms", "end_ms", "entry", "ruleset", "kind", "concept",
    "label", "status", "side", "competitor", "opponent", "clock_best_s", "golden", "score_before", "lead",
    "points", "score_class", "grips", "attempt", "confidence", "side_confidence", "status_confidence",
    "words", "statement", "speaker",
)  # fmt: skip


def as_json(found: Found, query: Query) -> str:
    """One document: what was asked, how the names were understood, how many there are, the hits."""
    whole = {
        "asked": query.model_dump(mode="json", exclude_defaults=True),
        **found.model_dump(mode="json", exclude={"namings": {"__all__": {"meant"}}}),
    }
    return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"


def as_csv(found: Found) -> str:
    """One hit a row (RFC 4180)."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    for hit in found.hits:
        writer.writerow(_cell(getattr(hit, name)) for name in COLUMNS)
    return text.getvalue()


def as_addresses(found: Found) -> str:
    """One address a line, each opening at its moment (W3C Media Fragments URI 1.0)."""
    return "".join(f"{hit.link}\n" for hit in found.hits if hit.link)


def as_captions(hits: tuple[Hit, ...]) -> str:
    """The hits of one recording as WebVTT, a cue each, in order of time."""
    cues = [
        f"{_stamp(hit.start_ms)} --> {_stamp(max(hit.end_ms, hit.start_ms + 1))}\n{_payload(hit)}\n"
        for hit in sorted(hits, key=lambda hit: (hit.start_ms, hit.id))
    ]
    return "\n".join(["WEBVTT\n", *cues])


def by_recording(found: Found) -> tuple[tuple[Hit, ...], ...]:
    """The hits of each recording, in the order in which recordings come first."""
    groups: dict[int, list[Hit]] = {}
    for hit in found.hits:
        groups.setdefault(hit.recording, []).append(hit)
    return tuple(map(tuple, groups.values()))


def _cell(value: object) -> object:
    if isinstance(value, tuple):
        return "; ".join(map(str, value))
    return "" if value is None else value


def _payload(hit: Hit) -> str:
    who = " ".join(part for part in (hit.side, hit.competitor) if part)
    what = ", ".join(part for part in (hit.label, hit.status) if part)
    lines = [": ".join(part for part in (who, what) if part), f"“{hit.statement}”" if hit.statement else ""]
    return "\n".join(escape(" ".join(line.split()), quote=False) for line in lines if line)


def _stamp(ms: int) -> str:
    return f"{ms // 3_600_000:02d}:{ms // 60_000 % 60:02d}:{ms // 1000 % 60:02d}.{ms % 1000:03d}"
