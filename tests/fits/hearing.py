"""Fits ``lexicon/en/evidence.toml``: how much each sign of a sound match speaks for the name.

    python tests/fits/hearing.py asr-dev.jsonl [--bouts FOLDER] [--write]

The recognised sentences are halved by sentence, so that no sentence's recordings stand on both sides; one
half is fitted and the other reported. ``--bouts`` adds recognised bouts with truth (``<id>.base.vtt``,
``<id>.gold.json``) to the fitted half: a window is right there when its concept is in the truth within two
seconds. ``--terms`` halves by spoken term instead, to see how names fare that were never fitted.
"""

import argparse
import json
import re
import zlib
from pathlib import Path

import numpy as np
import numpy.typing as npt
from figures import Settings, figures
from spoken import Line, read_lines

from hikite.mentions import Matcher
from hikite.mentions.evidence import SIGNS
from hikite.mentions.exact import Match
from hikite.mentions.soundings import Soundings
from hikite.mentions.streams import stream_of
from hikite.terms import Terms, load_terms
from hikite.transcripts import read
from hikite.utterances import cut

Vector = npt.NDArray[np.float64]
_EVIDENCE = Path(__file__).parents[2] / "lexicon/en/evidence.toml"
_SECONDS = 2.0


def half(key: str) -> bool:
    """Which half a sentence or a term falls in, the same in every run."""
    return zlib.crc32(key.encode()) % 2 == 1


def fitted(signs: npt.NDArray[np.float64], right: Vector, weight: Vector, ridge: float = 2.0) -> Vector:
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


def sentence_labels(
    matcher: Matcher, terms: Terms, found: Soundings, lines: list[Line], matches: list[Match]
) -> tuple[Vector, Vector, list[Line]]:
    """Of each window whether its best concept was spoken there, how much it counts, and its line."""
    right, weight = np.zeros(len(found.first)), np.ones(len(found.first))
    starts = np.array([line.first for line in lines])
    of = [lines[at] for at in np.searchsorted(starts, found.first, "right") - 1]
    for at, line in enumerate(of):
        concept = matcher.concepts[found.rivals(at)[0][0]]
        first, stop = int(found.first[at]), int(found.stop[at])
        for truth in line.truths:
            if not any(terms.same(concept, each) for each in truth.concepts):
                continue
            if truth.first is None or truth.stop is None:
                weight[at] *= right[at]
                continue
            shared = min(stop, truth.stop) - max(first, truth.first)
            most = max(stop, truth.stop) - min(first, truth.first)
            if shared * 2 >= most:
                right[at] = weight[at] = 1.0
            elif shared > 0 and not right[at]:
                weight[at] = 0.0
    weight[_written_too(matcher, terms, found, matches)] = 0.0
    return right, weight, of


def _written_too(
    matcher: Matcher, terms: Terms, found: Soundings, matches: list[Match]
) -> npt.NDArray[np.bool_]:
    """Windows that a name of the same concept fills as written: they teach nothing about sound."""
    spans: dict[int, list[Match]] = {}
    for match in matches:
        for at in range(match.first, match.stop):
            spans.setdefault(at, []).append(match)
    flags = np.zeros(len(found.first), np.bool_)
    for at in range(len(flags)):
        concept = matcher.concepts[found.rivals(at)[0][0]]
        flags[at] = any(
            terms.same(terms.names[match.name].concept, concept)
            for place in range(int(found.first[at]), int(found.stop[at]))
            for match in spans.get(place, ())
        )
    return flags


def bout_rows(matcher: Matcher, terms: Terms, folder: Path) -> tuple[npt.NDArray[np.float64], Vector, Vector]:
    """Signs, truth and weight of every window of the recognised bouts."""
    tables, rights, weights = [], [], []
    for gold in sorted(folder.glob("*.gold.json")):
        captions = gold.with_name(gold.name.replace(".gold.json", ".base.vtt"))
        if not captions.exists():
            continue
        talk = cut(read(captions))
        stream = stream_of(talk)
        found, matches = matcher.soundings(stream)
        events = json.loads(gold.read_text("utf-8"))["events"]
        right, weight = np.zeros(len(found.first)), np.ones(len(found.first))
        for at in range(len(right)):
            concept = matcher.concepts[found.rivals(at)[0][0]]
            start = talk.tokens[int(found.first[at])].start_ms / 1000
            end = talk.tokens[int(found.stop[at]) - 1].end_ms / 1000
            right[at] = any(
                any(terms.same(concept, each) for each in (event["concept"], *event.get("accept", ())))
                for event in events
                if start <= event["end_s"] + _SECONDS and end >= event["start_s"] - _SECONDS
            )
            if terms.concepts[concept].kind not in ("technique", "grip", "hold"):
                weight[at] = 0.0
        weight[_written_too(matcher, terms, found, matches)] = 0.0
        tables.append(found.signs)
        rights.append(right)
        weights.append(weight)
    return np.concatenate(tables), np.concatenate(rights), np.concatenate(weights)


def write(weights: Vector, least: float) -> None:
    """Put the weights into the lexicon, the rest of the file as it is."""
    text = _EVIDENCE.read_text("utf-8")
    text = re.sub(r"^least = .*$", f"least = {least}", text, flags=re.M)
    table = "".join(f"{sign} = {value:.3f}\n" for sign, value in zip(SIGNS, weights, strict=True))
    text = re.sub(r"\[weights\]\n[^\[]*", f"[weights]\n{table}\n", text)
    _EVIDENCE.write_text(text, "utf-8")


def main() -> None:
    """Fit, report and, when asked, write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("sentences", type=Path)
    parser.add_argument("--bouts", type=Path)
    parser.add_argument("--terms", action="store_true")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--show", type=int, default=0)
    parser.add_argument("--least", type=float, default=0.4)
    asked = parser.parse_args()
    terms = load_terms()
    matcher = Matcher(terms)
    lines, stream, unknown = read_lines(asked.sentences, terms, ("sentence", "single"))
    print("not in the lexicon:", ", ".join(sorted(unknown)) or "nothing")
    found, matches = matcher.soundings(stream)
    right, weight, of = sentence_labels(matcher, terms, found, lines, matches)

    def key(line: Line) -> str:
        return line.truths[0].term if asked.terms and line.truths else line.key

    mine = np.array([not half(key(line)) for line in of])
    signs, rights, weights = found.signs[mine], right[mine], weight[mine]
    if asked.bouts:
        more = bout_rows(matcher, terms, asked.bouts)
        signs = np.concatenate([signs, more[0]])
        rights = np.concatenate([rights, more[1]])
        weights = np.concatenate([weights, more[2]])
    print("windows", len(rights), "right", int((rights * weights).sum()))
    fit = fitted(signs, rights, weights)
    for least in (0.25, 0.3, 0.4, 0.5, 0.6):
        settings = Settings(fit, least, 0)
        print("other half", figures(matcher, terms, lines, stream, settings, lambda line: half(key(line))))
    settings = Settings(fit, asked.least, asked.show)
    print("fitted half", figures(matcher, terms, lines, stream, settings, lambda line: not half(key(line))))
    if asked.write:
        write(fit, asked.least)


if __name__ == "__main__":
    main()
