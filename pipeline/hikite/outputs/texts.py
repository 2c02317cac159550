"""The talk of a recording as one text, and where the words of an entry stand in it."""

from itertools import accumulate
from typing import NamedTuple

from hikite.outputs.entries import Quote
from hikite.records import Transcript


class Stretch(NamedTuple):
    """Characters ``start`` to ``stop`` of a text."""

    start: int
    stop: int


class Text:
    """The cues' texts joined by single spaces, counted in Unicode code points from 0."""

    def __init__(self, transcript: Transcript) -> None:
        texts = [cue.text for cue in transcript.cues]
        self.whole = " ".join(texts)
        self.begins = tuple(accumulate((len(text) + 1 for text in texts), initial=0))[: len(texts)]

    def place(self, quote: Quote) -> Stretch:
        """Where a quote stands, from its first word to its last."""
        return Stretch(
            min(self.begins[span.cue] + span.start for span in quote.spans),
            max(self.begins[span.cue] + span.stop for span in quote.spans),
        )
