"""Precision, recall and false alarms of the mentions found in recognised sentences with truth."""

import random
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from spoken import Line, Truth, pieces

from hikite.mentions import Matcher
from hikite.mentions.covers import Found
from hikite.mentions.streams import Stream
from hikite.terms import Terms

# What the truth of the sentences does not hold, so that finding it there is no error.
_UNMARKED = ("landing", "position", "result")


@dataclass(frozen=True)
class Settings:
    """Weights and least probability to try in place of the lexicon's, and how many errors to show."""

    weights: npt.NDArray[np.float64]
    least: float
    show: int


def figures(
    matcher: Matcher,
    terms: Terms,
    lines: list[Line],
    stream: Stream,
    settings: Settings,
    wanted: Callable[[Line], bool],
) -> str:
    """One line of figures over the wanted lines."""
    found = matcher.cover(stream, settings.weights, settings.least)
    starts = [line.first for line in lines]
    of_line: dict[int, list[Found]] = {}
    for find in found:
        of_line.setdefault(int(np.searchsorted(starts, find.first, "right")) - 1, []).append(find)
    counts: Counter[str] = Counter()
    errors: list[str] = []
    for number, line in enumerate(lines):
        if wanted(line):
            _count(line, of_line.get(number, []), terms, _said(matcher, terms, line), counts, errors, stream)
    for error in random.Random(settings.show).sample(errors, min(settings.show, len(errors))):
        print("   ", error)
    return _written(counts, settings.least)


def _said(matcher: Matcher, terms: Terms, line: Line) -> set[str]:
    """Every concept written in the sentence as it was spoken, marked in the truth or not."""
    words, marks = pieces(line.said)
    stream = Stream(tuple(words), np.zeros(len(words), np.int64), tuple(marks))
    return {terms.names[match.name].concept for match in matcher.written(stream)} if words else set()


def _count(
    line: Line,
    found: list[Found],
    terms: Terms,
    said: set[str],
    counts: Counter[str],
    errors: list[str],
    stream: Stream,
) -> None:
    def right(find: Found, truth: Truth) -> bool:
        return any(terms.same(find.candidates[0].concept, each) for each in truth.concepts) and (
            truth.first is None or _overlap(find, truth)
        )

    used: set[int] = set()
    for truth in line.truths:
        if not truth.concepts:
            used |= {at for at, find in enumerate(found) if _overlap(find, truth)}
            continue
        hits = [at for at, find in enumerate(found) if at not in used and right(find, truth)]
        used |= set(hits[:1])
        kind = "kept" if truth.survives else "garbled"
        counts[f"{kind} truths"] += 1
        counts[f"{kind} hits"] += bool(hits)
        counts[f"{line.recogniser} truths"] += 1
        counts[f"{line.recogniser} hits"] += bool(hits)
        if not hits:
            heard = " ".join(stream.words[truth.first : truth.stop]) if truth.first is not None else "?"
            errors.append(f"missed {truth.term!r} heard {heard!r}")
    for at, find in enumerate(found):
        best = find.candidates[0]
        concept = terms.concepts[best.concept]
        if at in used or concept.generic or concept.kind in _UNMARKED or best.concept in said:
            continue
        place = "chatter" if line.chatter else "wrong"
        counts[place] += 1
        counts[f"{place} by {best.how}"] += 1
        counts[f"{line.recogniser} wrong"] += 1
        words = " ".join(stream.words[find.first : find.stop])
        errors.append(f"{place} {words!r} as {best.concept} {best.how} {best.probability}")
    counts["chatter words"] += (line.stop - line.first) * line.chatter


def _overlap(find: Found, truth: Truth) -> bool:
    return (
        truth.first is not None
        and truth.stop is not None
        and find.first < truth.stop
        and find.stop > truth.first
    )


def _written(counts: Counter[str], least: float) -> str:
    hits = counts["kept hits"] + counts["garbled hits"]
    truths = counts["kept truths"] + counts["garbled truths"]
    parts = [
        f"least {least}",
        _rates(hits, counts["wrong"], truths),
        f"kept R {counts['kept hits'] / max(counts['kept truths'], 1):.3f} of {counts['kept truths']}",
        "garbled " + _rates(counts["garbled hits"], counts["wrong by sound"], counts["garbled truths"]),
        f"chatter {1000 * counts['chatter'] / max(counts['chatter words'], 1):.1f} per 1,000 of "
        f"{counts['chatter words']} (by sound {counts['chatter by sound']}, as written "
        f"{counts['chatter'] - counts['chatter by sound']})",
    ]
    for name in sorted(key[:-7] for key in counts if key.endswith(" truths")):
        if name not in ("kept", "garbled"):
            rates = _rates(counts[f"{name} hits"], counts[f"{name} wrong"], counts[f"{name} truths"])
            parts.append(f"{name} {rates}")
    return " | ".join(parts)


def _rates(hits: int, wrong: int, truths: int) -> str:
    precision, recall = hits / max(hits + wrong, 1), hits / max(truths, 1)
    return f"P {precision:.3f} R {recall:.3f} F1 {2 * precision * recall / max(precision + recall, 1e-9):.3f}"
