"""Fits ``lexicon/en/evidence.toml``: how much each sign of a sound match speaks for the name.

    python tests/fits/hearing.py asr-dev.jsonl [--bouts FOLDER] [--write]

The recognised sentences are halved by sentence, so that no sentence's recordings stand on both sides; one
half is fitted and the other reported. ``--bouts`` adds bouts with truth, as written and as recognised
(``<id>.clean.vtt``, ``<id>.base.vtt``, ``<id>.gold.json``), to the fitted half: a name is right there when
its concept is in the truth within two seconds. ``--terms`` halves by spoken term instead, to see how names
fare that were never fitted; ``--cross`` reports the fitted half by quarters that were left out, for choosing.
"""

import argparse
import json
import re
import zlib
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
from contests import Contest, fitted
from figures import Settings, counted, written
from labels import Labels, tell_lines
from spoken import Line, read_lines

from hikite.mentions import Matcher
from hikite.mentions.evidence import SIGNS
from hikite.mentions.streams import stream_of
from hikite.terms import Terms, load_terms
from hikite.transcripts import read
from hikite.utterances import cut

Vector = npt.NDArray[np.float64]
_EVIDENCE = Path(__file__).parents[2] / "lexicon/en/evidence.toml"
_SECONDS = 2.0
_KINDS = ("technique", "grip", "hold")
_WEIGHTS = {"base.vtt": 1.0, "clean.vtt": 1.0}
_QUARTERS = 4


def half(key: str) -> bool:
    """Which half a sentence or a term falls in, the same in every run."""
    return zlib.crc32(key.encode()) % 2 == 1


def quarter(key: str) -> int:
    """Which quarter of its half a sentence or a term falls in."""
    return zlib.crc32(("x" + key).encode()) // 7 % _QUARTERS


def bouts(matcher: Matcher, terms: Terms, folder: Path) -> list[Contest]:
    """Labelled bouts, each as one contest."""
    contests = []
    for gold in sorted(folder.glob("*.gold.json")):
        events = json.loads(gold.read_text("utf-8"))["events"]
        for ending, weight in _WEIGHTS.items():
            captions = gold.with_name(gold.name.replace("gold.json", ending))
            if captions.exists():
                contests.append(_bout(matcher, terms, captions, events, weight))
    return contests


def _bout(
    matcher: Matcher, terms: Terms, captions: Path, events: Iterable[dict[str, Any]], weight: float
) -> Contest:
    talk = cut(read(captions))
    stream = stream_of(talk)
    labels = Labels(matcher, terms, stream)
    labels.excuse(_KINDS)
    for event in events:

        def near(first: int, stop: int, event: dict[str, Any] = event) -> float:
            late = talk.tokens[first].start_ms / 1000 - event["end_s"]
            early = event["start_s"] - talk.tokens[stop - 1].end_ms / 1000
            return float(max(late, early) <= _SECONDS)

        labels.tell((event["concept"], *event.get("accept", ())), near)
    return labels.contest(0, len(stream.words), weight)


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
    parser.add_argument("--cross", action="store_true")
    parser.add_argument("--write", action="store_true")
    parser.add_argument("--show", type=int, default=0)
    parser.add_argument("--ridge", type=float, default=12.0)
    parser.add_argument("--least", type=float, default=0.35)
    asked = parser.parse_args()
    terms = load_terms()
    matcher = Matcher(terms)
    lines, stream, unknown = read_lines(asked.sentences, terms, ("sentence", "single"))
    print("not in the lexicon:", ", ".join(sorted(unknown)) or "nothing")
    labels = Labels(matcher, terms, stream)
    tell_lines(labels, lines)

    def key(line: Line) -> str:
        return line.truths[0].term if asked.terms and line.truths else line.key

    more = bouts(matcher, terms, asked.bouts) if asked.bouts else []
    of_line = [(key(line), labels.contest(line.first, line.stop, 1.0)) for line in lines]
    mine = [(name, one) for name, one in of_line if not half(name)]

    def report(
        title: str, weights: Vector, least: float, part: Counter[str] | None = None, at: int = -1
    ) -> None:
        def wanted(line: Line) -> bool:
            if at < 0:
                return half(key(line)) == (title == "other half")
            return not half(key(line)) and quarter(key(line)) == at

        found = counted(matcher, terms, lines, stream, Settings(weights, least, asked.show), wanted)
        if part is None:
            print(title, written(found, least), flush=True)
        else:
            part.update(found)

    leasts = (0.25, 0.3, 0.35, 0.4, 0.5)
    if asked.cross:
        sums: dict[float, Counter[str]] = {least: Counter() for least in leasts}
        for at in range(_QUARTERS):
            fit = fitted([*(one for name, one in mine if quarter(name) != at), *more], asked.ridge)
            for least in leasts:
                report("", fit, least, sums[least], at)
        for least in leasts:
            print("left out", written(sums[least], least), flush=True)
        return
    fit = fitted([*(one for _, one in mine), *more], asked.ridge)
    for least in leasts:
        report("other half", fit, least)
    report("fitted half", fit, asked.least)
    if asked.write:
        write(fit, asked.least)


if __name__ == "__main__":
    main()
