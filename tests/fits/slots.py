"""What stands before and behind names, and plain words, counted from text as it was spoken.

The first is ``lexicon/en/slots.toml``, the second, from bouts alone, ``plain.toml``.

Each place between words is counted by the one, two and three words before it and behind it; how often a name
of each kind starts or ends there is drawn to what the shorter context says, as if that had been seen
``_PRIOR`` times. What is kept are the log odds against any place, of contexts met in several texts.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

import numpy as np
from spoken import Line, pieces, place_of

from hikite.mentions import Matcher
from hikite.mentions.plain import Talked
from hikite.mentions.slots import BORDER, KINDS, LONGEST, Contexts, kind_of, stand_in
from hikite.mentions.streams import stream_of
from hikite.records import Talk
from hikite.sounds import Ear
from hikite.terms import Terms
from hikite.transcripts import read
from hikite.utterances import cut

SLOTS = Path(__file__).parents[2] / "lexicon/en/slots.toml"
PLAIN = SLOTS.with_name("plain.toml")
_PRIOR = 3.0
# A context is kept when met in as many texts, and when it says something else than the shorter one.
_TEXTS, _TELLING = 2, 0.8
_OFTEN = 2
Counts = dict[tuple[str, ...], "np.ndarray[tuple[int], np.dtype[np.float64]]"]


@dataclass(frozen=True)
class Text:
    """Words in stretches, of a bout or not, and the names among them: first word, end, number of the kind."""

    source: str
    bout: bool
    stretches: tuple[tuple[str, ...], ...]
    names: tuple[tuple[tuple[int, int, int], ...], ...]


def sentence_texts(lines: Iterable[Line], terms: Terms) -> list[Text]:
    """The sentences as they were spoken, each once."""
    texts: dict[str, Text] = {}
    for line in lines:
        if line.key in texts:
            continue
        words, _ = pieces(line.said)
        taken: set[int] = set()
        names = []
        for truth in line.truths:
            place = place_of(pieces(truth.term)[0], words, 0.0, taken)
            if place and truth.concepts:
                kind = terms.concepts[min(truth.concepts)].kind
                names.append((*place, kind_of(kind)))
        texts[line.key] = Text(line.frame or line.key, False, (tuple(words),), (tuple(names),))
    return list(texts.values())


def bout_texts(folder: Path, matcher: Matcher) -> list[Text]:
    """The well written bouts of a folder."""
    files = sorted(folder.glob("*.clean.vtt"))
    return [_bout_text(file.name.split(".")[0], cut(read(file)), matcher) for file in files]


def _bout_text(source: str, talk: Talk, matcher: Matcher) -> Text:
    """A well written bout with the names that stand in it as written."""
    stream = stream_of(talk)
    borders = [0, *(np.flatnonzero(stream.run[1:] != stream.run[:-1]) + 1).tolist(), len(stream.words)]
    found = [
        (one.first, one.stop, kind_of(one.kind))
        for one in matcher.find(talk)
        if one.candidates[0].how == "exact" and one.kind not in ("landing", "position")
    ]
    return Text(
        source,
        True,
        tuple(stream.words[low:high] for low, high in pairwise(borders)),
        tuple(
            tuple((one - low, two - low, kind) for one, two, kind in found if low <= one and two <= high)
            for low, high in pairwise(borders)
        ),
    )


def counted_contexts(texts: list[Text], ear: Ear) -> Contexts:
    """The contexts of these texts."""
    met: dict[str, set[str]] = defaultdict(set)
    for text in texts:
        for stretch in text.stretches:
            for word in stretch:
                met[word].add(text.source)
    listed = {word for word, sources in met.items() if len(sources) >= _TEXTS}
    sides = []
    for behind in (False, True):
        counts: Counts = defaultdict(lambda: np.zeros(len(KINDS) + 1))
        sources: dict[tuple[str, ...], set[str]] = defaultdict(set)
        for text in texts:
            for context, kind in _places(text, listed, ear, behind):
                counts[context][-1] += 1
                sources[context].add(text.source)
                if kind is not None:
                    counts[context][kind] += 1
        kept = {context for context in counts if len(sources[context]) >= _TEXTS}
        sides.append(_odds(counts, kept, behind))
    return Contexts(before=sides[0], behind=sides[1])


def _places(
    text: Text, listed: set[str], ear: Ear, behind: bool
) -> Iterator[tuple[tuple[str, ...], int | None]]:
    """Every context around every place, outwards, and the kind of the name that starts or ends there."""
    for stretch, names in zip(text.stretches, text.names, strict=True):
        words = [word if word in listed else stand_in(word, ear) for word in stretch]
        edges = {(stop if behind else first): kind for first, stop, kind in names}
        inside = {at for first, stop, _ in names for at in range(first + 1, stop)}
        for at in range(behind, len(words) + behind):
            if at in inside:
                continue
            outwards = words[at:] if behind else words[:at][::-1]
            outwards = [*outwards[:LONGEST], BORDER][:LONGEST]
            for size in range(len(outwards) + 1):
                yield tuple(outwards[:size]), edges.get(at)


def _odds(counts: Counts, kept: set[tuple[str, ...]], behind: bool) -> dict[str, tuple[float, ...]]:
    """The log odds of the kept contexts against any place."""
    shares: dict[tuple[str, ...], np.ndarray[tuple[int], np.dtype[np.float64]]] = {}
    for context in sorted(kept, key=len):
        seen = counts[context]
        shorter = shares.get(context[:-1])
        if shorter is None:
            shares[context] = (seen[:-1] + 0.5) / (seen[-1] + 1.5)
        else:
            shares[context] = (seen[:-1] + _PRIOR * shorter) / (seen[-1] + _PRIOR)
    logits = {context: np.log(share / (1 - share)) for context, share in shares.items()}
    found: dict[str, tuple[float, ...]] = {}
    said: dict[tuple[str, ...], np.ndarray[tuple[int], np.dtype[np.float64]]] = {(): np.zeros(len(KINDS))}
    for context in sorted(kept - {()}, key=lambda one: (len(one), one)):
        odds = np.round(logits[context] - logits[()], 1)
        fallback = next(
            said[context[:size]] for size in range(len(context) - 1, -1, -1) if context[:size] in said
        )
        if np.abs(odds - fallback).max() >= _TELLING:
            said[context] = odds
            found[" ".join(context if behind else context[::-1])] = tuple(odds.tolist())
    return found


def counted_plain(texts: list[Text]) -> Talked:
    """The words of these texts that are in no name, and pairs of them."""
    words: Counter[str] = Counter()
    pairs: Counter[str] = Counter()
    for text in texts:
        for stretch, names in zip(text.stretches, text.names, strict=True):
            inside = {at for first, stop, _ in names for at in range(first, stop)}
            words.update(word for at, word in enumerate(stretch) if at not in inside)
            pairs.update(
                f"{stretch[at - 1]} {stretch[at]}"
                for at in range(1, len(stretch))
                if at not in inside and at - 1 not in inside
            )
    return Talked(
        total=words.total(),
        words={word: count for word, count in words.items() if count >= _OFTEN},
        pairs={pair: count for pair, count in pairs.items() if count >= _OFTEN},
    )


def write(contexts: Contexts, talked: Talked) -> None:
    """Put both into the lexicon."""
    parts = _head(SLOTS)
    for side in ("before", "behind"):
        parts += ["", f"[{side}]"]
        odds: dict[str, tuple[float, float, float]] = getattr(contexts, side)
        ordered = sorted(odds, key=lambda said: said.split()[::-1] if side == "before" else said.split())
        parts += [f'"{said}" = [{", ".join(f"{one:.1f}" for one in odds[said])}]' for said in ordered]
    SLOTS.write_text("\n".join(parts) + "\n", "utf-8")
    parts = [*_head(PLAIN), "", f"total = {talked.total}"]
    for part in ("words", "pairs"):
        parts += [
            "",
            f"[{part}]",
            *(f'"{said}" = {count}' for said, count in sorted(getattr(talked, part).items())),
        ]
    PLAIN.write_text("\n".join(parts) + "\n", "utf-8")


def _head(file: Path) -> list[str]:
    return [line for line in file.read_text("utf-8").split("\n") if line.startswith("#")]
