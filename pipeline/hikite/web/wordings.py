"""What the notes and the verses say, in words."""

from collections.abc import Iterator

from hikite.outputs.entries import Entry
from hikite.outputs.phrases import stamp
from hikite.records import Recording
from hikite.web.verses import Word

DONE = {"accept": "accepted", "correct": "corrected", "same": "told again", "add": "added"}
STRUCK = {"reject": "{} struck out", "split": "a bout begins here", "merge": "no bout begins here"}
_UNTOLD = frozenset({"score", "clock", "stated_score", "landing", "stoppage", "result"})
"""Kinds of which "stated" or "given" goes without saying."""


def chance_of(entry: Entry) -> float:
    """P(the whole of what the note says): as entered, and of its side and status."""
    chance = entry.confidence
    if not entry.counts:
        chance *= entry.status_confidence
        chance *= entry.side_confidence if entry.side else 1.0
    return chance


def what_of(entry: Entry) -> str:
    """What it was: ``ura-nage (rear throw)``, ``clock 2:31``, ``score stated 4–2``."""
    if entry.kind == "stated_score":
        told = "–".join(str(tally.points) for tally in entry.stated.values() if tally.points is not None)
        return f"score stated {told}".strip()
    if entry.kind == "clock":
        return f"clock {stamp((entry.seconds or 0) * 1000)}{' gone' if entry.elapsed else ''}"
    if entry.kind == "score" and entry.concept in ("points", entry.score_class):
        return "score"
    if entry.kind == "result":
        return f"win: {entry.label}"
    named = set(entry.label.replace("-", " ").split())
    qualities = [one.replace("-", " ") for one in entry.attributes if not named & set(one.split("-"))]
    return " ".join([*(one for one in qualities if ":" not in one), entry.label])


def how_of(entry: Entry) -> str:
    """How it went: ``completed``, ``running, 14 s``; nothing where that goes without saying."""
    parts: list[str] = [] if entry.kind in _UNTOLD and entry.status in ("stated", "given") else [entry.status]
    if entry.kind == "hold" and entry.seconds:
        parts.append(f"{entry.seconds} s")
    if entry.unspoken:
        parts.append("not heard called")
    if entry.fell is not None:
        parts.append("thrower down too" if entry.fell else "thrower stayed up")
    return ", ".join(parts)


def words_of(recording: Recording, first: int, stop: int) -> Iterator[Word]:
    """The written words of a token range: pieces of one word together, punctuation and spaces behind."""
    cues, tokens = recording.transcript.cues, recording.talk.tokens
    text, at = "", tokens[first].start_ms if first < stop else 0
    for index in range(first, stop):
        token = tokens[index]
        following = tokens[index + 1] if index + 1 < len(tokens) else None
        whole = cues[token.cue].text
        same = following is not None and following.cue == token.cue
        if index == 0 or tokens[index - 1].cue != token.cue:
            text += whole[: token.start]
        behind = whole[token.stop : following.start] if same and following else whole[token.stop :] + " "
        text += whole[token.start : token.stop] + behind.replace("\n", " ")
        if following is None or not following.glued or index + 1 == stop:
            yield Word(text=text, at_ms=at)
            text, at = "", following.start_ms if following else at
