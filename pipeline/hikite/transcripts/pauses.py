"""Words that come without cues, cut into cues where the speaker pauses."""

from collections.abc import Iterable

from hikite.transcripts.drafts import Draft, Piece

_PAUSE_MS = 700
_LONGEST = 40


def cut_at_pauses(words: Iterable[tuple[Piece, int, str | None]]) -> list[Draft]:
    """Cues of timed words, each given with its line and speaker; a new cue at a pause or another speaker."""
    drafts: list[Draft] = []
    for piece, line, speaker in words:
        last = drafts[-1] if drafts else None
        start, end = piece.start_ms or 0, piece.end_ms or 0
        if (
            last is not None
            and last.end_ms is not None
            and last.speaker == speaker
            and last.start_ms <= start <= last.end_ms + _PAUSE_MS
            and len(last.pieces) < _LONGEST
        ):
            drafts[-1] = last._replace(pieces=(*last.pieces, piece), end_ms=max(last.end_ms, end))
        else:
            drafts.append(Draft((piece,), start, end, line, speaker=speaker))
    return drafts
