"""CTM: one word a line with channel, start and duration (NIST scoring toolkit, "ctm" format).

A line is ``recording channel start duration word [confidence]``; ``;;`` begins a comment; of alternatives
between ``<ALT_BEGIN>``, ``<ALT>`` and ``<ALT_END>`` the first is taken, and ``@`` is a word left out.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from hikite.errors import TranscriptError
from hikite.records import Mending, Transcript
from hikite.transcripts.drafts import Format, Piece, Rough, clean
from hikite.transcripts.pauses import cut_at_pauses

_NUMBER = r"-?[0-9]{1,9}(?:\.[0-9]{0,9})?|-?\.[0-9]{1,9}"
_LINE = re.compile(
    rf"\s*(?P<recording>\S+)[ \t]+(?P<channel>\S+)[ \t]+(?:(?P<start>{_NUMBER})[ \t]+(?P<length>{_NUMBER})"
    rf"|\*[ \t]+\*)[ \t]+(?P<word>\S+)(?:[ \t]+(?P<trust>{_NUMBER}|NA))?(?:[ \t]+\S+){{0,2}}\s*$"
)
_CHANNEL = re.compile(r"[0-9]{1,2}$|[A-Za-z]$")


class _Line(NamedTuple):
    """One word line: its number, recording, channel and word."""

    number: int
    recording: str
    channel: str
    piece: Piece


def _recognises(text: str) -> bool:
    lines = (line for line in text.split("\n") if line.strip() and not line.startswith(";;"))
    found = _LINE.match(next(lines, ""))
    return found is not None and _CHANNEL.match(found["channel"]) is not None


def _parse(text: str, file: str) -> Rough:
    mendings: list[Mending] = []
    lines = list(_words(text, file, mendings))
    recordings = sorted({line.recording for line in lines})
    if len(recordings) > 1:
        named = ", ".join(recordings[:3]) + (" …" if len(recordings) > 3 else "")
        raise TranscriptError(
            f"{len(recordings)} recordings in one file ({named}); cut it by recording", file=file
        )
    channels = {line.channel for line in lines}
    speakers = {channel: channel if len(channels) > 1 else None for channel in channels}
    # Channels may stand one after the other; in each the words are in order.
    lines.sort(key=lambda line: line.piece.start_ms or 0)
    return Rough(cut_at_pauses((line.piece, line.number, speakers[line.channel]) for line in lines), mendings)


def _words(text: str, file: str, mendings: list[Mending]) -> Iterator[_Line]:
    alternative = 0
    for number, line in enumerate(text.split("\n"), 1):
        if not line.strip() or line.startswith(";;"):
            continue
        found = _LINE.match(line)
        if not found:
            raise TranscriptError(f"not a word line: {line.strip()[:80]!r}", file=file, line=number)
        word = clean(found["word"])
        mark = word.upper()
        if mark.startswith("<ALT"):
            alternative = {"<ALT_BEGIN>": 1, "<ALT>": alternative + 1}.get(mark, 0)
        elif found["start"] is None:
            raise TranscriptError("a word without times", file=file, line=number)
        elif alternative < 2 and word and word != "@":
            start = round(float(found["start"]) * 1000)
            end = start + round(float(found["length"]) * 1000)
            if end < start:
                mendings.append(
                    Mending(file=file, line=number, problem="a word of negative length; taken as 0")
                )
            trust = float(found["trust"]) if found["trust"] not in (None, "NA") else None
            probability = trust if trust is not None and 0 <= trust <= 1 else None
            piece = Piece(word, start, max(start, end), probability)
            yield _Line(number, clean(found["recording"]), found["channel"], piece)


def _write(transcript: Transcript) -> str:
    """Carries words, times, probabilities and speakers as channels; cues only where pauses part them."""
    channels = sorted({cue.speaker for cue in transcript.cues if cue.speaker})
    numbers = {
        speaker: speaker if _CHANNEL.match(speaker) else str(at) for at, speaker in enumerate(channels, 1)
    }
    recording = re.sub(r"\s+", "_", transcript.source) or "recording"
    return "".join(
        f"{recording} {numbers.get(cue.speaker or '', '1')} {word.start_ms / 1000:.3f} "
        f"{(word.end_ms - word.start_ms) / 1000:.3f} {word.text}"
        + ("\n" if word.probability is None else f" {word.probability:.9f}\n")
        for cue in transcript.cues
        for word in cue.words
    )


FORMAT = Format("ctm", _recognises, _parse, _write)
