"""Plain lines with a time in front or alone on a line: ``[m:ss]``, ``m:ss``, ``(h:mm:ss)``.

No standard: common practice, no source.
"""

import re
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from hikite.records import Mending, Transcript
from hikite.transcripts.drafts import Draft, Format, Rough
from hikite.transcripts.stamps import clock, clock_ms
from hikite.transcripts.voices import Captioned, voiced

_STAMP = r"(?:([0-9]{1,4}):)?([0-9]{1,3}):([0-5][0-9])(?:[.,]([0-9]{1,3}))?"
_LINE = re.compile(
    rf"\s*(?P<open>[\[(]?){_STAMP}(?:\s*(?:-->|[-–—])\s*{_STAMP})?(?P<close>[\])]?)(?P<rest>.*)$"
)
_JOINT = re.compile(r"\s*[:–—-]?(?:\s+|$)")
_BRACKETS = {"": "", "[": "]", "(": ")"}


class _Stamped(NamedTuple):
    """A line that begins with a time: its number, its brackets, the times and what follows."""

    line: int
    bracket: str
    start_ms: int
    end_ms: int | None
    rest: str


def _stamped(line: str, number: int) -> _Stamped | None:
    found = _LINE.match(line)
    if not found or _BRACKETS[found["open"]] != found["close"]:
        return None
    rest = found["rest"]
    joint = _JOINT.match(rest)
    # "3:04pm" and "0:10 --> soon" are no times; "[3:04]he" is one.
    if rest.lstrip().startswith("-->") or not (joint or found["open"]):
        return None
    first, second = found.group(2, 3, 4, 5), found.group(6, 7, 8, 9)
    if any(hours and int(minutes) > 59 for hours, minutes in (first[:2], second[:2])):
        return None
    start, end = clock_ms(*first), clock_ms(*second) if second[1] else None
    return _Stamped(number, found["open"], start, end, rest[joint.end() if joint else 0 :].strip())


def _recognises(text: str) -> bool:
    return any(_stamped(line, 0) for line in text.split("\n"))


def _parse(text: str, file: str) -> Rough:
    lines = [(number, line) for number, line in enumerate(text.split("\n"), 1) if line.strip()]
    cues: list[Captioned] = []
    mendings: list[Mending] = []
    for (number, line), at in zip(
        lines, _times([_stamped(line, number) for number, line in lines]), strict=True
    ):
        if at:
            cues.append(Captioned(Draft((), at.start_ms, at.end_ms, number), [at.rest] if at.rest else []))
        elif cues:
            cues[-1].lines.append(line)
        else:
            problem = "text before the first time; taken as said at 0:00"
            mendings.append(Mending(file=file, line=number, problem=problem))
            cues.append(Captioned(Draft((), 0, None, number), [line]))
    return Rough(voiced(cues), mendings)


def _times(found: list[_Stamped | None]) -> Iterator[_Stamped | None]:
    """The times that stand for cues, judged over the whole file: a line may also begin with a bout's clock.

    "2:10 left" is text where the file's own times stand in brackets or alone on their lines, and where the
    file wraps its lines and the time would run backwards.
    """
    stamps = [stamp for stamp in found if stamp]
    bracket = Counter(stamp.bracket for stamp in stamps).most_common(1)[0][0]
    own = [stamp for stamp in stamps if stamp.bracket == bracket]
    alone = sum(not stamp.rest for stamp in own) * 2 > len(own)
    wrapped = None in found[found.index(stamps[0]) :]
    latest = 0
    for stamp in found:
        if stamp and stamp.bracket == bracket:
            backwards = wrapped and stamp.start_ms < latest
            if bracket or not ((alone and stamp.rest) or backwards):
                latest = max(latest, stamp.start_ms)
                yield stamp
                continue
        yield None


def _write(transcript: Transcript) -> str:
    """Carries times, text, and speakers in capitals as a prefix; no word times, labels or settings."""
    lines = []
    for cue in transcript.cues:
        voice = f"{cue.speaker}: " if cue.speaker else ""
        lines.append(f"[{clock(cue.start_ms)} --> {clock(cue.end_ms)}] {voice}{cue.text}\n")
    return "".join(lines)


FORMAT = Format("plain", _recognises, _parse, _write)
