"""Rolling captions made single: what the caption before already showed is not said again."""

from typing import NamedTuple

from hikite.records import Mending
from hikite.transcripts.drafts import Draft

# Rolling captions follow one another without a gap worth the name.
_GAP_MS = 250
# A file rolls where this share of its captions repeats the one before, twice at least;
# a repeat of so many words is one in any file.
_SHARE, _OFTEN, _PLAINLY = 1 / 3, 2, 5


class _Repeat(NamedTuple):
    """How many first words of a caption stand in the one before, and whether its last line only grew."""

    words: int
    grows: bool


def collapsed(drafts: list[Draft], file: str) -> tuple[list[Draft], list[Mending]]:
    """The cues in order without what they repeat; captions that grow word by word become one cue."""
    repeats = [_repeat(before, draft) for before, draft in zip([None, *drafts], drafts, strict=False)]
    found = sum(repeat is not None for repeat in repeats)
    rolls = found >= _OFTEN and found >= _SHARE * (len(drafts) - 1)
    kept: list[Draft] = []
    lines: list[int] = []
    for draft, repeat in zip(drafts, repeats, strict=True):
        if repeat is None or not (rolls or repeat.words >= _PLAINLY):
            kept.append(draft)
            continue
        lines.append(draft.line)
        _take(kept, draft, repeat)
    problem = f"rolling captions; {len(lines)} that repeat the one before are shown once"
    return kept, [Mending(file=file, line=lines[0], problem=problem)] if lines else []


def _repeat(before: Draft | None, draft: Draft) -> _Repeat | None:
    """The repeat of the caption before at the start of this one, by whole displayed lines or as they grow.

    Words with times of their own were said, whatever stood before.
    """
    if before is None or draft.start_ms > before.ends_ms + _GAP_MS or draft.speaker != before.speaker:
        return None
    shown, words = [piece.text for piece in before.pieces], [piece.text for piece in draft.pieces]
    borders = {*draft.rows[1:], len(words)}
    for first in before.rows:
        size = len(shown) - first
        if words[:size] == shown[first:]:
            timed = any(piece.start_ms is not None for piece in draft.pieces[:size])
            return None if timed else _Repeat(size, size not in borders)
    return None


def _take(kept: list[Draft], draft: Draft, repeat: _Repeat) -> None:
    """Add what is new in the caption: as words of the cue that grows, or as a cue of its own."""
    new = draft.pieces[repeat.words :]
    if not new:
        return
    rows = tuple(row - repeat.words for row in draft.rows if row >= repeat.words) or (0,)
    if not repeat.grows:
        kept.append(draft._replace(pieces=new, rows=rows))
        return
    last = kept[-1]
    first, *rest = new
    pieces = (*last.pieces, first._replace(start_ms=first.start_ms or draft.start_ms), *rest)
    kept[-1] = last._replace(pieces=pieces, end_ms=draft.end_ms)
