"""Short talks for tests: words with even times, as a reader would hand them on."""

import re

from hikite.records import Cue, Talk, Transcript, Word
from hikite.utterances import cut

MS_A_WORD = 300


def transcript(*lines: str, pause_ms: int = 200) -> Transcript:
    """One cue a line, a word every 300 ms, a pause between cues; ``NAME: words`` gives the speaker."""
    cues, now = [], 0
    for number, line in enumerate(lines):
        speaker, _, said = line.rpartition(": ")
        spans = list(re.finditer(r"\S+", said))
        words = tuple(
            Word(
                text=span.group(),
                start=span.start(),
                stop=span.end(),
                start_ms=now + at * MS_A_WORD,
                end_ms=now + (at + 1) * MS_A_WORD,
            )
            for at, span in enumerate(spans)
        )
        end = now + len(spans) * MS_A_WORD
        cues.append(
            Cue(text=said, start_ms=now, end_ms=end, words=words, line=number + 1, speaker=speaker or None)
        )
        now = end + pause_ms
    return Transcript(source="test", format="test", encoding="utf-8", sha256="", cues=tuple(cues))


def talk(*lines: str, pause_ms: int = 200) -> Talk:
    """The lines as a talk cut into statements."""
    return cut(transcript(*lines, pause_ms=pause_ms))
