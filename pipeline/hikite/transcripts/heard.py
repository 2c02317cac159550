"""Words as they are heard out of marked-up text, each with its voice and the times that stand beside it."""

import re

from hikite.transcripts.drafts import Draft, Piece, clean, split

_RUN = re.compile(r"\s+|\S+")


class Heard:
    """The words of one cue so far; ``speaker`` is whose voice the next text is."""

    def __init__(self, speaker: str | None = None) -> None:
        self.speaker = speaker
        self._pieces: list[Piece] = []
        self._speakers: list[str | None] = []
        self._rows: list[int] = []
        self._stamp: int | None = None
        self._open, self._row = False, True

    @property
    def count(self) -> int:
        """How many words were heard."""
        return len(self._pieces)

    def hear(self, text: str) -> None:
        """Text between two tags; a tag inside a word does not end the word."""
        text = clean(text)
        if not self._open and "\n" not in text:
            # Nothing goes on and no line ends: plain words, as almost all text is.
            self._words(text)
            return
        for run in _RUN.findall(text):
            if run.isspace():
                self._open, self._row = False, self._row or "\n" in run
            elif self._open:
                last = self._pieces[-1]
                # A time inside a word, as sung captions have it, is neither its start nor its end.
                self._pieces[-1] = last._replace(text=last.text + run, end_ms=None)
                self._stamp = None
            else:
                if self._row:
                    self._rows.append(len(self._pieces))
                self._pieces.append(Piece(run, self._stamp))
                self._speakers.append(self.speaker)
                self._stamp, self._open, self._row = None, True, False

    def _words(self, text: str) -> None:
        words = text.split()
        if words:
            if self._row:
                self._rows.append(len(self._pieces))
            self._pieces += [Piece(words[0], self._stamp), *map(Piece, words[1:])]
            self._speakers += [self.speaker] * len(words)
            self._stamp, self._open, self._row = None, not text[-1].isspace(), False

    def stamp(self, ms: int) -> None:
        """A time: it ends the word it follows and starts the next one, unless another time comes first."""
        if self._open:
            self._pieces[-1] = self._pieces[-1]._replace(end_ms=ms)
        self._stamp = ms

    def stamp_after(self, ms: int) -> None:
        """A time that ends the last word, whatever space stands between."""
        if self._pieces and self._pieces[-1].end_ms is None:
            self._pieces[-1] = self._pieces[-1]._replace(end_ms=ms)
        self._stamp = ms

    def drafts(self, draft: Draft) -> list[Draft]:
        """The cue ``draft`` with the words heard, cut where another voice begins."""
        pieces, speakers = tuple(self._pieces), self._speakers
        if not pieces:
            return []
        borders = [at for at in range(1, len(pieces)) if speakers[at] != speakers[at - 1]]
        full = draft._replace(pieces=pieces, rows=tuple(self._rows))
        return split(full, borders, [speakers[at] for at in (0, *borders)])
