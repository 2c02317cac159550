"""Words cut into the pieces that the later stages match: lower case, no punctuation, clitics apart."""

import re
from functools import cache, lru_cache
from itertools import zip_longest
from typing import NamedTuple

from hikite.records import Talk, Token, Transcript
from hikite.records.making import made
from hikite.terms.speech import Clitics, load_speech

_APOSTROPHE, _QUOTES_SAID = "'", "’‘ʼ"
_QUOTES = str.maketrans(dict.fromkeys(_QUOTES_SAID, _APOSTROPHE))
_LETTERS = r"[^\W\d_][^\W\d_\u0300-\u036f]*"
_SENTENCE_ENDS = ".?!…"
# What captions tell of sounds that are no speech: "[Applause]". Common practice, no source.
_SOUNDS = re.compile(r"\[[^\[\]]*\]")
# Between figures these end nothing: a recogniser writes "six five" as 6.5, "two thirty" as 2.30.
_POINTS = (".", ",")


class _Piece(NamedTuple):
    """One piece of a word as written, at its place in the word."""

    text: str
    start: int
    stop: int
    capital: bool
    after: str


class _Cutter:
    """Cuts words into pieces; speech says the same words again and again, so the latest are remembered."""

    def __init__(self, clitics: Clitics, dropped: bool) -> None:
        self._pattern, self._stems = _piece_pattern(clitics.pieces), clitics.stems
        self._unmarked = _unmarked(clitics, dropped)
        self.pieces = lru_cache(maxsize=1 << 14)(self._pieces)

    def _pieces(self, word: str) -> tuple[_Piece, ...]:
        text = word.translate(_QUOTES)
        found = list(self._pattern.finditer(text))
        pieces: list[_Piece] = []
        for match, following in zip_longest(found, found[1:]):
            piece = match.group().lower()
            if following is not None and following.group("clitic"):
                piece = self._stems.get(piece, piece)
            after = _mark(text[match.end() : following.start() if following else len(text)])
            if after in _POINTS and following is not None and piece.isdigit() and following.group().isdigit():
                after = ""
            capital = match.group()[0].isupper()
            pieces.extend(self._apart(_Piece(piece, match.start(), match.end(), capital, after)))
        return tuple(pieces)

    def _apart(self, piece: _Piece) -> tuple[_Piece, ...]:
        """The piece, or the two that it is where a clitic's mark was left out."""
        apart = self._unmarked.get(piece.text)
        if apart is None:
            return (piece,)
        stem, clitic, size = apart
        border = piece.start + size
        return (
            _Piece(stem, piece.start, border, piece.capital, ""),
            _Piece(clitic, border, piece.stop, False, piece.after),
        )


def _unmarked(clitics: Clitics, dropped: bool) -> dict[str, tuple[str, str, int]]:
    """The words that are a stem and a clitic without its mark, with both and the stem's length as written."""
    groups = (clitics.unmarked, clitics.unmarked_all) if dropped else (clitics.unmarked,)
    return {
        stem + clitic.replace(_APOSTROPHE, ""): (clitics.stems.get(stem, stem), clitic, len(stem))
        for group in groups
        for clitic, stems in group.items()
        for stem in stems
    }


def _dropped(transcript: Transcript, clitics: Clitics) -> bool:
    """Whether the talk was written down without any apostrophe, as many recognisers do."""
    if any(mark in cue.text for cue in transcript.cues for mark in (_APOSTROPHE, *_QUOTES_SAID)):
        return False
    known = _unmarked(clitics, False)
    return any(word.text.lower() in known for cue in transcript.cues for word in cue.words)


def _piece_pattern(clitics: tuple[str, ...]) -> re.Pattern[str]:
    """A pattern of one piece: digits, a clitic, or letters up to a clitic or a border."""
    endings = "|".join(re.escape(piece) for piece in sorted(clitics, key=len, reverse=True))
    return re.compile(
        rf"(?P<clitic>(?:{endings})(?![^\W\d_]))|\d+|{_LETTERS}?(?=(?:{endings})(?![^\W\d_]))|{_LETTERS}",
        re.IGNORECASE,
    )


@cache
def _cutter(language: str, dropped: bool) -> _Cutter:
    return _Cutter(load_speech(language).clitics, dropped)


def tokenise(transcript: Transcript, language: str = "en") -> tuple[Token, ...]:
    """Every token of the transcript, in order; a word's time is shared out over its pieces by length.

    What stands in square brackets tells of sounds and is not spoken.
    """
    cut = _cutter(language, _dropped(transcript, load_speech(language).clitics)).pieces
    rows: list[dict[str, object]] = []
    for number, cue in enumerate(transcript.cues):
        silent = [found.span() for found in _SOUNDS.finditer(cue.text)]
        for word in cue.words:
            start, start_ms = word.start, word.start_ms
            size, span = max(len(word.text), 1), word.end_ms - start_ms
            glued = False
            for piece, first, stop, capital, after in cut(word.text):
                if any(low <= start + first < high for low, high in silent):
                    continue
                rows.append(
                    {
                        "text": piece,
                        "cue": number,
                        "start": start + first,
                        "stop": start + stop,
                        "start_ms": start_ms + span * first // size,
                        "end_ms": start_ms + span * stop // size,
                        "glued": glued,
                        "capital": capital,
                        "after": after,
                    }
                )
                glued = True
    return made(Token, rows)


def _mark(between: str) -> str:
    """The punctuation that counts after a piece: a sentence end before anything else."""
    for mark in _SENTENCE_ENDS:
        if mark in between:
            return mark
    return between.strip("'\"()[]»«“”*")[:1] if between else ""


def spoken(talk: Talk, transcript: Transcript, first: int, stop: int) -> str:
    """The words of tokens ``first`` to ``stop`` as they stand in the transcript, cues joined by a space."""
    parts: list[str] = []
    for cue in sorted({token.cue for token in talk.tokens[first:stop]}):
        inside = [token for token in talk.tokens[first:stop] if token.cue == cue]
        parts.append(transcript.cues[cue].text[inside[0].start : inside[-1].stop])
    return " ".join(parts)
