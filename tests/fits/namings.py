"""Fit how names are learnt on labelled bouts: ``python tests/fits/namings.py FOLDER [FOLDER ...] [--write]``.

Every talk is taken as it stands and bare, without marks and large letters. Prints how often two neighbouring
names are rightly taken for one person's or for two, and names rightly for a competitor's, on each annotator's
bouts when fitted on the others'. ``--write`` fits on all and writes.
"""

import argparse
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

import numpy as np
from judgement import matrix, named
from recordings import stripped
from scipy.optimize import minimize

from hikite.claims.actors import find_actors
from hikite.claims.handles import find_handles
from hikite.claims.judges import SideJudge
from hikite.claims.kinships import Kinships, Points, meant_clues, tie_clues
from hikite.claims.wearers import worn_at_first
from hikite.evaluate.golds import read_gold
from hikite.mentions import find_mentions
from hikite.sounds import load_ear
from hikite.terms import Terms, load_terms
from hikite.terms.speech import load_speech
from hikite.transcripts import read
from hikite.utterances import cut

WEIGHTS = Path(__file__).parents[2] / "pipeline/hikite/claims/namings.json"
STRENGTH, RAREST = 1.0, 4
# A name introduced in its colour is as surely tied.
INTRODUCED = 2.0


class Learnt(NamedTuple):
    """One recording's names without its sheet, and with it the side of those that are a competitor's."""

    author: str
    points: Points
    sides: tuple[str, str]
    owner: dict[str, str]


def learnt(gold_file: Path, variant: str, terms: Terms, bare: bool = False) -> Learnt | None:
    """The names of one recording of one bout; nothing where the variant is missing."""
    talk_file, gold = gold_file.with_name(gold_file.name.replace(".gold.json", variant)), read_gold(gold_file)
    if not talk_file.exists() or len(gold.sheets) > 1:
        return None
    transcript = read(talk_file)
    talk = cut(stripped(transcript) if bare else transcript)
    sheet, speech = gold.sheets[0], load_speech("en")
    taken = {i for m in find_mentions(talk, terms) for i in range(m.first, m.stop)}
    references, _ = find_actors(talk, sheet, speech, taken)
    at = {i: r.side for r in references if r.how in ("name", "nation") for i in range(r.first, r.stop)}
    colours = tuple(one for one in references if one.how == "colour")
    worn = {index for one in colours for index in range(one.first, one.stop)}
    handles = find_handles(talk, speech, taken | worn, load_ear("en"))
    said: dict[str, list[str]] = {}
    for one in handles.said:
        said.setdefault(one.who, []).append(next((at[i] for i in range(one.first, one.stop) if i in at), ""))
    owner = {who: max(sorted(set(sides)), key=sides.count) for who, sides in said.items()}
    sides = gold.sheets[0].competitors[0].side, gold.sheets[0].competitors[1].side
    return Learnt(gold_file.name[0], Points(talk, handles, colours, speech, taken), sides, owner)


def ties(one: Learnt) -> Iterator[tuple[dict[str, float], float]]:
    """The cues of every two neighbours that are competitors', +1 where they are one's."""
    for left, right in one.points.pairs():
        ends = [point.side or one.owner[point.who] for point in (left, right)]
        if all(ends):
            yield tie_clues(one.points, left, right), 1.0 if ends[0] == ends[1] else -1.0


def meant(one: Learnt, tie: SideJudge) -> Iterator[tuple[dict[str, float], float]]:
    """The cues of every name, +1 where it is a competitor's."""
    best = dict.fromkeys(one.owner, 0.0)
    for left, right in one.points.pairs():
        pull = tie.pull(tie_clues(one.points, left, right))
        best |= {who: max(best[who], pull) for who in (left.who, right.who) if who}
    best |= {who: max(best[who], INTRODUCED) for who in worn_at_first(one.points, one.sides)}
    for who, side in one.owner.items():
        clues = meant_clues(one.points, who, best[who], load_speech("en"), load_ear("en"))
        yield clues, 1.0 if side else -1.0


def fit(rows: Sequence[tuple[dict[str, float], float]]) -> SideJudge:
    """Logistic regression drawn to nought."""
    turned = [{clue: value * truth for clue, value in clues.items()} for clues, truth in rows]
    columns = named(turned, RAREST)
    cues = matrix(turned, columns)

    def loss(weights: np.ndarray) -> tuple[float, np.ndarray]:
        sums = cues @ weights
        chances = 1.0 / (1.0 + np.exp(-sums))
        away = 0.5 * STRENGTH * float(weights @ weights)
        return float(np.logaddexp(0, -sums).sum()) + away, cues.T @ (chances - 1.0) + STRENGTH * weights

    found = minimize(loss, np.zeros(len(columns)), jac=True, method="L-BFGS-B").x
    return SideJudge(weights={clue: round(float(found[c]), 3) for clue, c in columns.items()})


def fitted(bouts: Sequence[Learnt]) -> Kinships:
    """Both judges."""
    tie = fit([row for one in bouts for row in ties(one)])
    return Kinships(tie=tie, meant=fit([row for one in bouts for row in meant(one, tie)]))


def share(rows: Sequence[tuple[dict[str, float], float]], judge: SideJudge) -> str:
    """How many rows are judged rightly, of how many."""
    right = sum(judge.pull(clues) * truth > 0 for clues, truth in rows)
    return f"{right / max(len(rows), 1):.3f} of {len(rows)}"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--write", action="store_true")
    told = parser.parse_args()
    terms = load_terms()
    files = sorted(file for folder in told.folders for file in folder.glob("*.gold.json"))
    kept = {
        f"{variant}{' bare' * bare}": [one for file in files if (one := learnt(file, variant, terms, bare))]
        for variant in (".clean.vtt", ".base.vtt")
        for bare in (False, True)
    }
    every = [one for bouts in kept.values() for one in bouts]
    for author in sorted({one.author for one in every}):
        judges = fitted([one for one in every if one.author != author])
        for variant, bouts in kept.items():
            mine = [one for one in bouts if one.author == author]
            print(f"{author}{variant} tie {share([r for b in mine for r in ties(b)], judges.tie)}")
            rows = [row for one in mine for row in meant(one, judges.tie)]
            print(f"{author}{variant} meant {share(rows, judges.meant)}")
    if told.write:
        WEIGHTS.write_text(fitted(every).model_dump_json(indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main()
