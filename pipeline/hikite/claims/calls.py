"""The referee's calls that a recogniser wrote as other words, known by their sound and what stands beside."""

from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterator, Sequence
from functools import cache, lru_cache
from typing import NamedTuple

import numpy as np
from rapidfuzz.distance import Levenshtein
from rapidfuzz.process import cdist

from hikite.claims.callbooks import Beside, load_calls
from hikite.claims.references import Reference
from hikite.claims.said.gaps import HARD, gaps_of
from hikite.claims.said.reading import CALLED
from hikite.records import Candidate, Mention, Talk
from hikite.records.spans import tokens_of
from hikite.sounds import load_ear
from hikite.sounds.distances import load_costs
from hikite.sounds.skeletons import outlined

# How far a call heard so is believed (set by hand), and the language the calls are in.
_PROBABILITY, _GUEST = 0.8, "ja"
# So many words a call is written as at most; it lacks one sound where it has more than so few, else none.
_LONGEST, _SHORT = 4, 4
# Of so many words the last is no clitic: "she'd" is no call, "she don't" may be one.
_PAIR = 2
# What else was met by its sound so surely is no call. Set by hand.
_SURE = 0.8
# What share of rough sounds may differ at most: it saves looking closer.
_ROUGH = 0.5


class _Window(NamedTuple):
    """Tokens ``first`` to ``stop`` that sound like a call, ``apart`` so far a sound."""

    apart: float
    first: int
    stop: int
    concept: str


class _Forms(NamedTuple):
    """The sounds of every call, as they are and roughly, each with its concept."""

    concepts: tuple[str, ...]
    sounds: tuple[str, ...]
    rough: tuple[str, ...]


class Spoken(NamedTuple):
    """A talk with what was met in it, and whoever is pointed at."""

    talk: Talk
    mentions: tuple[Mention, ...]
    references: tuple[Reference, ...]


def with_calls(spoken: Spoken, language: str) -> Spoken:
    """The same with the calls heard; their words say nothing else.

    "That's a she dough for blue": no woman is pointed at. "And was a hurry to white": nothing was.
    """
    talk, mentions, references = spoken
    written = tokens_of(one for one in mentions if _sure(one))
    calls = tuple(_calls(talk, written, references, language))
    inside = tokens_of(calls)
    kept = (one for one in mentions if inside.isdisjoint(range(one.first, one.stop)))
    people = (one for one in references if inside.isdisjoint(range(one.first, one.stop)))
    tokens = list(talk.tokens)
    for at in inside:
        tokens[at] = tokens[at].model_copy(update={"text": ""})
    return Spoken(
        Talk(tokens=tuple(tokens), utterances=talk.utterances, halts=talk.halts) if calls else talk,
        tuple(sorted((*kept, *calls), key=lambda one: one.first)),
        tuple(people),
    )


def _sure(mention: Mention) -> bool:
    """Whether a mention was read or, of no call, surely heard."""
    best = mention.candidates[0]
    return best.how != "sound" or (mention.kind not in CALLED and best.probability >= _SURE)


def _calls(
    talk: Talk, written: Collection[int], references: Sequence[Reference], language: str
) -> Iterator[Mention]:
    """The calls heard, the nearest first of those that overlap, in order of their nearness."""
    gaps = gaps_of(talk)
    beside = Beside(talk, gaps, references, language)
    busy = set(written)
    for window in sorted(_windows(talk, gaps, language)):
        tokens = range(window.first, window.stop)
        if busy.isdisjoint(tokens) and beside.meant(window.concept, window.first, window.stop, window.apart):
            busy.update(tokens)
            call = load_calls(language)[window.concept]
            form = call.many if call.many and beside.several(window.first) else call.say
            told = Candidate(concept=window.concept, probability=_PROBABILITY, form=form, how="sound")
            yield Mention(first=window.first, stop=window.stop, kind=call.kind, candidates=(told,))


def _windows(talk: Talk, gaps: Sequence[int], language: str) -> list[_Window]:
    """Every few words that sound like a call, none across a statement's end or through a word."""
    forms = _forms(language)
    places = list(_places(talk, gaps, language))
    if not places:
        return []
    read = [_sounded(word, language)[0] for word in talk.texts]
    heard = ["".join(read[first:stop]) for first, stop, _ in places]
    numbers = np.array([number for *_, number in places])
    shares = load_costs(language).shares(heard, forms.sounds, np.arange(len(places)), numbers)
    calls = load_calls(language)
    found = []
    for (first, stop, number), one, apart in zip(places, heard, shares.tolist(), strict=True):
        other, concept = forms.sounds[number], forms.concepts[number]
        enough = len(one) >= min(len(other), max(len(other) - 1, _SHORT))
        if enough and apart <= calls[concept].within:
            found.append(_Window(apart, first, stop, concept))
    return found


def _places(talk: Talk, gaps: Sequence[int], language: str) -> Iterator[tuple[int, int, int]]:
    """Where runs of a few words begin and stop that are roughly like a form, and that form's number."""
    forms = _forms(language)
    rough = [_sounded(word, language)[1] for word in talk.texts]
    clitic = [token.glued and mark == "" for token, mark in zip(talk.tokens, ["", *talk.marks], strict=False)]
    ends = [at for at, gap in enumerate(gaps) if gap == HARD]
    runs = rough
    for size in range(1, _LONGEST + 1):
        if size > 1:
            runs = [run + word for run, word in zip(runs, rough[size - 1 :], strict=False)]
        if not runs:
            return
        far = cdist(runs, forms.rough, scorer=Levenshtein.normalized_distance, score_cutoff=_ROUGH)
        for first, number in zip(*(one.tolist() for one in np.nonzero(far <= _ROUGH)), strict=True):
            stop = first + size
            whole = not clitic[first] and (stop == len(rough) or not clitic[stop])
            if (
                whole
                and (size != _PAIR or not clitic[stop - 1])
                and bisect_right(ends, first) == bisect_left(ends, stop)
            ):
                yield first, stop, number


@cache
def _forms(language: str) -> _Forms:
    """The sounds of the calls of one language."""
    ear = load_ear(language)
    read = {
        (concept, outlined(sounds)): sounds
        for concept, call in load_calls(language).items()
        for sounds in reversed(ear.form(call.say, _GUEST))
    }
    return _Forms(
        tuple(concept for concept, _ in read),
        tuple(read.values()),
        tuple(rough for _, rough in read),
    )


@lru_cache(maxsize=1 << 14)
def _sounded(word: str, language: str) -> tuple[str, str]:
    """How a word sounds, and that roughly."""
    readings = load_ear(language).word(word)
    return (readings[0], outlined(readings[0])) if readings else ("", "")
