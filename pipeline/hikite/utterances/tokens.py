"""Words cut into the pieces that the later stages match: lower case, no punctuation, clitics apart."""

import re
from collections.abc import Iterator
from functools import cache

from hikite.records import Cue, Talk, Token, Transcript, Word
from hikite.terms.speech import Clitics

_QUOTES = str.maketrans({"’": "'", "‘": "'", "ʼ": "'"})
_LETTERS = r"[^\W\d_][^\W\d_\u0300-\u036f]*"
_SENTENCE_ENDS = ".?!…"


@cache
def _piece_pattern(clitics: tuple[str, ...]) -> re.Pattern[str]:
    """A pattern of one piece: digits, a clitic, or letters up to a clitic or a border."""
    endings = "|".join(re.escape(piece) for piece in sorted(clitics, key=len, reverse=True))
    return re.compile(
        rf"(?P<clitic>(?:{endings})(?![^\W\d_]))|\d+|{_LETTERS}?(?=(?:{endings})(?![^\W\d_]))|{_LETTERS}",
        re.IGNORECASE,
    )


def tokenise(transcript: Transcript, clitics: Clitics) -> tuple[Token, ...]:
    """Every token of the transcript, in order; a word's time is shared out over its pieces by length."""
    pattern = _piece_pattern(clitics.pieces)
    return tuple(
        token
        for number, cue in enumerate(transcript.cues)
        for word in cue.words
        for token in _pieces(word, cue, number, pattern, clitics.stems)
    )


def _pieces(
    word: Word, cue: Cue, number: int, pattern: re.Pattern[str], stems: dict[str, str]
) -> Iterator[Token]:
    text = word.text.translate(_QUOTES)
    found = list(pattern.finditer(text))
    size, span = max(len(text), 1), word.end_ms - word.start_ms
    for index, match in enumerate(found):
        start, stop = match.span()
        following = found[index + 1] if index + 1 < len(found) else None
        piece = match.group().lower()
        if following is not None and following.group("clitic"):
            piece = stems.get(piece, piece)
        yield Token(
            text=piece,
            cue=number,
            start=word.start + start,
            stop=word.start + stop,
            start_ms=word.start_ms + span * start // size,
            end_ms=word.start_ms + span * stop // size,
            glued=index > 0,
            capital=match.group()[0].isupper(),
            after=_mark(text[stop : following.start() if following else len(text)]),
        )


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
