"""Invented commentary made a talk with its competitors pointed at, and what is heard in it."""

import re

from hikite.claims.references import Reference
from hikite.claims.said import find_said
from hikite.records import Candidate, Claim, Cue, How, Mention, Talk, Transcript, Word
from hikite.utterances import cut

SIDES = ("red", "blue")
# Invented competitors: Orsan of Velmark in red, Tarik of Dunhollow in blue.
_NAMES = {
    "orsan": "red",
    "velmark": "red",
    "tarik": "blue",
    "dunhollow": "blue",
    "red": "red",
    "blue": "blue",
}
# What points at whichever of them was not spoken of.
_OTHERS = (("the", "other", "man"), ("the", "other", "side"), ("his", "opponent"))
_MS_A_LETTER = 75


def talk_of(*lines: str) -> Talk:
    """The lines as one punctuated talk, one cue a line, speakers "A:" and "B:" where written."""
    cues, start = [], 0
    for number, line in enumerate(lines, 1):
        speaker = line[0] if re.match("[A-Z]: ", line) else None
        text = line[2:].strip() if speaker else line
        words = tuple(
            Word(
                text=found.group(),
                start=found.start(),
                stop=found.end(),
                start_ms=start + found.start() * _MS_A_LETTER,
                end_ms=start + found.end() * _MS_A_LETTER,
            )
            for found in re.finditer(r"\S+", text)
        )
        end = start + len(text) * _MS_A_LETTER
        cue = Cue(text=text, start_ms=start, end_ms=end, words=words, line=number, speaker=speaker)
        cues.append(cue)
        start = end + 300
    return cut(Transcript(source="said", format="lines", encoding="utf-8", sha256="", cues=tuple(cues)))


def actors_of(talk: Talk) -> tuple[Reference, ...]:
    """Names and colours, and pronouns that point at nobody in particular."""
    found = []
    for index, token in enumerate(talk.tokens):
        if token.text in _NAMES:
            how = "colour" if token.text in SIDES else "name"
            found.append(Reference(first=index, stop=index + 1, side=_NAMES[token.text], how=how))
        elif token.text in ("he", "she", "him", "her"):
            how = "object" if token.text in ("him", "her") else "subject"
            found.append(Reference(first=index, stop=index + 1, side="", how=how))
        for other in _OTHERS:
            if tuple(talk.texts[index : index + len(other)]) == other:
                found.append(Reference(first=index, stop=index + len(other), side="", how="opponent"))
    return tuple(found)


def hear(
    *lines: str,
    kind: str | None = None,
    points: bool | None = True,
    duration_s: int | None = 300,
    mentions: tuple[tuple[str, str, str], ...] = (),
    how: How = "exact",
    probability: float = 1.0,
) -> list[Claim]:
    """What is claimed in the lines, of one kind or all; mentions are (words, kind, concept)."""
    talk = talk_of(*lines)
    met = tuple(_mention(talk, *mention, how, probability) for mention in mentions)
    claims = find_said(talk, met, actors_of(talk), SIDES, points=points, duration_s=duration_s)
    return [claim for claim in claims if kind in (None, claim.kind)]


def words_of(claim: Claim, *lines: str) -> str:
    """The words a claim rests on."""
    return talk_of(*lines).words(claim.first, claim.stop)


def _mention(talk: Talk, words: str, kind: str, concept: str, how: How, probability: float) -> Mention:
    said = words.split()
    texts = [token.text for token in talk.tokens]
    first = next(at for at in range(len(texts)) if texts[at : at + len(said)] == said)
    candidate = Candidate(concept=concept, probability=probability, form=words, how=how)
    return Mention.model_validate(
        {"first": first, "stop": first + len(said), "kind": kind, "candidates": (candidate,)}
    )
