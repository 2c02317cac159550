"""The talk laid out for judging: clauses, statements, cues and references, by token."""

from bisect import bisect_left
from collections.abc import Iterable, Mapping, Set
from copy import copy
from functools import cached_property
from itertools import accumulate, pairwise
from typing import TypeVar

from hikite.claims.phrases import Found
from hikite.claims.references import Reference
from hikite.claims.scopes import Cues, governed
from hikite.claims.turns import first_result, first_start, moved
from hikite.records import Candidate, Cast, Claim, Talk
from hikite.terms import Terms
from hikite.terms.speech import Speech

_Told = TypeVar("_Told")
_NOTHING: frozenset[str] = frozenset()
_CLAUSE_MARKS = frozenset(",;:—–.?!…-")
_PASSAGE = 2
# So many words before a name "a" may stand that goes with the person behind it.
_KNOWN = 3
# Cues that a number's words are not: of what failed, or is denied.
_OF_FATE = frozenset(("fail", "thwart", "deny"))
# References that may be the subject of a clause.
_SUBJECTS = frozenset(("subject", "name", "colour", "nation"))
# So many words stand at most between two names of one action said in one breath.
_BREATH = 6
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
        self.talk, self.references, self.speech = talk, references, speech
        self.casts: tuple[Cast, ...] = ()
        self.rules = ""
        # The words of stated scores: the "nothing" of "three nothing" thwarts nobody.
        self.counted: frozenset[int] = frozenset()
        self.words = talk.texts
        self._cues, self.terms = cues, terms
        self._pointed = _before(references, len(self.words))
        self._families: dict[str, str] = {}
        self._statements = [(one.first, one.stop) for one in talk.utterances]
        self.statement_of = [0] * len(self.words)
        for number, (first, stop) in enumerate(self._statements):
            self.statement_of[first:stop] = [number] * (stop - first)
        self._lay(drafts)

    @cached_property
    def clauses(self) -> list[int]:
        """First tokens of the clauses: after a mark, or before a joining word with a new subject."""
        tokens, joiners = self.talk.tokens, self.speech.statements.joiners
        opened = {first for first, _ in self._statements}
        marked = {
            index
            for index, mark in enumerate(self.talk.marks[:-1], start=1)
            if mark in _CLAUSE_MARKS and not tokens[index].glued
        }
        joined = {
            one.first - 1
            for one in self.references
            if one.how in _SUBJECTS and one.first > 1 and self.words[one.first - 1] in joiners
        }
        return sorted({0} | opened | marked | joined | set(self.talk.halts))

    def with_drafts(self, drafts: tuple[Claim, ...]) -> "Scene":
        """The same scene with other drafts in the same places; what was laid out is shared."""
        other = copy(self)
        other._lay(drafts)
        return other

    def _lay(self, drafts: tuple[Claim, ...]) -> None:
        """Take in the drafts: what each is of, and the number of the statement it is in, are asked most."""
        self.drafts = drafts
        self.kinds = [draft.kind for draft in drafts]
        self.told_in = [self.statement_of[draft.first] for draft in drafts]
        self.renames = [self._renamed(number) for number in range(len(drafts))]
        self.renamed = {before: number for number, before in enumerate(self.renames) if before is not None}

    def _renamed(self, number: int) -> int | None:
        """The technique that a draft only names again in one breath: "podkhvat, harai goshi"."""
        here = self.drafts[number]
        if here.kind != "technique":
            return None
        for back in range(number - 1, -1, -1):
            before = self.drafts[back]
            if here.first - before.stop > _BREATH:
                return None
            if before.kind == here.kind:
                otherwise = self.words[before.first : before.stop] != self.words[here.first : here.stop]
                return back if otherwise and self.alike(before.concept, here.concept) else None
        return None

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

    def answers(self, concept: str) -> tuple[str, ...]:
        """The attacks that a counter is named for."""
        known = self.terms.concepts.get(concept)
        return known.answers if known else ()

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

    def clauses_within(self, first: int, stop: int) -> Iterable[tuple[int, int]]:
        """The clauses that begin within a range."""
        at = bisect_left(self.clauses, first)
        for low in self.clauses[at:]:
            if low >= stop:
                return
            yield self.clause(low)

    @cached_property
    def _clause_of(self) -> list[tuple[int, int]]:
        spans = pairwise((*self.clauses, len(self.words)))
        return [(first, stop) for first, stop in spans for _ in range(first, stop)]

    def statement(self, index: int, ahead: int = 0) -> tuple[int, int]:
        """The statement that holds a token, or one ``ahead`` of it (or behind); empty past the ends."""
        number = self.statement_of[index] + ahead
        return self._statements[number] if 0 <= number < len(self._statements) else (0, 0)

    @cached_property
    def _found(self) -> tuple[list[Found], list[int], dict[str, list[int]]]:
        found, ends = self._cues.find(self.words)
        found = [one for one in found if one.name not in _OF_FATE or one.first not in self.counted]
        return found, _before(found, len(self.words)), ends

    def said(self, first: int, stop: int) -> list[Found]:
        """The cues said wholly within a range, in order."""
        found, before, _ = self._found
        last = min(stop, len(self.words))
        return [one for one in found[before[first] : before[last]] if one.stop <= stop]

    def cues(self, first: int, stop: int) -> Set[str]:
        """The names of the cues said wholly within a range."""
        found, before, _ = self._found
        low, high = before[first], before[stop]
        if low >= high:
            return _NOTHING
        return {one.name for one in found[low:high] if one.stop <= stop}

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
        first, _ = self._statements[max(number - _PASSAGE, 0)]
        _, stop = self._statements[min(number + _PASSAGE, len(self._statements) - 1)]
        return first, stop

    def pointers(self, first: int, stop: int) -> tuple[Reference, ...]:
        """The references that begin within a range, in order."""
        return self.references[self._pointed[first] : self._pointed[stop]]

    @cached_property
    def first_start(self) -> int:
        """The number of the draft that calls the bout's start; 0 where none does early on."""
        return first_start(self.drafts)

    @cached_property
    def first_result(self) -> int:
        """The number of the first draft that gives the bout's result; past the last where none does."""
        return first_result(self.drafts)

    def known_for(self, draft: Claim) -> bool:
        """Whether a name only tells what somebody is known for: "he's a leg lock man", "likes the belt"."""
        first, stop = self.clause(draft.first)
        actors, before = self.speech.actors, self.words[max(first, draft.first - _KNOWN) : draft.first + 1]
        behind = self.words[draft.stop : min(draft.stop + 1, stop)]
        if not actors.fond.isdisjoint(before):
            return True
        return not (actors.indefinite.isdisjoint(before) or actors.devotees.isdisjoint(behind))

    def moved(self, number: int) -> bool:
        """Whether a stated score is higher than the one stated before it."""
        return number in self._moved

    @cached_property
    def _moved(self) -> frozenset[int]:
        return moved(self.drafts)

    def mark(self, stop: int) -> str:
        """The punctuation at the end of the clause that holds the token before ``stop``."""
        _, end = self.clause(max(stop - 1, 0))
        return self.talk.tokens[end - 1].after

    def seconds(self, index: int) -> float:
        """When a token is said."""
        return self.talk.tokens[index].start_ms / 1000


def _before(said: Iterable[Found | Reference], words: int) -> list[int]:
    """How many of what is said begin before each token and before the end."""
    begun = [0] * (words + 1)
    for one in said:
        begun[one.first + 1] += 1
    return list(accumulate(begun))
