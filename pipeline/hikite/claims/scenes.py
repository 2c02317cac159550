"""The talk laid out for judging: clauses, statements, cues and references, by token."""

from bisect import bisect_left, bisect_right
from copy import copy
from functools import cached_property

from hikite.claims.actors import Reference
from hikite.claims.phrases import Found, Phrases
from hikite.records import Claim, Talk
from hikite.terms import Terms
from hikite.terms.speech import Speech

_CLAUSE_MARKS = frozenset(",;:—–.?!…-")
_SENTENCE_MARKS = frozenset(".?!…")


class Scene:
    """One recording's talk with all that was found in it; ranges are token indexes, ``stop`` exclusive."""

    def __init__(
        self,
        talk: Talk,
        references: tuple[Reference, ...],
        drafts: tuple[Claim, ...],
        cues: Phrases,
        speech: Speech,
        terms: Terms,
    ) -> None:
        self.talk, self.references, self.drafts, self.speech = talk, references, drafts, speech
        self.words = [token.text for token in talk.tokens]
        self._cues, self.terms = cues, terms
        self._starts = [one.first for one in references]
        self.statement_of = [0] * len(self.words)
        for number, utterance in enumerate(talk.utterances):
            for index in range(utterance.first, utterance.stop):
                self.statement_of[index] = number

    @cached_property
    def clauses(self) -> list[int]:
        """First tokens of the clauses: after a mark, or before a joining word with a new subject."""
        subjects = {
            one.first for one in self.references if one.how in ("subject", "name", "colour", "nation")
        }
        starts = [0]
        for index in range(1, len(self.words)):
            token = self.talk.tokens[index - 1]
            marked = token.after and token.after in _CLAUSE_MARKS and not self.talk.tokens[index].glued
            joined = self.words[index] in self.speech.statements.joiners and index + 1 in subjects
            opened = self.statement_of[index] != self.statement_of[index - 1]
            if marked or joined or opened:
                starts.append(index)
        return starts

    def with_drafts(self, drafts: tuple[Claim, ...]) -> "Scene":
        """The same scene with other drafts in the same places; what was laid out is shared."""
        other = copy(self)
        other.drafts = drafts
        return other

    def alike(self, one: str, other: str) -> bool:
        """Whether two concepts count as the same."""
        return one == other or self.terms.same(one, other)

    def family(self, concept: str) -> str:
        """The broad class of a concept, the one below its kind's own: throw, defence, turn, takedown …"""
        chain = [concept]
        while (known := self.terms.concepts.get(chain[-1])) is not None and known.family:
            chain.append(known.family)
        return chain[-2] if len(chain) > 1 else concept

    def clause(self, index: int) -> tuple[int, int]:
        """The clause that holds a token."""
        at = bisect_right(self.clauses, index) - 1
        stop = self.clauses[at + 1] if at + 1 < len(self.clauses) else len(self.words)
        return self.clauses[at], stop

    def statement(self, index: int, ahead: int = 0) -> tuple[int, int]:
        """The statement that holds a token, or one ``ahead`` of it (or behind); empty past the ends."""
        number = self.statement_of[index] + ahead
        if 0 <= number < len(self.talk.utterances):
            utterance = self.talk.utterances[number]
            return utterance.first, utterance.stop
        return 0, 0

    @cached_property
    def _found(self) -> tuple[list[Found], list[int]]:
        found = list(self._cues.find(self.words))
        return found, [one.first for one in found]

    def cues(self, first: int, stop: int) -> set[str]:
        """The names of the cues said wholly within a range."""
        found, starts = self._found
        low, high = bisect_left(starts, first), bisect_left(starts, stop)
        return {one.name for one in found[low:high] if one.stop <= stop}

    def pointers(self, first: int, stop: int) -> tuple[Reference, ...]:
        """The references that begin within a range, in order."""
        return self.references[bisect_left(self._starts, first) : bisect_left(self._starts, stop)]

    @cached_property
    def first_result(self) -> int:
        """The number of the first draft that gives a result; past the last where none does."""
        given = (n for n, one in enumerate(self.drafts) if one.kind == "result" and one.status == "given")
        return next(given, len(self.drafts))

    @cached_property
    def first_end(self) -> int:
        """The number of the draft that calls the end of the bout; past the last where none does."""
        ends = (
            n
            for n, one in enumerate(self.drafts)
            if one.kind == "stoppage" and one.concept == "end" and one.of is None
        )
        return next(ends, len(self.drafts))

    def mark(self, stop: int) -> str:
        """The punctuation at the end of the clause that holds the token before ``stop``."""
        _, end = self.clause(max(stop - 1, 0))
        return self.talk.tokens[end - 1].after

    def seconds(self, index: int) -> float:
        """When a token is said."""
        return self.talk.tokens[index].start_ms / 1000
