"""SubRip: numbered cues with times to the millisecond (no standard; common practice of players).

Own reading: the libraries drop the line numbers, and refuse or pass over what has to be mended and reported.
"""

import re
from html import unescape

from hikite.errors import TranscriptError
from hikite.records import Mending, Transcript
from hikite.transcripts.drafts import Draft, Format, Rough, clean
from hikite.transcripts.stamps import clock, clock_ms
from hikite.transcripts.voices import Captioned, voiced

_STAMP = r"(-?)(?:([0-9]{1,6}):)?([0-9]{1,2}):([0-5]?[0-9])[,.]([0-9]{1,3})"
_TIMINGS = re.compile(rf"\s*{_STAMP}\s*-->\s*{_STAMP}(?![0-9])\s*(.*)$")
_ANY_TIMINGS = re.compile(rf"^[ \t]*{_STAMP}[ \t]*-->[ \t]*{_STAMP}", re.MULTILINE)
_ARROW = re.compile(r"\s*-?[0-9:.,]*\s*-->\s*-?[0-9:.,]*")
_MARKUP = re.compile(
    r"</?(?:b|i|u|s|c|v|font|span|ruby|rt)(?:[\s.][^>]*)?>|\{\\[^}]*\}|\{/?[bius]\}", re.IGNORECASE
)
_ENTITY = re.compile(r"&(?:amp|lt|gt|quot|apos|nbsp|#39);")
_NUMBER = re.compile(r"\s*[0-9]{1,9}\s*$")


def _recognises(text: str) -> bool:
    return _ANY_TIMINGS.search(text) is not None


def _parse(text: str, file: str) -> Rough:
    lines = text.split("\n")
    heads = [
        at for at, line in enumerate(lines) if "-->" in line and (_ARROW.match(line) or _TIMINGS.match(line))
    ]
    mendings: list[Mending] = []
    cues: list[Captioned] = []
    starts = [at - 1 if at and _NUMBER.match(lines[at - 1]) and at - 1 not in heads else at for at in heads]
    stray = next((at for at, line in enumerate(lines[: starts[0]]) if line.strip()), None)
    if stray is not None:
        mendings.append(Mending(file=file, line=stray + 1, problem="text outside of any cue; left out"))
    for first, head, stop in zip(starts, heads, [*starts[1:], len(lines)], strict=True):
        label = lines[first].strip() if first < head else None
        payload = [_plain(line) for line in lines[head + 1 : stop] if line.strip()]
        rows = [row for line in payload for row in line.split("\\N")]
        cues.append(Captioned(_timed(lines[head], head + 1, label, file), rows))
    return Rough(voiced(cues), mendings)


def _timed(timings: str, line: int, label: str | None, file: str) -> Draft:
    found = _TIMINGS.match(timings)
    if not found:
        raise TranscriptError(f"broken times of a cue: {timings.strip()[:80]!r}", file=file, line=line)
    start, end = clock_ms(*found.group(2, 3, 4, 5)), clock_ms(*found.group(7, 8, 9, 10))
    start, end = -start if found[1] else start, -end if found[6] else end
    return Draft((), start, end, line, label, None, clean(found[11]).strip() or None)


def _plain(line: str) -> str:
    """A line without its markup; only the entities that careless converters leave are decoded."""
    return _ENTITY.sub(lambda entity: unescape(entity[0]), _MARKUP.sub("", line))


def _write(transcript: Transcript) -> str:
    """Carries times, text, settings, numbers as labels, speakers in capitals as a prefix; no word times."""
    blocks = []
    for number, cue in enumerate(transcript.cues, 1):
        label = cue.label if cue.label and _NUMBER.match(cue.label) else str(number)
        settings = f" {cue.settings}" if cue.settings else ""
        voice = f"{cue.speaker}: " if cue.speaker else ""
        times = f"{clock(cue.start_ms, ',')} --> {clock(cue.end_ms, ',')}{settings}"
        blocks.append(f"{label}\n{times}\n{voice}{cue.text}\n")
    return "\n".join(blocks)


FORMAT = Format("srt", _recognises, _parse, _write)
