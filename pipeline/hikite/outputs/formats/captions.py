"""WebVTT captions with garbled names mended: changed words in ``<c.mended>``, the heard ones in a NOTE."""

from collections.abc import Iterator
from html import escape
from typing import NamedTuple

from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.process import Lexicon
from hikite.records import Candidate, Cue, Mention, Recording
from hikite.terms import Terms
from hikite.terms.words import normalised
from hikite.transcripts.stamps import clock

SURE = 0.6
"""Only names at least so probable are mended."""


class Mended(NamedTuple):
    """Characters ``start`` to ``stop`` of a cue's text, which become ``words``."""

    start: int
    stop: int
    words: str


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    mended = mendings_of(recording, lexicon.terms)
    head = ["WEBVTT"]
    if mended:
        head.append("STYLE\n::cue(.mended) { font-style: italic; }")
    blocks = (_block(cue, mended.get(number, [])) for number, cue in enumerate(recording.transcript.cues))
    return "\n\n".join([*head, *blocks]) + "\n"


def mendings_of(recording: Recording, terms: Terms) -> dict[int, list[Mended]]:
    """By cue what is mended in it, in order: names met by sound and known misspellings, no family words.

    A name across two cues is written into the one with more of it; it is left alone where the other
    would be without words.
    """
    found: dict[int, list[Mended]] = {}
    for mention in recording.mentions:
        words = None if mention.generic else _written(mention.candidates[0], terms)
        if words is None:
            continue
        spans = _spans(recording, mention)
        heard = " ".join(recording.transcript.cues[cue].text[start:stop] for cue, start, stop in spans)
        if normalised(heard) == normalised(words) or not _may(recording, spans):
            continue
        main = max(spans, key=lambda span: span[2] - span[1])
        if recording.talk.tokens[mention.first].capital:
            words = words[0].upper() + words[1:]
        for cue, start, stop in spans:
            found.setdefault(cue, []).append(Mended(start, stop, words if cue == main[0] else ""))
    return found


def _written(best: Candidate, terms: Terms) -> str | None:
    """The name to write for what was heard, nothing where it is well written or not sure enough."""
    names = terms.names_of(best.concept)
    met = next((name for name in names if name.form == best.form), None)
    misspelt = met is not None and met.heard
    if best.probability < SURE or not (best.how == "sound" or misspelt):
        return None
    form = best.form
    if met is None or misspelt or met.script != "latin" or "~" in form:
        proper = [
            name for name in names if name.script == "latin" and not name.heard and "~" not in name.form
        ]
        proper.sort(key=lambda name: met is not None and name.language != met.language)
        if not proper:
            return None
        form = proper[0].form
    return best.concept if normalised(form) == normalised(best.concept) else form


def _spans(recording: Recording, mention: Mention) -> list[tuple[int, int, int]]:
    spans: list[tuple[int, int, int]] = []
    for token in recording.talk.tokens[mention.first : mention.stop]:
        if spans and spans[-1][0] == token.cue:
            spans[-1] = (token.cue, spans[-1][1], token.stop)
        else:
            spans.append((token.cue, token.start, token.stop))
    return spans


def _may(recording: Recording, spans: list[tuple[int, int, int]]) -> bool:
    """Whether every cue but the main one keeps words of its own."""
    texts = [recording.transcript.cues[cue].text for cue, _, _ in spans]
    left = [text[:start] + text[stop:] for text, (_, start, stop) in zip(texts, spans, strict=True)]
    return len(spans) == 1 or all(any(c.isalnum() for c in text) for text in left)


def _block(cue: Cue, mended: list[Mended]) -> str:
    settings = f" {cue.settings}" if cue.settings and "-->" not in cue.settings else ""
    label = [cue.label] if cue.label and "-->" not in cue.label else []
    voice = f"<v {escape(cue.speaker, quote=False)}>" if cue.speaker else ""
    times = f"{clock(cue.start_ms)} --> {clock(cue.end_ms)}{settings}"
    block = "\n".join([*label, times, voice + "".join(_pieces(cue, mended))])
    if not mended:
        return block
    heard = escape(cue.text, quote=False).replace("--&gt;", "-- &gt;")
    return f"NOTE heard: {heard}\n\n{block}"


def _pieces(cue: Cue, mended: list[Mended]) -> Iterator[str]:
    """The cue's text piece by piece: times of measured words, mended words, what lies between."""
    at, latest = 0, cue.start_ms
    marks = [
        (word.start, 0, word.start, f"<{clock(word.start_ms)}>", word.start_ms)
        for word in cue.words
        if word.measured and cue.start_ms < word.start_ms < cue.end_ms
    ]
    for one in mended:
        words = f"<c.mended>{escape(one.words, quote=False)}</c>" if one.words else ""
        marks.append((one.start, 1, one.stop, words, -1))
    for start, _, stop, words, time in sorted(marks):
        if start < at or (0 <= time <= latest):
            continue
        yield escape(cue.text[at:start], quote=False)
        yield words
        at, latest = stop, max(latest, time)
    yield escape(cue.text[at:], quote=False)


FORMAT = Format("captions", ".mended.vtt", "the captions with garbled names mended, WebVTT", False, _body)
