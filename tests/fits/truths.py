"""Which of the names that were heard were said: by recognised sentences with truth, and by labelled bouts.

In a bout a name is of an event when it is heard while its line is spoken, about where the name stands in the
line, and does not stand there as written. Names of what is labelled nearby are left out, all others wrong.
Of a well written bout nothing is right: what is said there stands as written.
"""

import json
from collections import defaultdict
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
from contest import Rows
from spoken import Line

from hikite.mentions import Matcher
from hikite.mentions.exact import Match
from hikite.mentions.soundings import Soundings
from hikite.mentions.streams import Stream, stream_of
from hikite.records import Talk
from hikite.terms import Terms
from hikite.terms.words import normalised
from hikite.transcripts import read
from hikite.utterances import cut

_SECONDS, _ASTRAY_S, _FAR = 2.0, 1.5, 0.36
_STRETCH = 25
_UNMARKED = ("landing", "position", "result")


@dataclass(frozen=True)
class Bout:
    """A bout's talk with what was heard in it, and the labelled events."""

    author: str
    clean: bool
    talk: Talk
    stream: Stream
    found: Soundings
    matches: list[Match]
    events: list[dict[str, Any]]
    lines: list[dict[str, Any]]


class Sameness:
    """Whether a concept by number is the same as one of several, remembered."""

    def __init__(self, matcher: Matcher, terms: Terms) -> None:
        self._concepts, self._terms = matcher.concepts, terms
        self._known: dict[tuple[int, frozenset[str]], bool] = {}

    def __call__(self, concept: int, others: frozenset[str]) -> bool:
        known = self._known.get((concept, others))
        if known is None:
            known = any(self._terms.same(self._concepts[concept], other) for other in others)
            self._known[concept, others] = known
        return known


def sentence_rows(
    matcher: Matcher, terms: Terms, found: Soundings, lines: list[Line], matches: list[Match]
) -> Rows:
    """The rows of the recognised sentences, each line a stretch; those of no weight tell nothing."""
    same = Sameness(matcher, terms)
    first, stop = found.first[found.window], found.stop[found.window]
    starts = np.array([line.first for line in lines])
    of = np.searchsorted(starts, first, "right") - 1
    weight = np.where(
        _written_too(matcher, terms, found, matches) | _unmarked(matcher, terms, found), 0.0, 1.0
    )
    truth = np.full(len(first), -1, np.int64)
    edges = np.searchsorted(of, np.arange(len(lines) + 1))
    number = -1
    for at, line in enumerate(lines):
        for one in line.truths:
            number += 1
            for row in range(edges[at], edges[at + 1]):
                if not same(int(found.concepts[row]), one.concepts):
                    continue
                if one.first is None or one.stop is None:
                    weight[row] = 0.0
                    continue
                shared = min(stop[row], one.stop) - max(first[row], one.first)
                most = max(stop[row], one.stop) - min(first[row], one.first)
                if shared * 2 >= most:
                    truth[row], weight[row] = number, 1.0
                elif shared > 0 and truth[row] < 0:
                    weight[row] = 0.0
    return Rows(of, first - starts[of], stop - starts[of], found.signs, truth, weight)


def _unmarked(matcher: Matcher, terms: Terms, found: Soundings) -> npt.NDArray[np.bool_]:
    concepts = [terms.concepts[concept] for concept in matcher.concepts]
    return np.array([one.kind in _UNMARKED or one.generic for one in concepts])[found.concepts]


def _written_too(
    matcher: Matcher, terms: Terms, found: Soundings, matches: list[Match]
) -> npt.NDArray[np.bool_]:
    """Rows whose concept stands there as written: they teach nothing about sound."""
    spans: dict[int, set[str]] = defaultdict(set)
    for match in matches:
        for at in range(match.first, match.stop):
            spans[at].add(terms.names[match.name].concept)
    same = Sameness(matcher, terms)
    flags = np.zeros(len(found.concepts), np.bool_)
    for window, (low, high) in enumerate(zip(found.heads.tolist(), found.ends.tolist(), strict=True)):
        here = [spans[at] for at in range(int(found.first[window]), int(found.stop[window])) if at in spans]
        if here:
            written = frozenset().union(*here)
            flags[low:high] = [same(int(concept), written) for concept in found.concepts[low:high]]
    return flags


def read_bouts(matcher: Matcher, folder: Path) -> list[Bout]:
    """All bouts of a folder, recognised and well written."""
    bouts = []
    for gold in sorted(folder.glob("*.gold.json")):
        truth = json.loads(gold.read_text("utf-8"))
        for variant in ("clean", "base"):
            captions = gold.with_name(gold.name.replace(".gold.json", f".{variant}.vtt"))
            if captions.exists():
                talk = cut(read(captions))
                stream = stream_of(talk)
                found, matches = matcher.soundings(stream)
                author, clean = gold.name[0], variant == "clean"
                bouts.append(
                    Bout(author, clean, talk, stream, found, matches, truth["events"], truth["lines"])
                )
    return bouts


def bout_rows(terms: Terms, matcher: Matcher, bout: Bout) -> Rows:
    """The rows of one bout, cut into stretches of some statements."""
    found = bout.found
    same = Sameness(matcher, terms)
    first, stop = found.first[found.window], found.stop[found.window]
    starts = np.array([token.start_ms for token in bout.talk.tokens])[first] / 1000
    ends = np.array([token.end_ms for token in bout.talk.tokens])[stop - 1] / 1000
    left_out = _written_too(matcher, terms, found, bout.matches) | _unmarked(matcher, terms, found)
    truth = np.full(len(first), -1, np.int64)
    for number, event in enumerate(bout.events):
        meant = frozenset((event["concept"], *event.get("accept", ())))
        low, high = event["start_s"], event["end_s"]
        near = np.flatnonzero((starts <= high + _SECONDS) & (ends >= low - _SECONDS))
        near = near[[same(int(found.concepts[row]), meant) for row in near]] if len(near) else near
        place = None if bout.clean else _place(bout, event, meant, terms)
        left_out[near] |= True
        if place is None or not len(near):
            continue
        middle = (starts[near] + ends[near]) / 2
        here = near[(np.abs(middle - place) <= _ASTRAY_S) & (found.signs[near, 1] <= _FAR)]
        here = here[truth[here] < 0]
        truth[here], left_out[here] = number, False
    left_out[truth >= 0] = False
    stretch, low_of = _stretches(bout)
    crossing = stretch[first] != stretch[stop - 1]
    kept = ~left_out & ~crossing
    rows = Rows(
        stretch[first], first - low_of[first], stop - low_of[first], found.signs, truth, np.ones(len(first))
    )
    return rows.of(kept)


def _place(bout: Bout, event: dict[str, Any], meant: frozenset[str], terms: Terms) -> float | None:
    """When the event's name was spoken; nothing where it is no name, or stands there as written."""
    said = str(event["said"])
    if not any(terms.same(one, other) for one in terms.lookup(normalised(said)) for other in meant):
        return None
    low, high = event["start_s"], event["end_s"]
    for match in bout.matches:
        time = bout.talk.tokens[match.first].start_ms / 1000
        if low - _SECONDS <= time <= high + _SECONDS and any(
            terms.same(terms.names[match.name].concept, one) for one in meant
        ):
            return None
    text = str(bout.lines[event["line"]]["text"])
    share = (text.find(said) + len(said) / 2) / max(len(text), 1)
    return low + share * (high - low)


def _stretches(bout: Bout) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.int64]]:
    """The stretch of each word, and the first word of that stretch."""
    opens = [0]
    for utterance in bout.talk.utterances:
        if utterance.first - opens[-1] >= _STRETCH:
            opens.append(utterance.first)
    new = np.zeros(len(bout.talk.tokens), np.int64)
    new[opens] = 1
    stretch = np.cumsum(new) - 1
    return stretch, np.array(opens)[stretch]
