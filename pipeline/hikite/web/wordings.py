"""What the notes and the verses say, in words."""

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


def precise(ms: int) -> str:
    """A time to the millisecond: ``3:07``, ``3:07.5``."""
    rest = ms % 1000
    return f"{stamp(ms)}.{rest:03d}".rstrip("0") if rest else stamp(ms)


def pieces_of(recording: Recording) -> tuple[Word, ...]:
    """Every token as written, with what is behind it up to the next, of a caption's first what is before."""
    found, cues, cue, text, stop = [], recording.transcript.cues, -1, "", 0
    tokens = recording.talk.tokens
    ends = [*(token.start for token in tokens[1:]), 0]
    following = [*(token.cue for token in tokens[1:]), -1]
    for token, end, next_cue in zip(tokens, ends, following, strict=True):
        begin = token.start
        if token.cue != cue:
            cue, begin = token.cue, 0
            text = cues[cue].text.replace("\n", " ") + " "
        stop = end if next_cue == cue else len(text)
        found.append(Word(text[begin:stop], token.start_ms))
    return tuple(found)


def words_of(pieces: tuple[Word, ...], glued: tuple[bool, ...], first: int, stop: int) -> tuple[Word, ...]:
    """The written words of a token range: pieces of one word together."""
    found: list[Word] = []
    for index in range(first, stop):
        if glued[index] and index > first:
            whole, at_ms = found[-1]
            found[-1] = Word(whole + pieces[index].text, at_ms)
        else:
            found.append(pieces[index])
    return tuple(found)
