"""Where one statement ends and the next begins, with punctuation or without."""

from collections.abc import Callable
from functools import cache
from itertools import zip_longest
from typing import NamedTuple

from hikite.records import Talk, Token, Transcript, Utterance
from hikite.terms.speech import Statements, load_speech
from hikite.utterances.halts import halts
from hikite.utterances.homophones import meant, surely_meant
from hikite.utterances.tokens import tokenise

_SENTENCE_ENDS = frozenset(".?!…")
# Speech written down by a person ends a sentence at least this often; below it, marks are decoration.
_WORDS_PER_MARK = 40
# Evidence for a border, in parts of a whole one; a cue's end is a weak hint, since statements cross cues.
_OPENER, _SUBJECT, _CUE_END, _PAUSE, _LENGTH, _ENOUGH = 0.6, 0.4, 0.3, 1.0, 0.5, 1.0
_SHORTEST = 3
# So many pauses long is a silence that ends a statement without other evidence, within a cue and between two.
_LONG, _LONG_AT_CUE = 3, 2
# A halt missed costs a reading more than one guessed in vain: so much, in log odds, is added to every guess.
_EAGER = 0.4
# So much, in log odds, a silence of that length speaks for a mark, a shorter one in proportion.
_SILENT, _SILENT_MS = 3.0, 700


class _Openers(NamedTuple):
    """The words that may begin a statement: the openers, and those that stand for a competitor."""

    openers: frozenset[str]
    subjects: frozenset[str]


@cache
def _openers(language: str) -> _Openers:
    speech = load_speech(language)
    colours = (name for names in speech.actors.colours.values() for name in names)
    return _Openers(frozenset(speech.statements.openers), frozenset((*speech.actors.subjects, *colours)))


def cut(transcript: Transcript, language: str = "en") -> Talk:
    """The transcript's tokens and the statements they form; every token belongs to exactly one statement."""
    speech = load_speech(language)
    tokens = tokenise(transcript, language)
    speakers = [cue.speaker for cue in transcript.cues]
    marks = sum([token.after in _SENTENCE_ENDS for token in tokens if token.after])
    punctuated = marks * _WORDS_PER_MARK >= len(tokens)
    tokens = _as_meant(tokens, surely_meant if punctuated else meant, language)
    openers, statements = _openers(language), speech.statements
    utterances: list[Utterance] = []
    first = 0
    for index, (before, here) in enumerate(zip_longest(tokens, tokens[1:]), 1):
        reason = "end of talk" if here is None else _border(before, here, speakers, statements.pause_ms)
        if not reason and not punctuated:
            weight = _evidence(tokens, index, index - first, openers, statements)
            reason = "evidence" if weight >= _ENOUGH else ""
        if reason:
            speaker = speakers[tokens[first].cue]
            utterances.append(Utterance(first=first, stop=index, speaker=speaker, cut=reason))
            first = index
    return Talk(
        tokens=tokens,
        utterances=tuple(utterances),
        halts=() if punctuated else _halts(tokens, statements, language),
    )


def _as_meant(
    tokens: tuple[Token, ...], by: Callable[[list[str], str], list[str]], language: str
) -> tuple[Token, ...]:
    """The tokens with the words that a recogniser wrote for others replaced by those."""
    words = by([token.text for token in tokens], language)
    return tuple(
        [
            token if token.text == word else token.model_copy(update={"text": word})
            for token, word in zip(tokens, words, strict=True)
        ]
    )


def _halts(tokens: tuple[Token, ...], statements: Statements, language: str) -> tuple[int, ...]:
    """The tokens before which bare talk rather halts than goes on."""
    likely = halts([token.text for token in tokens], language)
    misheard = load_speech(language).homophones
    waiting = {word for word in statements.unending if word not in misheard}
    return tuple(
        [
            at
            for at, weight in enumerate(likely)
            if at
            and not tokens[at].glued
            and tokens[at - 1].text not in waiting
            and weight + _EAGER + _waited(tokens[at - 1], tokens[at]) > 0
            and not _goes_on(tokens, at, statements)
        ]
    )


def _goes_on(tokens: tuple[Token, ...], index: int, statements: Statements) -> bool:
    """Whether words go on with what is before them: "four and a half"."""
    return any(
        [token.text for token in tokens[index : index + len(words)]] == words
        for words in (phrase.split() for phrase in statements.going_on)
    )


def _waited(before: Token, here: Token) -> float:
    """What the silence between two words adds to the guess that a mark stands there."""
    return _SILENT * min(max(here.start_ms - before.end_ms, 0) / _SILENT_MS, 1.0)


def _border(before: Token, here: Token, speakers: list[str | None], pause_ms: int) -> str:
    """Why a statement surely ends between two tokens; empty where it may go on."""
    if before.cue != here.cue and speakers[before.cue] != speakers[here.cue]:
        return "speaker"
    if before.after and before.after in _SENTENCE_ENDS:
        return "mark"
    # Captions break lines anywhere, but seldom wait in the middle of a sentence.
    pauses = _LONG_AT_CUE if before.cue != here.cue else _LONG
    return "pause" if here.start_ms - before.end_ms >= pauses * pause_ms else ""


def _evidence(
    tokens: tuple[Token, ...], index: int, length: int, words: _Openers, statements: Statements
) -> float:
    """How much speaks for a border before a token, 1 being enough."""
    before, here = tokens[index - 1], tokens[index]
    if before.text in statements.unending or _goes_on(tokens, index, statements):
        return 0.0
    openers, subjects = words
    weight = min(max(here.start_ms - before.end_ms, 0) / statements.pause_ms, 1.0) * _PAUSE
    weight += _CUE_END * (before.cue != here.cue)
    following = tokens[index + 1].text if index + 1 < len(tokens) else ""
    if here.text in openers and not here.glued and before.text not in openers:
        weight += _OPENER + _SUBJECT * (following in openers or following in subjects)
    elif here.text in subjects:
        weight += _SUBJECT
    # A border needs a reason in the words; length alone may only tip the scale.
    if weight:
        weight += _LENGTH * min(length / statements.longest, 1.0)
    return weight if length >= _SHORTEST or weight >= 2 * _ENOUGH else 0.0
