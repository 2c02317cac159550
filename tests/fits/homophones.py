"""Fit which of two words that sound the same is meant: ``python tests/fits/homophones.py FOLDER [--write]``.

Every place where either stands in a written bout is an example, and the words around it tell which. Prints
how many are taken for the other on each annotator's bouts when fitted on the others' (an annotator is the
letter that begins a bout's id): of those that are truly it, and of those that are not. ``--write`` then fits
on all and writes the weights.
"""

import argparse
import json
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from regression import logistic, odds

from hikite.claims.said.numbers import find_numbers
from hikite.claims.said.wording import load_wording
from hikite.terms.speech import load_speech
from hikite.transcripts import read
from hikite.utterances.homophones import signs_around
from hikite.utterances.kinds import Kinds
from hikite.utterances.tokens import tokenise

WEIGHTS = Path(__file__).parents[2] / "lexicon/en/homophones.json"
STRENGTH, RAREST, SELDOM = 2.0, 2, 1.8
Examples = tuple[list[tuple[str, ...]], NDArray[np.float64]]


def examples(texts: Sequence[list[str]], written: str, other: str, kinds: Kinds) -> Examples:
    """The signs around either word, and 1 where it is the other."""
    spelt = {other, *(str(value) for value in [_value(other)] if value is not None)}
    found = [
        (tuple(signs_around(words, at, kinds)), float(word in spelt))
        for words in texts
        for at, word in enumerate(words)
        if word == written or word in spelt
    ]
    return [one for one, _ in found], np.array([other for _, other in found])


def _value(word: str) -> int | None:
    """A number word's value: recognisers write either."""
    found = find_numbers([word], [False], load_wording("en").numbers)
    return found[0].value if found else None


def told(own: Examples, weights: dict[str, float]) -> str:
    """How many are taken for the other word, rightly and wrongly."""
    taken, other = odds(own[0], weights) > SELDOM, own[1] > 0
    right, wrong = int((taken & other).sum()), int((taken & ~other).sum())
    return f"{right} of {int(other.sum())} found, {wrong} of {int((~other).sum())} wrongly"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--write", action="store_true")
    asked = parser.parse_args()
    kinds, weights = Kinds("en"), {}
    files = [file for kind in ("clean", "base") for file in sorted(asked.folder.glob(f"*.{kind}.vtt"))]
    texts = {file: [token.text for token in tokenise(read(file))] for file in files}
    for written, other in load_speech("en").homophones.items():
        for author in sorted({file.name[0] for file in files}):
            learnt = [words for file, words in texts.items() if file.name[0] != author]
            own = [words for file, words in texts.items() if file.name[0] == author]
            fitted = logistic(*examples(learnt, written, other, kinds), STRENGTH, RAREST)
            print(f"{written} for {other}, {author}:", told(examples(own, written, other, kinds), fitted))
        weights[written] = logistic(*examples(list(texts.values()), written, other, kinds), STRENGTH, RAREST)
    if asked.write:
        WEIGHTS.write_text(json.dumps(weights, ensure_ascii=False, indent=0, sort_keys=True) + "\n", "utf-8")


if __name__ == "__main__":
    main()
