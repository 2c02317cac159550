"""Where one statement ends and the next begins, with punctuation or without."""

from hikite.records import Talk, Token, Transcript, Utterance
from hikite.terms.speech import Speech, load_speech
from hikite.utterances.tokens import tokenise

_SENTENCE_ENDS = frozenset(".?!…")
# Speech written down by a person ends a sentence at least this often; below it, marks are decoration.
_WORDS_PER_MARK = 40
# Evidence for a border, in parts of a whole one; a cue's end is a weak hint, since statements cross cues.
_OPENER, _SUBJECT, _CUE_END, _PAUSE, _LENGTH, _ENOUGH = 0.6, 0.4, 0.3, 1.0, 0.5, 1.0
_SHORTEST = 3


def cut(transcript: Transcript, language: str = "en") -> Talk:
    """The transcript's tokens and the statements they form; every token belongs to exactly one statement."""
    speech = load_speech(language)
    tokens = tokenise(transcript, speech.clitics)
    speakers = [cue.speaker for cue in transcript.cues]
    marks = sum(token.after in _SENTENCE_ENDS for token in tokens if token.after)
    punctuated = marks * _WORDS_PER_MARK >= len(tokens)
    utterances: list[Utterance] = []
    first = 0
    for index in range(1, len(tokens) + 1):
        reason = _border(tokens, first, index, speakers, punctuated, speech)
        if reason:
            speaker = speakers[tokens[first].cue]
            utterances.append(Utterance(first=first, stop=index, speaker=speaker, cut=reason))
            first = index
    return Talk(tokens=tokens, utterances=tuple(utterances))


def _border(
    tokens: tuple[Token, ...],
    first: int,
    index: int,
    speakers: list[str | None],
    punctuated: bool,
    speech: Speech,
) -> str:
    """Why a statement that began at ``first`` ends before ``index``; empty where it goes on."""
    if index == len(tokens):
        return "end of talk"
    before, here = tokens[index - 1], tokens[index]
    if speakers[before.cue] != speakers[here.cue]:
        return "speaker"
    if before.after and before.after in _SENTENCE_ENDS:
        return "mark"
    if here.start_ms - before.end_ms >= 3 * speech.statements.pause_ms:
        return "pause"
    if punctuated:
        return ""
    return "evidence" if _evidence(tokens, index, index - first, speech) >= _ENOUGH else ""


def _evidence(tokens: tuple[Token, ...], index: int, length: int, speech: Speech) -> float:
    """How much speaks for a border before a token, 1 being enough."""
    before, here = tokens[index - 1], tokens[index]
    openers, longest = speech.statements.openers, speech.statements.longest
    weight = min(max(here.start_ms - before.end_ms, 0) / speech.statements.pause_ms, 1.0) * _PAUSE
    weight += _CUE_END * (before.cue != here.cue)
    following = tokens[index + 1].text if index + 1 < len(tokens) else ""
    if here.text in openers and not here.glued and before.text not in openers:
        weight += _OPENER + _SUBJECT * (following in openers or _is_subject(following, speech))
    elif _is_subject(here.text, speech):
        weight += _SUBJECT
    # A border needs a reason in the words; length alone may only tip the scale.
    if weight:
        weight += _LENGTH * min(length / longest, 1.0)
    return weight if length >= _SHORTEST or weight >= 2 * _ENOUGH else 0.0


def _is_subject(word: str, speech: Speech) -> bool:
    return word in speech.actors.subjects or any(word in names for names in speech.actors.colours.values())
