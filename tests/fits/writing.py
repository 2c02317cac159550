"""Fits the table ``written`` of ``lexicon/en/evidence.toml``: when a name as written is meant as one.

    python tests/fits/writing.py FOLDER [--write] [--least 0.4]

FOLDER holds labelled bouts (``<id>.clean.vtt``, ``<id>.base.vtt``, ``<id>.gold.json``). A name is meant where
its concept is in the truth within two seconds. Reported by author left out: fitted on all others, counted on
that one.
"""

import argparse
import json
import re
from pathlib import Path

import numpy as np
import numpy.typing as npt
from hearing import fitted

from hikite.mentions import Matcher
from hikite.mentions.evidence import WRITTEN_SIGNS, load_weights
from hikite.mentions.streams import stream_of
from hikite.mentions.writings import judged, written_signs
from hikite.terms import Terms, load_terms
from hikite.transcripts import read
from hikite.utterances import cut

Vector = npt.NDArray[np.float64]
_EVIDENCE = Path(__file__).parents[2] / "lexicon/en/evidence.toml"
_SECONDS = 2.0


def rows(matcher: Matcher, terms: Terms, captions: Path) -> tuple[npt.NDArray[np.float64], Vector]:
    """Signs and truth of every written technique, grip and hold of one bout."""
    weights = load_weights("en")
    talk = cut(read(captions))
    stream = stream_of(talk)
    finds = matcher.chosen(stream, weights.vector(), weights.least)
    vocabulary = matcher.heard.vocabulary
    levels = vocabulary.levels[vocabulary.numbers(stream.words)]
    signs = written_signs(finds, stream, matcher.surroundings.look(stream), terms, levels)
    gold = captions.with_name(captions.name.split(".")[0] + ".gold.json")
    events = json.loads(gold.read_text("utf-8"))["events"]
    kept, right = [], []
    for at, find in enumerate(finds):
        if find.slipped or find.candidates[0].how == "sound" or not judged(find, terms):
            continue
        start = talk.tokens[find.first].start_ms / 1000
        end = talk.tokens[find.stop - 1].end_ms / 1000
        kept.append(at)
        right.append(
            any(
                terms.same(find.candidates[0].concept, each)
                for event in events
                if start <= event["end_s"] + _SECONDS and end >= event["start_s"] - _SECONDS
                for each in (event["concept"], *event.get("accept", ()))
            )
        )
    return signs[kept], np.array(right, np.float64)


def main() -> None:
    """Fit, report and, when asked, write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("bouts", type=Path)
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--least", type=float, default=0.4)
    asked = parser.parse_args()
    terms = load_terms()
    matcher = Matcher(terms)
    signs, right, author = [], [], []
    for captions in sorted([*asked.bouts.glob("*.clean.vtt"), *asked.bouts.glob("*.base.vtt")]):
        table, truth = rows(matcher, terms, captions)
        signs.append(table)
        right.append(truth)
        author += [captions.name[0]] * len(truth)
    every, truths, by = np.concatenate(signs), np.concatenate(right), np.array(author)
    ones = np.ones(len(truths))
    print(f"names {len(truths)} meant {truths.mean():.3f}")
    for left_out in sorted(set(author)):
        mine = by != left_out
        chances = 1 / (1 + np.exp(-(every[~mine] @ fitted(every[mine], truths[mine], ones[mine]))))
        for least in (0.3, 0.4, 0.5, 0.6):
            kept = chances >= least
            hits, meant = truths[~mine][kept].sum(), truths[~mine].sum()
            print(f"{left_out} least {least}: P {hits / max(kept.sum(), 1):.3f} R {hits / max(meant, 1):.3f}")
    fit = fitted(every, truths, ones)
    if asked.write:
        text = re.sub(
            r"^least_written = .*$",
            f"least_written = {asked.least}",
            _EVIDENCE.read_text("utf-8"),
            flags=re.M,
        )
        table = "".join(f"{sign} = {value:.3f}\n" for sign, value in zip(WRITTEN_SIGNS, fit, strict=True))
        _EVIDENCE.write_text(re.sub(r"\[written\]\n[^\[]*", f"[written]\n{table}", text), "utf-8")


if __name__ == "__main__":
    main()
