"""The talk laid out for judging: clauses, statements, cues and references, by token."""

from bisect import bisect_left
from collections.abc import Mapping
from copy import copy
from functools import cached_property
from itertools import pairwise
from typing import TypeVar

from hikite.claims.actors import Reference
from hikite.claims.phrases import Found
from hikite.claims.scopes import Cues, governed
from hikite.records import Candidate, Cast, Claim, Talk
from hikite.terms import Terms
from hikite.terms.speech import Speech

_Told = TypeVar("_Told")
_CLAUSE_MARKS = frozenset(",;:—–.?!…-")
_PASSAGE = 2
# References that may be the subject of a clause.
_SUBJECTS = frozenset(("subject", "name", "colour", "nation"))
# A concept needed so often under some rules is at home there.
_OFTEN = 6
# Kinds whose status tells as much as their name.
GRADED = frozenset({"score", "result", "hold", "penalty"})


class Scene:
    """One recording's talk with all that was found in it; ranges are token indexes, ``stop`` exclusive."""

    def __init__(
        self,
        talk: Talk,
        references: tuple[Reference, ...],
        drafts: tuple[Claim, ...],
        cues: Cues,
        speech: Speech,
        terms: Terms,
    ) -> None:
        self.talk, self.references, self.drafts, self.speech = talk, references, drafts, speech
        self.casts: tuple[Cast, ...] = ()
        self.rules = ""
        self.words = talk.texts
        self._cues, self.terms = cues, terms
        self._starts = [one.first for one in references]
        self._met: dict[tuple[int, int], set[str]] = {}
        self._families: dict[str, str] = {}
        self.statement_of = [0] * len(self.words)
        for number, utterance in enumerate(talk.utterances):
            for index in range(utterance.first, utterance.stop):
                self.statement_of[index] = number

    @cached_property
    def clauses(self) -> list[int]:
        """First tokens of the clauses: after a mark, or before a joining word with a new subject."""
        tokens, joiners = self.talk.tokens, self.speech.statements.joiners
        opened = {utterance.first for utterance in self.talk.utterances}
        marked = {
            index
            for index, (token, following) in enumerate(pairwise(tokens), start=1)
            if token.after in _CLAUSE_MARKS and not following.glued
        }
        joined = {
            one.first - 1
            for one in self.references
            if one.how in _SUBJECTS and one.first > 1 and self.words[one.first - 1] in joiners
        }
        return sorted({0} | opened | marked | joined)

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
        broad = self._families.get(concept)
        if broad is None:
            chain = tuple(self.terms.families(concept))
            broad = self._families[concept] = chain[-2] if len(chain) > 1 else concept
        return broad

    def need(self, concept: str) -> int | None:
        """How often a bout under the sheet's rules is likely to need a concept, 0 to 9, where known."""
        return self._ruled(self.terms.concepts[concept].weight)

    def called(self, concept: str) -> str:
        """What a concept is called under the sheet's rules: on all fours in wrestling is par terre."""
        known = self.terms.concepts.get(concept)
        return (self._ruled(known.under) if known and known.under else None) or concept

    def _ruled(self, by_rules: Mapping[str, _Told]) -> _Told | None:
        """What is told for the sheet's rules, or for the rules they belong to."""
        under = [key for key in by_rules if f"{self.rules}.".startswith(f"{key}.")]
        return by_rules[max(under, key=len)] if under else None

    def at_home(self, candidates: tuple[Candidate, ...]) -> tuple[Candidate, ...]:
        """What a name may mean, likeliest first under the sheet's rules: a wrestler's "collar" is a tie."""
        first = candidates[0]
        if first.how != "exact" or not self.rules or self.need(first.concept):
            return candidates
        home = [one for one in candidates if one.how == "exact" and (self.need(one.concept) or 0) >= _OFTEN]
        return (*home, *(one for one in candidates if one not in home))

    def clause(self, index: int) -> tuple[int, int]:
        """The clause that holds a token."""
        return self._clause_of[index]

    @cached_property
    def _clause_of(self) -> list[tuple[int, int]]:
        spans = pairwise((*self.clauses, len(self.words)))
        return [(first, stop) for first, stop in spans for _ in range(first, stop)]

    def statement(self, index: int, ahead: int = 0) -> tuple[int, int]:
        """The statement that holds a token, or one ``ahead`` of it (or behind); empty past the ends."""
        number = self.statement_of[index] + ahead
        if 0 <= number < len(self.talk.utterances):
            utterance = self.talk.utterances[number]
            return utterance.first, utterance.stop
        return 0, 0

    @cached_property
    def _found(self) -> tuple[list[Found], list[int], dict[str, list[int]]]:
        found, ends = self._cues.find(self.words)
        return found, [one.first for one in found], ends

    def said(self, first: int, stop: int) -> list[Found]:
        """The cues said wholly within a range, in order."""
        low, high = self._within(first, stop)
        return [one for one in self._found[0][low:high] if one.stop <= stop]

    def _within(self, first: int, stop: int) -> tuple[int, int]:
        """The numbers of the first cue and past the last one that begin in a range."""
        starts = self._found[1]
        low = bisect_left(starts, first)
        return low, bisect_left(starts, stop, low)

    def cues(self, first: int, stop: int) -> set[str]:
        """The names of the cues said wholly within a range."""
        met = self._met.get((first, stop))
        if met is None:
            low, high = self._within(first, stop)
            names, stops = self._named[0][low:high], self._named[1][low:high]
            met = {name for name, end in zip(names, stops, strict=True) if end <= stop}
            self._met[first, stop] = met
        return met

    @cached_property
    def _named(self) -> tuple[list[str], list[int]]:
        """The names of the cues said and where they end: asked for at every draft."""
        found = self._found[0]
        return [one.name for one in found], [one.stop for one in found]

    @cached_property
    def _governing(self) -> dict[int, set[str]]:
        """By first token of a draft, the scoped cues that speak of it, named by how near they stand."""
        at = sorted({one.first for one in self.drafts})
        bounds = {"clause": self.clause, "statement": self.statement, "passage": self._passage}
        found, _, ends = self._found
        over: dict[int, set[str]] = {}
        for one in governed(found, ends, self._cues.scopes, bounds):
            for index in at[bisect_left(at, one.first) : bisect_left(at, one.stop)]:
                over.setdefault(index, set()).add(f"{self._nearness(index, one.at)}{one.name}")
        return over

    def governing(self, index: int) -> set[str]:
        """The scoped cues that speak of the draft beginning at a token: ``here:unreal``, ``far:replay`` …"""
        return self._governing.get(index, set())

    def _nearness(self, index: int, at: int) -> str:
        if self.clause(index)[0] == self.clause(at)[0]:
            return "here:"
        return "near:" if self.statement_of[index] == self.statement_of[at] else "far:"

    def _passage(self, index: int) -> tuple[int, int]:
        """The statements around a token's that a passage of the same matter may span."""
        number = self.statement_of[index]
        first = self.talk.utterances[max(number - _PASSAGE, 0)].first
        last = min(number + _PASSAGE, len(self.talk.utterances) - 1)
        return first, self.talk.utterances[last].stop

    def pointers(self, first: int, stop: int) -> tuple[Reference, ...]:
        """The references that begin within a range, in order."""
        return self.references[bisect_left(self._starts, first) : bisect_left(self._starts, stop)]

    @cached_property
    def first_result(self) -> int:
        """The number of the first draft that gives a result; past the last where none does."""
        given = (n for n, one in enumerate(self.drafts) if one.kind == "result" and one.status == "given")
        return next(given, len(self.drafts))

    def moved(self, number: int) -> bool:
        """Whether a stated score differs from the one stated before it."""
        return number in self._moved

    @cached_property
    def _moved(self) -> frozenset[int]:
        last, moved = 0, set()
        for number, one in enumerate(self.drafts):
            if one.kind == "stated_score" and one.tallies:
                total = sum(tally.points or 0 for tally in one.tallies.values())
                if total > last:
                    moved.add(number)
                last = total
        return frozenset(moved)

    def mark(self, stop: int) -> str:
        """The punctuation at the end of the clause that holds the token before ``stop``."""
        _, end = self.clause(max(stop - 1, 0))
        return self.talk.tokens[end - 1].after

    def seconds(self, index: int) -> float:
        """When a token is said."""
        return self.talk.tokens[index].start_ms / 1000
