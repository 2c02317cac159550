"""A cue's words with their times: the file's own, or shared out by the length of the text."""

from collections.abc import Iterator

from hikite.records import Cue, Word
from hikite.transcripts.drafts import Draft, Piece


def cue_of(draft: Draft) -> Cue:
    """The finished cue of a mended draft, its text the words with single spaces."""
    assert draft.end_ms is not None  # mending gave every cue its end
    words: list[Word] = []
    texts: list[str] = []
    offset = 0
    for piece, (start_ms, end_ms, measured) in zip(draft.pieces, _spans(draft, draft.end_ms), strict=True):
        if words and piece.spaced:
            texts.append(" ")
            offset += 1
        texts.append(piece.text)
        stop = offset + len(piece.text)
        words.append(
            Word(
                text=piece.text,
                start=offset,
                stop=stop,
                start_ms=start_ms,
                end_ms=end_ms,
                measured=measured,
                probability=piece.probability,
            )
        )
        offset = stop
    return Cue(
        text="".join(texts),
        start_ms=draft.start_ms,
        end_ms=draft.end_ms,
        words=tuple(words),
        line=draft.line,
        label=draft.label,
        speaker=draft.speaker,
        settings=draft.settings,
    )


def _spans(draft: Draft, end_ms: int) -> Iterator[tuple[int, int, bool]]:
    """Start, end and whether measured, for each piece; words between two known times share them out."""
    pieces, floor = draft.pieces, draft.start_ms
    if all(piece.start_ms is None and piece.end_ms is None for piece in pieces):
        yield from _shares(pieces, floor, end_ms, measured=False)
        return
    first = 0
    while first < len(pieces):
        stop = first + 1
        while stop < len(pieces) and pieces[stop - 1].end_ms is None and pieces[stop].start_ms is None:
            stop += 1
        begin = pieces[first].start_ms
        finish = pieces[stop - 1].end_ms
        if finish is None:
            finish = pieces[stop].start_ms if stop < len(pieces) else end_ms
        begin = min(max(floor if begin is None else begin, floor), end_ms)
        floor = min(max(end_ms if finish is None else finish, begin), end_ms)
        own = stop == first + 1 and not (pieces[first].start_ms is None and pieces[first].end_ms is None)
        yield from _shares(pieces[first:stop], begin, floor, measured=own)
        first = stop


def _shares(
    pieces: tuple[Piece, ...], start_ms: int, end_ms: int, *, measured: bool
) -> Iterator[tuple[int, int, bool]]:
    """The span shared out over the pieces in proportion to their length, without gaps."""
    total = sum(len(piece.text) for piece in pieces)
    span, said, begin = end_ms - start_ms, 0, start_ms
    for piece in pieces:
        said += len(piece.text)
        finish = start_ms + span * said // total
        yield begin, finish, measured
        begin = finish
