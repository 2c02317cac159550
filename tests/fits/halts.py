"""Fit where bare talk halts on written bouts: ``python tests/fits/halts.py FOLDER [--write]``.

Every border between two words of a text with punctuation is an example; its marks are what is to be guessed
from the words alone. Prints precision and recall on each annotator's bouts when fitted on the others' (an
annotator is the letter that begins a bout's id). ``--write`` then fits on all and writes the weights.
"""

import argparse
import json
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from regression import logistic, odds

from hikite.transcripts import read
from hikite.utterances.halts import signs
from hikite.utterances.kinds import Kinds
from hikite.utterances.tokens import tokenise

WEIGHTS = Path(__file__).parents[2] / "lexicon/en/halts.json"
MARKS = frozenset(",;:.?!…—–")
STRENGTH, RAREST = 3.0, 3
# A text and, for each border between its words, whether a mark stands there.
Marked = tuple[list[str], list[bool]]


def marked(file: Path) -> Marked:
    """The words of a written talk and its marks."""
    transcript = read(file)
    tokens = tokenise(transcript)
    speakers = [cue.speaker for cue in transcript.cues]
    marks = [
        bool(one.after and one.after[0] in MARKS) or speakers[one.cue] != speakers[two.cue]
        for one, two in pairwise(tokens)
    ]
    return [token.text for token in tokens], marks


def rows(texts: Sequence[Marked], kinds: Kinds) -> list[tuple[str, ...]]:
    """The signs of every border."""
    return [tuple(signs(words, at, kinds)) for words, _ in texts for at in range(1, len(words))]


def truths(texts: Sequence[Marked]) -> NDArray[np.float64]:
    """1 where a mark stands."""
    return np.array([float(mark) for _, marks in texts for mark in marks])


def fit(texts: Sequence[Marked], kinds: Kinds) -> dict[str, float]:
    """The signs' log odds."""
    return logistic(rows(texts, kinds), truths(texts), STRENGTH, RAREST)


def told(texts: Sequence[Marked], weights: dict[str, float], kinds: Kinds) -> str:
    """Precision and recall of the marks guessed."""
    guesses = odds(rows(texts, kinds), weights) > 0
    true = truths(texts) > 0
    right = int((guesses & true).sum())
    precision, recall = right / guesses.sum(), right / true.sum()
    return f"{len(true)} borders, {int(true.sum())} marks: P {precision:.3f} R {recall:.3f}"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--write", action="store_true")
    asked = parser.parse_args()
    kinds = Kinds("en")
    written = {file: marked(file) for file in sorted(asked.folder.glob("*.clean.vtt"))}
    heard = {file: marked(file) for file in sorted(asked.folder.glob("*.base.vtt"))}
    for author in sorted({file.name[0] for file in written}):
        learnt = [one for file, one in (*written.items(), *heard.items()) if file.name[0] != author]
        own = [one for file, one in written.items() if file.name[0] == author]
        print(author, told(own, fit(learnt, kinds), kinds))
    if asked.write:
        weights = fit([*written.values(), *heard.values()], kinds)
        WEIGHTS.write_text(json.dumps(weights, ensure_ascii=False, indent=0, sort_keys=True) + "\n", "utf-8")
        print(len(weights), "weights written")


if __name__ == "__main__":
    main()
