"""WebVTT: cues with names, settings, voices and inline times (W3C WebVTT, sections 4 and 6).

Own reading: the libraries drop the line numbers, the inline times and the voices that the record needs.
"""

import re
from collections.abc import Iterator
from html import escape, unescape

from hikite.errors import TranscriptError
from hikite.records import Cue, Mending, Transcript
from hikite.transcripts.drafts import Draft, Format, Rough, clean, pieces_of, rows_of
from hikite.transcripts.heard import Heard
from hikite.transcripts.stamps import clock, clock_ms

_STAMP = r"(?:([0-9]{1,6}):)?([0-5]?[0-9]):([0-5][0-9])[.,]([0-9]{1,3})"
_TIMINGS = re.compile(rf"\s*{_STAMP}\s*-->\s*{_STAMP}(?![0-9])\s*(.*)$")
_TAG = re.compile(r"<([^>]*)>?")
_INSIDE = re.compile(rf"\s*{_STAMP}\s*$")
_VOICE = re.compile(r"v(?:\.[^\s>]*)?\s+(.*)$", re.DOTALL)
_LANGUAGE = re.compile(r"Language:\s*([A-Za-z0-9-]+)")
_ASIDES = ("NOTE", "STYLE", "REGION", "ATTRIBUTES")


def _recognises(text: str) -> bool:
    return text.startswith("WEBVTT") and text[6:7] in ("", " ", "\t", "\n")


def _parse(text: str, file: str) -> Rough:
    drafts: list[Draft] = []
    mendings: list[Mending] = []
    lines = text.split("\n")
    body = next((at for at, line in enumerate(lines) if at and (not line or "-->" in line)), len(lines))
    language = next((found[1] for line in lines[1:body] if (found := _LANGUAGE.match(line))), None)
    for line, block in _blocks(lines, body):
        head = 0 if "-->" in block[0] else 1
        if head < len(block) and "-->" in block[head]:
            label = clean(block[0]).strip() or None if head else None
            drafts += _cue(block[head], block[head + 1 :], line + head, label, file)
        elif not block[0].startswith(_ASIDES) and "".join(block).strip():
            mendings.append(Mending(file=file, line=line, problem="text outside of any cue; left out"))
    return Rough(drafts, mendings, language)


def _blocks(lines: list[str], body: int) -> Iterator[tuple[int, list[str]]]:
    """Blocks of lines, each with the number of its first; a further arrow starts a block of its own."""
    block: list[str] = []
    arrow = False
    for number, line in enumerate([*lines[body:], ""], body + 1):
        here = "-->" in line
        if block and (not line or (here and (arrow or len(block) > 1))):
            yield number - len(block), block
            block, arrow = [], False
        if line:
            block.append(line)
            arrow = arrow or here


def _cue(timings: str, payload: list[str], line: int, label: str | None, file: str) -> list[Draft]:
    found = _TIMINGS.match(timings)
    if not found:
        raise TranscriptError(f"broken times of a cue: {timings.strip()[:80]!r}", file=file, line=line)
    start, end = clock_ms(*found.group(1, 2, 3, 4)), clock_ms(*found.group(5, 6, 7, 8))
    draft = Draft((), start, end, line, label, None, clean(found[9]).strip() or None)
    if any("<" in row for row in payload):
        return _marked(draft, "\n".join(payload))
    rows = [unescape(row) for row in payload]
    return [draft._replace(pieces=pieces_of(" ".join(rows)), rows=rows_of(rows) if len(rows) > 1 else (0,))]


def _marked(draft: Draft, payload: str) -> list[Draft]:
    """The cue's words out of its markup, cut where another voice begins."""
    heard = Heard()
    hidden = False
    for at, part in enumerate(_TAG.split(payload)):
        if at % 2 == 0:
            heard.hear("" if hidden else unescape(part))
        elif inside := _INSIDE.match(part):
            heard.stamp(clock_ms(*inside.groups()))
        elif voice := _VOICE.match(part):
            heard.speaker = " ".join(clean(unescape(voice[1])).split()) or None
        elif part.strip() == "/v":
            heard.speaker = None
        elif part.strip() in ("rt", "/rt", "/ruby"):
            # A ruby annotation tells how the text before it is read: nobody says both.
            hidden = part.strip() == "rt"
    return heard.drafts(draft)


def _write(transcript: Transcript) -> str:
    blocks = ["WEBVTT"]
    for cue in transcript.cues:
        label = [cue.label] if cue.label and "-->" not in cue.label else []
        settings = f" {cue.settings}" if cue.settings and "-->" not in cue.settings else ""
        times = f"{clock(cue.start_ms)} --> {clock(cue.end_ms)}{settings}"
        voice = f"<v {escape(cue.speaker, quote=False)}>" if cue.speaker else ""
        blocks.append("\n".join([*label, times, voice + _timed(cue)]))
    return "\n\n".join(blocks) + "\n"


def _timed(cue: Cue) -> str:
    """The text with an inline time wherever a measured word starts or ends inside the cue.

    The standard wants each time after the last and inside the cue, so none is written at its edges.
    """
    if not any(word.measured for word in cue.words):
        return escape(cue.text, quote=False)
    parts, latest, offset = [], cue.start_ms, 0
    for at, word in enumerate(cue.words):
        before = cue.words[at - 1] if at else None
        after = cue.words[at + 1] if at + 1 < len(cue.words) else None
        starts = word.measured or before is None or before.measured or before.end_ms != word.start_ms
        ends = word.measured or after is None or after.measured or after.start_ms != word.end_ms
        parts.append(escape(cue.text[offset : word.start], quote=False))
        if starts and latest < word.start_ms < cue.end_ms:
            parts.append(f"<{clock(word.start_ms)}>")
            latest = word.start_ms
        parts.append(escape(word.text, quote=False))
        if ends and latest < word.end_ms < cue.end_ms:
            parts.append(f"<{clock(word.end_ms)}>")
            latest = word.end_ms
        offset = word.stop
    return "".join(parts)


FORMAT = Format("webvtt", _recognises, _parse, _write)
