"""Fits ``lexicon/en/evidence.toml`` and ``slots.toml``: how much each sign speaks for a name heard.

    python tests/fits/hearing.py asr-dev.jsonl --bouts FOLDER [--by sentence|term|frame] [--write]

The recognised sentences are halved, by sentence, so that no sentence's recordings stand on both sides; one
half is fitted and the other reported. ``--by term`` halves by spoken term, ``--by frame`` by the pattern of
the sentence, to see how names and ways of speaking fare that were never fitted. The bouts, recognised and
well written, are fitted on too (``truths.py``). What stands beside names and what is plain talk
(``slots.py``) is counted in well written bouts and in the fitted half as it was spoken; while weights are
fitted, sentences are told what was counted in those of other patterns, bouts what was counted in those of
other annotators.
"""

import argparse
import re
import zlib
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import reduce
from pathlib import Path

import numpy as np
import numpy.typing as npt
from contest import Ints, Rows, Vector, contest_weights
from figures import Settings, figures
from slots import Text, bout_texts, counted_contexts, counted_plain, sentence_texts
from slots import write as write_spoken
from spoken import Line, read_lines
from truths import Bout, bout_rows, read_bouts, sentence_rows

from hikite.mentions import Matcher
from hikite.mentions.evidence import SIGNS
from hikite.mentions.plain import Plain
from hikite.mentions.slots import Slots
from hikite.mentions.soundings import Soundings, strange
from hikite.mentions.streams import Stream
from hikite.sounds import load_ear
from hikite.terms import Terms, load_terms

_EVIDENCE = Path(__file__).parents[2] / "lexicon/en/evidence.toml"
_FOLDS = 5
# The bouts hold more words, and fewer garbled names, than the sentences.
_BOUTS, _RARER = 1.0, 0.6
Flags = npt.NDArray[np.bool_]
_KEYS: dict[str, Callable[[Line], str]] = {
    "sentence": lambda line: line.key,
    "term": lambda line: line.truths[0].term if line.truths else line.key,
    "frame": lambda line: line.key if line.chatter else line.frame,
}


def half(key: str) -> bool:
    """Which half a sentence or a term falls in, the same in every run."""
    return zlib.crc32(key.encode()) % 2 == 1


def fitted(signs: "np.ndarray", right: Vector, weight: Vector, ridge: float = 2.0) -> Vector:
    """The weights of a logistic regression by Newton's method, with a ridge on standardised signs."""
    mean, spread = signs.mean(0), signs.std(0) + 1e-9
    mean[0], spread[0] = 0.0, 1.0
    table = (signs - mean) / spread
    weights = np.zeros(table.shape[1])
    penalty = ridge * (np.arange(len(weights)) > 0)
    for _ in range(40):
        p = 1 / (1 + np.exp(-table @ weights))
        slope = table.T @ (weight * (p - right)) + penalty * weights
        curve = (table * (weight * p * (1 - p))[:, None]).T @ table + np.diag(penalty + 1e-9)
        weights -= np.linalg.solve(curve, slope)
    plain = weights / spread
    plain[0] = weights[0] - float(np.sum(weights * mean / spread))
    return plain


@dataclass(frozen=True)
class Spoken:
    """What was counted in some texts: what stands beside names, and plain words."""

    slots: Slots
    plain: Plain

    @classmethod
    def of(cls, texts: list[Text]) -> "Spoken":
        """Counted in these; plain words in bouts alone, which hold more of them."""
        bouts = [text for text in texts if text.bout]
        ear = load_ear("en")
        return cls(Slots(counted_contexts(texts, ear), ear), Plain(counted_plain(bouts), ear))

    def tell(self, matcher: Matcher, stream: Stream, found: Soundings, rows: Flags) -> None:
        """Put into the signs of these rows what was counted."""
        first, stop = found.first[found.window], found.stop[found.window]
        placed = matcher.gatherer.placed(self.slots, stream, first, stop, found.concepts)
        placed["surprise"] = strange(self.plain, stream, first, stop)
        for sign in ("before", "behind", "surprise"):
            found.signs[rows, SIGNS.index(sign)] = placed[sign][rows]


def sentences_apart(
    matcher: Matcher, stream: Stream, found: Soundings, fold_of: Ints, texts: list[Text]
) -> None:
    """Tell each row what the texts of other folds say; rows of fold -1 are told by all."""
    for fold in sorted(set(fold_of.tolist())):
        known = [text for text in texts if text.bout or _fold(text.source) != fold]
        Spoken.of(known).tell(matcher, stream, found, fold_of == fold)


def bouts_apart(matcher: Matcher, terms: Terms, bouts: list[Bout], texts: list[Text]) -> Rows:
    """The rows of all bouts, each author's told by what was counted in all other texts."""
    found: list[Rows] = []
    for author in sorted({bout.author for bout in bouts}):
        spoken = Spoken.of([text for text in texts if not text.bout or text.source[0] != author])
        for bout in bouts:
            if bout.author == author:
                spoken.tell(matcher, bout.stream, bout.found, np.ones(len(bout.found.signs), np.bool_))
                found.append(bout_rows(terms, matcher, bout))
    return reduce(Rows.joined, found)


def weights_of(sentences: Rows, bouts: Rows) -> Vector:
    """The weights fitted to both.

    Names are garbled less often in bouts than in sentences made to hold names: how much less is a weight that
    is fitted beside the others, and most of it is added to what always counts: ``lift`` gives some of it back
    when names have contended.
    """
    weighed = replace(bouts, weight=bouts.weight * _BOUTS)
    both = sentences.joined(weighed)
    habit = np.arange(len(both.truth)) >= len(sentences.truth)
    *weights, rarer = contest_weights(replace(both, signs=np.column_stack([both.signs, habit]))).tolist()
    weights[0] += _RARER * rarer
    return np.array(weights)


def write(weights: Vector, least: float) -> None:
    """Put the weights into the lexicon, the rest of the file as it is."""
    text = _EVIDENCE.read_text("utf-8")
    text = re.sub(r"^least = .*$", f"least = {least}", text, flags=re.M)
    table = "".join(f"{sign} = {value:.3f}\n" for sign, value in zip(SIGNS, weights, strict=True))
    text = re.sub(r"\[weights\]\n[^\[]*", f"[weights]\n{table}\n", text)
    _EVIDENCE.write_text(text, "utf-8")


def _fold(source: str) -> int:
    return zlib.crc32(f"fold {source}".encode()) % _FOLDS


def main() -> None:
    """Fit, report and, when asked, write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("sentences", type=Path)
    parser.add_argument("--bouts", type=Path, required=True)
    parser.add_argument("--by", choices=sorted(_KEYS), default="sentence")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--show", type=int, default=0)
    parser.add_argument("--least", type=float, default=0.5)
    asked = parser.parse_args()
    terms = load_terms()
    matcher = Matcher(terms)
    lines, stream, unknown = read_lines(asked.sentences, terms, ("sentence", "single"))
    print("not in the lexicon:", ", ".join(sorted(unknown)) or "nothing")
    key = _KEYS[asked.by]
    mine = [line for line in lines if not half(key(line))]
    texts = [*bout_texts(asked.bouts, matcher), *sentence_texts(mine, terms)]
    found, matches = matcher.soundings(stream)
    starts = np.array([line.first for line in lines])
    of = np.searchsorted(starts, found.first, "right")[found.window] - 1
    own = np.array([not half(key(line)) for line in lines])
    folds = [_fold(line.frame or line.key) if ours else -1 for line, ours in zip(lines, own, strict=True)]
    sentences_apart(matcher, stream, found, np.array(folds)[of], texts)
    rows = sentence_rows(matcher, terms, found, lines, matches).of(own[of])
    more = bouts_apart(matcher, terms, read_bouts(matcher, asked.bouts), texts)
    fit = weights_of(rows.of(rows.weight > 0), more)
    matcher.soundings = lambda stream, near=None: (found, matches)  # type: ignore[method-assign]
    for least in (0.25, 0.3, 0.4, 0.5, 0.6):
        settings = Settings(fit, least, 0)
        print("other half", figures(matcher, terms, lines, stream, settings, lambda line: half(key(line))))
    settings = Settings(fit, asked.least, asked.show)
    print("fitted half", figures(matcher, terms, lines, stream, settings, lambda line: not half(key(line))))
    print(" ".join(f"{sign} {value:.2f}" for sign, value in zip(SIGNS, fit, strict=True)))
    if asked.write:
        ear = load_ear("en")
        write_spoken(counted_contexts(texts, ear), counted_plain([text for text in texts if text.bout]))
        write(fit, asked.least)


if __name__ == "__main__":
    main()
