"""spaCy documents of a talk with its entries as labelled spans.

spaCy is loaded only once a document is made: nothing else here needs it, and it would double the time a
command takes to start.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from hikite.outputs.entries import Entry
from hikite.outputs.texts import Text
from hikite.records import Talk

if TYPE_CHECKING:
    from spacy.tokens import Doc

GROUP = "hikite"


class Documents:
    """Makes documents in one language, all with the same vocabulary."""

    def __init__(self, language: str) -> None:
        import spacy

        self._blank = spacy.blank(language)

    def of(self, text: Text, entries: Iterable[Entry]) -> "Doc":
        """The whole text; the span group ``hikite`` holds one span an entry that has words of its own.

        A span's label is the entry's kind, its ``kb_id`` the concept.
        """
        from spacy.tokens import SpanGroup

        doc = self._blank(text.whole)
        spans = []
        for entry in entries:
            if entry.quotes:
                first, last = text.place(entry.quotes[0])
                span = doc.char_span(
                    first, last, label=entry.kind, kb_id=entry.concept, alignment_mode="expand"
                )
                if span is not None:
                    spans.append(span)
        doc.spans[GROUP] = SpanGroup(doc, name=GROUP, spans=spans)
        return doc

    def named(self, text: Text, entries: Iterable[Entry], talk: Talk) -> "Doc":
        """The same with entities, the longest where spans overlap, and a sentence a statement."""
        from spacy.util import filter_spans

        doc = self.of(text, entries)
        doc.set_ents(filter_spans(doc.spans[GROUP]))
        opens = {
            text.begins[talk.tokens[said.first].cue] + talk.tokens[said.first].start
            for said in talk.utterances
            if said.first < said.stop
        }
        for token in doc:
            token.is_sent_start = token.i == 0 or (token.idx in opens and token.ent_iob_ != "I")
        return doc
