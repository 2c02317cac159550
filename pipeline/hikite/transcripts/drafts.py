"""What a format's reader hands on before times are mended: words as written, with the times a file gives."""

import re
from bisect import bisect_left
from collections.abc import Callable
from itertools import accumulate
from typing import NamedTuple

from hikite.records import Mending, Transcript

# Controls, lone surrogates and non-characters: no caption means them and no XML file may hold them.
_UNSPEAKABLE = re.compile("[\x00-\x08\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufeff\ufffe\uffff]")


class Piece(NamedTuple):
    """One word as written; times only where the file gives them; ``spaced`` says a space stands in front."""

    text: str
    start_ms: int | None = None
    end_ms: int | None = None
    probability: float | None = None
    spaced: bool = True


class Draft(NamedTuple):
    """One cue as the file gives it; ``end_ms`` is None where it gives no end.

    ``rows`` are the indexes of the pieces that begin a displayed line.
    """

    pieces: tuple[Piece, ...]
    start_ms: int
    end_ms: int | None
    line: int
    label: str | None = None
    speaker: str | None = None
    settings: str | None = None
    rows: tuple[int, ...] = (0,)

    @property
    def size(self) -> int:
        """The number of characters said."""
        return sum(len(piece.text) for piece in self.pieces)

    @property
    def ends_ms(self) -> int:
        """The end where one is known, else the start."""
        return self.start_ms if self.end_ms is None else self.end_ms


class Rough(NamedTuple):
    """A whole file as read: cues in file order, what was left out, and the language it names."""

    drafts: list[Draft]
    mendings: list[Mending]
    language: str | None = None


class Format(NamedTuple):
    """One file format: its name, how to know its text, how to read it and how to write it."""

    name: str
    recognises: Callable[[str], bool]
    parse: Callable[[str, str], Rough]
    write: Callable[[Transcript], str]


def clean(text: str) -> str:
    """The text without characters that nobody can say or show."""
    return _UNSPEAKABLE.sub("", text) if not text.isascii() or _UNSPEAKABLE.search(text) else text


def pieces_of(text: str) -> tuple[Piece, ...]:
    """The words of a text that has no times of its own."""
    return tuple(map(Piece, clean(text).split()))


def rows_of(lines: list[str]) -> tuple[int, ...]:
    """The indexes of the words that begin a displayed line."""
    starts, count = [], 0
    for line in lines:
        words = len(clean(line).split())
        if words:
            starts.append(count)
        count += words
    return tuple(starts) or (0,)


def split(draft: Draft, borders: list[int], speakers: list[str | None]) -> list[Draft]:
    """The cue cut before the pieces ``borders``, one speaker a part; times known, or by the text's length.

    Parts of a cue without an end have none either.
    """
    if not borders and draft.rows[:1] == (0,):
        return [draft._replace(speaker=speakers[0])]
    edges = [0, *borders, len(draft.pieces)]
    span = draft.ends_ms - draft.start_ms
    said = [0, *accumulate(len(piece.text) for piece in draft.pieces)]
    parts: list[Draft] = []
    begin = draft.start_ms
    for first, stop, speaker in zip(edges, edges[1:], speakers, strict=False):
        pieces = draft.pieces[first:stop]
        end = draft.ends_ms
        if stop < len(draft.pieces):
            known = draft.pieces[stop].start_ms or pieces[-1].end_ms
            share = draft.start_ms + span * said[stop] // said[-1]
            end = share if known is None else max(known, begin)
            end = end if draft.end_ms is None else min(end, draft.end_ms)
        rows = draft.rows[bisect_left(draft.rows, first) : bisect_left(draft.rows, stop)]
        rows = tuple(row - first for row in rows) or (0,)
        ends = None if draft.end_ms is None else end
        parts.append(Draft(pieces, begin, ends, draft.line, draft.label, speaker, draft.settings, rows))
        begin = end
    return parts
