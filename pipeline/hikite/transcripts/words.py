"""A cue's words with their times: the file's own, or shared out by the length of the text."""

from itertools import accumulate

from hikite.records import Cue, Word
from hikite.records.making import made
from hikite.transcripts.drafts import Draft, Piece

# Start, end, and whether the file measured them.
_Span = tuple[int, int, bool]


def cue_of(draft: Draft) -> Cue:
    """The finished cue of a mended draft, its text the words with single spaces."""
    words: list[dict[str, object]] = []
    texts: list[str] = []
    offset = 0
    for (text, _, _, probability, spaced), (start_ms, end_ms, measured) in zip(
        draft.pieces, _spans(draft), strict=True
    ):
        if offset and spaced:
            texts.append(" ")
            offset += 1
        texts.append(text)
        start, offset = offset, offset + len(text)
        words.append(
            {
                "text": text,
                "start": start,
                "stop": offset,
                "start_ms": start_ms,
                "end_ms": end_ms,
                "measured": measured,
                "probability": probability,
            }
        )
    return Cue(
        text="".join(texts),
        start_ms=draft.start_ms,
        end_ms=draft.ends_ms,
        words=made(Word, words),
        line=draft.line,
        label=draft.label,
        speaker=draft.speaker,
        settings=draft.settings,
    )


def _spans(draft: Draft) -> list[_Span]:
    """The span of each piece; pieces between two known times share the time between."""
    pieces, floor, last = draft.pieces, draft.start_ms, draft.ends_ms
    if not any(piece[1] is not None or piece[2] is not None for piece in pieces):
        return _shares(pieces, floor, last, measured=False)
    spans: list[_Span] = []
    first = 0
    while first < len(pieces):
        stop = first + 1
        while stop < len(pieces) and pieces[stop - 1].end_ms is None and pieces[stop].start_ms is None:
            stop += 1
        begin, finish = pieces[first].start_ms, pieces[stop - 1].end_ms
        own = stop == first + 1 and not (begin is None and finish is None)
        if finish is None:
            finish = pieces[stop].start_ms if stop < len(pieces) else last
        begin = min(max(floor if begin is None else begin, floor), last)
        floor = min(max(last if finish is None else finish, begin), last)
        spans += _shares(pieces[first:stop], begin, floor, measured=own)
        first = stop
    return spans


def _shares(pieces: tuple[Piece, ...], start_ms: int, end_ms: int, *, measured: bool) -> list[_Span]:
    """The span shared out over the pieces in proportion to their length, without gaps."""
    sums = list(accumulate(len(piece[0]) for piece in pieces))
    span, total = end_ms - start_ms, sums[-1]
    ends = [start_ms + span * said // total for said in sums]
    return [(begin, end, measured) for begin, end in zip([start_ms, *ends], ends, strict=False)]
