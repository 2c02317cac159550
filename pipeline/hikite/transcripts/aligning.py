"""A recogniser's words set against the text of their segment."""

from collections.abc import Iterator

from hikite.transcripts.drafts import Piece

# Scripts from here on are written without spaces: their words stand side by side without being one word.
_SPACELESS = "\u2e80"


def joined(spoken: list[Piece]) -> tuple[Piece, ...]:
    """Words without a segment's text: their own leading spaces tell where one begins, if any has one."""
    if not any(piece.spaced for piece in spoken):
        spoken = [piece._replace(spaced=True) for piece in spoken]
    return tuple(_merged(spoken))


def aligned(text: str, spoken: list[Piece]) -> tuple[Piece, ...]:
    """The words as the text has them, with their times; nothing where the two do not agree."""
    found: list[Piece] = []
    at = 0
    for piece in spoken:
        spaced = text.startswith(" ", at)
        at += spaced
        if not text.startswith(piece.text, at):
            break
        at += len(piece.text)
        found.append(piece._replace(spaced=spaced))
    else:
        if at == len(text):
            return tuple(_merged(found))
    written = text.split()
    if len(written) != len(spoken):
        return ()
    # Some recognisers list their words without the punctuation or the case of the text.
    return tuple(piece._replace(text=word, spaced=True) for word, piece in zip(written, spoken, strict=True))


def _merged(pieces: list[Piece]) -> Iterator[Piece]:
    """Pieces that stand together without a space, as ``two`` ``-on`` ``-one``, made one word."""
    word: Piece | None = None
    for piece in pieces:
        if word is None:
            word = piece
        elif piece.spaced or max(word.text[-1], piece.text[0]) >= _SPACELESS:
            yield word
            word = piece
        else:
            trusts = [trust for trust in (word.probability, piece.probability) if trust is not None]
            trust = min(trusts, default=None)
            word = word._replace(text=word.text + piece.text, end_ms=piece.end_ms, probability=trust)
    if word is not None:
        yield word
