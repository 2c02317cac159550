"""Fits ``lexicon/en/confusions.toml``: what it costs to hear one sound as another.

    python tests/fits/confusions.py asr-dev.jsonl [--rounds 2] [--write]

Every figure of the file is moved up and down in turn; a move is kept when names spoken in the fitted half of
the recognised sentences (halved as in ``hearing.py``) then stand out better from all other names that sound
alike. A figure far from where it stood must earn it.
"""

import argparse
import math
import re
import tomllib
from pathlib import Path

import numpy as np
import numpy.typing as npt
from hearing import fitted, half
from spoken import Line, read_lines

from hikite.mentions import Matcher
from hikite.mentions.hearing import Heard, Sounded
from hikite.mentions.streams import Stream
from hikite.sounds.distances import Confusions, Costs, coded
from hikite.terms import Name, Terms, load_terms

Vector = npt.NDArray[np.float64]
_FILE = Path(__file__).parents[2] / "lexicon/en/confusions.toml"
_STEPS = (0.8, 1.25)
_SHIFTS = (-0.15, 0.15)
_LEAST_GAIN = 0.3
_HOLD = 1.5
Key = tuple[str, str, int]


class Pairs:
    """Every window and name that may be meant there, and whether it was."""

    def __init__(
        self, heard: Heard, names: tuple[Name, ...], terms: Terms, lines: list[Line], stream: Stream
    ) -> None:
        found = heard.find(stream)
        self._heard, self._entry = heard, found.entry
        ids = heard.vocabulary.numbers(stream.words).tolist()
        spans = list(zip(found.first.tolist(), (found.first + found.size).tolist(), strict=True))
        self._readings = [
            ["".join(reading.sounds[word] for word in ids[a:b]) for a, b in spans]
            for reading in heard.vocabulary.readings
        ]
        starts = np.array([line.first for line in lines])
        of = [lines[at] for at in np.searchsorted(starts, found.first, "right") - 1]
        self.fit = np.array([not half(line.key) for line in of])
        self.right, self.weight = self._labels(found, of, names, terms)
        levels = np.minimum(heard.vocabulary.levels[ids], 14)
        sums = np.concatenate([[0], np.cumsum(levels)])
        self._common = (sums[found.first + found.size] - sums[found.first]) / found.size / 10
        self._size = found.size

    def _labels(
        self, found: Sounded, of: list[Line], names: tuple[Name, ...], terms: Terms
    ) -> tuple[Vector, Vector]:
        right, weight = np.zeros(len(of)), np.ones(len(of))
        concepts = [{names[at].concept for at in entry} for entry in self._heard.names]
        for at, line in enumerate(of):
            first, stop = int(found.first[at]), int(found.first[at] + found.size[at])
            for truth in line.truths:
                mine = concepts[found.entry[at]]
                if not any(terms.same(one, two) for one in mine for two in truth.concepts):
                    continue
                if truth.first is None or truth.stop is None:
                    weight[at] *= right[at]
                    continue
                shared = min(stop, truth.stop) - max(first, truth.first)
                if shared * 2 >= max(stop, truth.stop) - min(first, truth.first):
                    right[at] = weight[at] = 1.0
                elif not right[at]:
                    weight[at] = float(shared <= 0)
        return right, weight

    def losses(self, confusions: Confusions) -> tuple[float, float]:
        """The negative log likelihood of the fitted half and of the other, under these costs."""
        costs, heard = Costs(confusions), self._heard
        meant, meant_sizes = coded(heard.readings)
        best = np.full(len(self._entry), np.inf)
        for reading in self._readings:
            codes, sizes = coded(reading)
            cost = costs.distances(codes, sizes, meant[self._entry], meant_sizes[self._entry])
            best = np.minimum(best, cost / ((sizes + meant_sizes[self._entry]) / 2 + 1))
        sounds = np.log(heard.lengths[self._entry])
        ones = np.ones(len(best))
        signs = np.stack(
            [ones, best, best**2, best * sounds, sounds, self._common, self._common * sounds, self._size],
            axis=1,
        )
        mine = self.fit
        weights = fitted(signs[mine], self.right[mine], self.weight[mine])
        odds = signs @ weights
        loss = self.weight * (np.logaddexp(0, odds) - self.right * odds)
        return float(loss[mine].sum()), float(loss[~mine].sum())


def moved(confusions: Confusions, key: Key, step: int) -> Confusions:
    """The same figures with one of them moved down (0) or up (1)."""
    kind, name, at = key
    if kind == "pairs":
        pairs = {**confusions.pairs, name: confusions.pairs[name] * _STEPS[step]}
        return confusions.model_copy(update={"pairs": pairs})
    if kind == "vowels":
        place = list(confusions.vowels[name])
        place[at] += _SHIFTS[step]
        return confusions.model_copy(update={"vowels": {**confusions.vowels, name: (place[0], place[1])}})
    return confusions.model_copy(update={name: getattr(confusions, name) * _STEPS[step]})


def held(confusions: Confusions, start: Confusions) -> float:
    """What the pairs pay for having moved."""
    return _HOLD * sum(math.log(cost / start.pairs[pair]) ** 2 for pair, cost in confusions.pairs.items())


def keys(confusions: Confusions) -> list[Key]:
    """Every figure that may be moved."""
    plain = [name for name, value in confusions if isinstance(value, float)]
    return [
        *(("", name, 0) for name in plain),
        *(("pairs", name, 0) for name in confusions.pairs),
        *(("vowels", name, at) for name in confusions.vowels for at in (0, 1)),
    ]


def write(confusions: Confusions) -> None:
    """Put the figures into the lexicon, comments and order as they are."""
    text = _FILE.read_text("utf-8")
    for name, value in confusions:
        if isinstance(value, float):
            text = re.sub(rf"^{name} = .*$", f"{name} = {value:.2f}", text, flags=re.M)
    for name, cost in confusions.pairs.items():
        text = re.sub(rf"^{name} = [\d.]+$", f"{name} = {cost:.2f}", text, flags=re.M)
    for name, (across, down) in confusions.vowels.items():
        quoted = f'"{name}"' if name == "@" else name
        text = re.sub(rf"^{quoted} = \[.*$", f"{quoted} = [{across:.2f}, {down:.2f}]", text, flags=re.M)
    _FILE.write_text(text, "utf-8")


def main() -> None:
    """Fit, report and, when asked, write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("sentences", type=Path)
    parser.add_argument("--rounds", type=int, default=2)
    parser.add_argument("--write", action="store_true")
    asked = parser.parse_args()
    terms = load_terms()
    matcher = Matcher(terms)
    lines, stream, _ = read_lines(asked.sentences, terms, ("sentence", "single"))
    pairs = Pairs(matcher.heard, matcher.spoken, terms, lines, stream)
    start = now = Confusions.model_validate(tomllib.loads(_FILE.read_text("utf-8")))
    best, other = pairs.losses(now)
    print(f"pairs {len(pairs.right)}, meant {int(pairs.right.sum())}")
    print(f"start: fitted half {best:.1f} other half {other:.1f}")
    for number in range(asked.rounds):
        for key in keys(now):
            for step in (0, 1):
                tried = moved(now, key, step)
                loss, rest = pairs.losses(tried)
                if loss + held(tried, start) < best - _LEAST_GAIN:
                    now, best, other = tried, loss + held(tried, start), rest
                    break
        print(f"round {number + 1}: fitted half {best:.1f} other half {other:.1f}", flush=True)
    if asked.write:
        write(now)


if __name__ == "__main__":
    main()
