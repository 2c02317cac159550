"""Recognised sentences with truth, as one stream of words whose sentences no name crosses."""

import json
import re
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from hikite.mentions.streams import Stream
from hikite.sounds import squash
from hikite.terms import Terms
from hikite.terms.words import normalised

_PIECE = re.compile(r"\d+|[^\W\d_]+|'(?:s|re|ve|ll|d|m)\b|[.,?!;:…]")


@dataclass(frozen=True)
class Truth:
    """One name that was spoken: the concepts that are right, and the words it was heard as, where known."""

    term: str
    concepts: frozenset[str]
    language: str
    survives: bool
    first: int | None
    stop: int | None


@dataclass(frozen=True)
class Line:
    """One recognised sentence: its words ``first`` to ``stop`` of the stream and what was said in it."""

    key: str
    recogniser: str
    voice: str
    level: str
    chatter: bool
    first: int
    stop: int
    said: str
    truths: tuple[Truth, ...]


def pieces(text: str) -> tuple[list[str], list[str]]:
    """The words of a text as the talk has them, and the mark behind each."""
    words: list[str] = []
    marks: list[str] = []
    for match in _PIECE.finditer(text.lower().replace("’", "'")):
        piece = match.group()
        if piece in ".,?!;:…":
            if marks:
                marks[-1] = marks[-1] or piece
        else:
            words.append(squash(piece) or "·")
            marks.append("")
    return words, marks


def counted(truth: dict[str, str]) -> bool:
    """Clock readings and points are read from numbers elsewhere; they are no names."""
    return truth["kind"] != "clock" and not truth["canonical"].endswith(" points")


def read_lines(file: Path, terms: Terms, levels: tuple[str, ...]) -> tuple[list[Line], Stream, set[str]]:
    """The lines of the wanted levels, the stream they form, and the terms that the lexicon does not know."""
    by_form: dict[str, set[str]] = defaultdict(set)
    for name in terms.names:
        by_form[normalised(name.form)].add(name.concept)
    lines: list[Line] = []
    words: list[str] = []
    marks: list[str] = []
    run: list[int] = []
    unknown: set[str] = set()
    for row in map(json.loads, file.read_text("utf-8").splitlines()):
        if row["level"] not in levels or row["loop"]:
            continue
        heard, behind = pieces(row["asr"])
        truths = []
        taken: set[int] = set()
        for truth in row["truth"]:
            wanted = by_form[normalised(truth["term"])] | by_form[normalised(truth["canonical"])]
            wanted |= {each for each in (truth["canonical"],) if each in terms.concepts}
            if not counted(truth):
                wanted = set()
            elif not wanted:
                unknown.add(truth["canonical"])
            place = _place(pieces(truth["heard"] or "")[0], heard, truth["start"] / len(row["text"]), taken)
            first, stop = (len(words) + place[0], len(words) + place[1]) if place else (None, None)
            truths.append(
                Truth(truth["term"], frozenset(wanted), truth["lang"], truth["survives"], first, stop)
            )
        lines.append(
            Line(
                row["sids"][0],
                row["asr_engine"],
                row["voice"].split(":")[0],
                row["level"],
                row["frames"] == ["NEG"],
                len(words),
                len(words) + len(heard),
                row["text"],
                tuple(truths),
            )
        )
        words += heard
        marks += behind
        run += [len(lines)] * len(heard)
    return lines, Stream(tuple(words), np.array(run, np.int64), tuple(marks)), unknown


def _place(wanted: list[str], heard: list[str], share: float, taken: set[int]) -> tuple[int, int] | None:
    """Where the words stand, the nearest place to where they were spoken."""
    size = len(wanted)
    places = [
        at
        for at in range(len(heard) - size + 1)
        if size and heard[at : at + size] == wanted and at not in taken
    ]
    if not places:
        return None
    at = min(places, key=lambda place: abs(place - share * len(heard)))
    taken.add(at)
    return at, at + size
