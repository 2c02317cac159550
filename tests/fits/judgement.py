"""Fit the claims' judgement on labelled bouts: ``python tests/fits/judgement.py FOLDER [--write]``.

Prints the accuracy of status and side, by kind, on each annotator's bouts when fitted on the others'
(an annotator is the letter that begins a bout's id). ``--write`` then fits on all and writes the weights.
"""

import argparse
import json
import tomllib
from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from recordings import Labelled, answered, as_read, labelled
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

from hikite.claims.clues import status_clues
from hikite.claims.hearing import SIDELESS, settle, sift, unechoed
from hikite.claims.judges import Judges, SideJudge, StatusJudge
from hikite.claims.pointers import Pointers
from hikite.claims.sifting import CHATTER, LEAST_MEANT, LEAST_TOLD, MEANT, tells, told_clues
from hikite.records import Claim
from hikite.terms import load_terms

WEIGHTS = Path(__file__).parents[2] / "pipeline/hikite/claims/judgement.json"
PRIORS = tomllib.loads((Path(__file__).parent / "priors.toml").read_text("utf-8"))
STATUS_STRENGTH, SIDE_STRENGTH, RAREST = 8.0, 60.0, 6
JUDGED = ("technique", "grip", "hold", "score", "penalty", "result")
# How an annotator takes a name said again or behind the action is a habit: each has weights of his own
# for these cues, beside those common to all, and only the common ones are written.
HABITS, HABIT_STRENGTH, HABITUAL = (
    ("always", "told", "named", "first-named", "renames", "only-renames"),
    1.0,
    "technique",
)
_OWN = "own "


def named(rows: Iterable[dict[str, float]], rarest: int = RAREST) -> dict[str, int]:
    """A column for every cue that is met often enough."""
    counts = Counter(clue for row in rows for clue in row)
    return {clue: number for number, clue in enumerate(sorted(c for c in counts if counts[c] >= rarest))}


def matrix(rows: Sequence[dict[str, float]], columns: dict[str, int]) -> csr_matrix:
    """The rows as a sparse matrix."""
    cells = [
        (r, columns[clue], value)
        for r, row in enumerate(rows)
        for clue, value in row.items()
        if clue in columns
    ]
    at, to, values = zip(*cells, strict=True)
    return csr_matrix((values, (at, to)), shape=(len(rows), len(columns)))


def fit_status(
    rows: Sequence[dict[str, float]],
    truths: Sequence[str],
    prior: dict[str, dict[str, float]],
    authors: Sequence[str] = (),
) -> StatusJudge:
    """Softmax regression with a Gaussian prior around the expected weights; ``authors`` have habits."""
    if authors:
        rows = [{**row, **_habits(row, author)} for row, author in zip(rows, authors, strict=True)]
    columns, labels = named(rows), sorted({*truths, *prior})
    for clue in sorted({clue for weights in prior.values() for clue in weights}):
        columns.setdefault(clue, len(columns))
    centre = np.array([[prior.get(label, {}).get(clue, 0.0) for label in labels] for clue in columns])
    strength = np.array([[HABIT_STRENGTH if clue.startswith(_OWN) else STATUS_STRENGTH] for clue in columns])
    cues, true = matrix(rows, columns), np.array([labels.index(one) for one in truths])
    onehot = np.eye(len(labels))[true]

    def loss(flat: NDArray[np.float64]) -> tuple[float, NDArray[np.float64]]:
        weights = flat.reshape(len(columns), len(labels))
        sums = cues @ weights
        sums -= sums.max(1, keepdims=True)
        chances = np.exp(sums)
        chances /= chances.sum(1, keepdims=True)
        surprise = -np.log(chances[np.arange(len(true)), true] + 1e-12).sum()
        away = weights - centre
        gradient = cues.T @ (chances - onehot) + strength * away
        return surprise + 0.5 * float((strength * away**2).sum()), gradient.ravel()

    found = minimize(loss, centre.ravel(), jac=True, method="L-BFGS-B").x
    weights = found.reshape(len(columns), len(labels))
    return StatusJudge(
        weights={
            label: {
                clue: round(float(weights[c, n]), 3)
                for clue, c in columns.items()
                if abs(weights[c, n]) >= 0.005 and not clue.startswith(_OWN)
            }
            for n, label in enumerate(labels)
        }
    )


def _habits(row: dict[str, float], author: str) -> dict[str, float]:
    """The cues that an annotator takes in his own way, under his name."""
    return {f"{_OWN}{author} {clue}": value for clue, value in row.items() if clue.startswith(HABITS)}


def lawful(judge: StatusJudge, denying: dict[str, list[str]], thwarting: list[str]) -> StatusJudge:
    """The judge with denying cues that never raise what they deny: no other status weighs less with them; and
    with thwarting ones that speak no more for "attempted" than for "failed"."""
    weights = {status: dict(one) for status, one in judge.weights.items()}
    failed, attempted = weights.get("failed", {}), weights.get("attempted", {})
    for cue in thwarting:
        tried, thwarted = attempted.get(cue, 0.0), failed.get(cue, 0.0)
        if tried > thwarted:
            attempted[cue] = failed[cue] = round((tried + thwarted) / 2, 3)
    for status in denying["statuses"]:
        for cue in denying["cues"] if status in weights else ():
            weights[status][cue] = min(0.0, *(one.get(cue, 0.0) for one in weights.values()))
    return StatusJudge(weights=weights)


def fit_side(rows: Sequence[dict[str, float]], pulls: Sequence[float]) -> SideJudge:
    """Logistic regression without an intercept: no side is favoured."""
    rows = [
        {clue: value * pull for clue, value in row.items()} for row, pull in zip(rows, pulls, strict=True)
    ]
    columns, prior = named(rows), PRIORS["side"]
    for clue in prior:
        columns.setdefault(clue, len(columns))
    centre = np.array([prior.get(clue, 0.0) for clue in columns])
    cues = matrix(rows, columns)

    def loss(weights: NDArray[np.float64]) -> tuple[float, NDArray[np.float64]]:
        sums = cues @ weights
        chances = 1.0 / (1.0 + np.exp(-sums))
        away = weights - centre
        penalty = 0.5 * SIDE_STRENGTH * float(away @ away)
        return float(np.logaddexp(0, -sums).sum()) + penalty, cues.T @ (chances - 1.0) + SIDE_STRENGTH * away

    weights = minimize(loss, centre, jac=True, method="L-BFGS-B").x
    return SideJudge(
        weights={clue: round(float(weights[c]), 3) for clue, c in columns.items() if abs(weights[c]) >= 0.005}
    )


def sifted(one: Labelled, meant: StatusJudge, told: StatusJudge | None = None) -> Labelled:
    """The recording with the drafts that a reading keeps: no chatter, no echoes, but what points back.

    Without ``told`` all that is told without a name is left, and nothing points back.
    """
    drafts = unechoed(one.scene, one.sift, meant) if told is None else sift(one.scene, one.sift, meant, told)
    scene = one.scene.with_drafts(tuple(drafts))
    status, pull = answered(scene, one.gold, one.sides)
    return one.model_copy(update={"scene": scene, "status": status, "pull": pull})


def with_status(one: Labelled, judges: dict[str, StatusJudge]) -> Labelled:
    """The recording with the drafts' statuses as judged."""
    drafts: list[Claim] = []
    for number, draft in enumerate(one.scene.drafts):
        judge = judges.get(draft.kind)
        if judge is not None:
            meant = {earlier: judged.status for earlier, judged in enumerate(drafts)}
            chances = judge.weigh(status_clues(one.scene, number, meant))
            draft = draft.model_copy(update={"status": max(chances, key=lambda status: chances[status])})
        drafts.append(draft)
    return one.model_copy(update={"scene": one.scene.with_drafts(tuple(drafts))})


def telling(one: Labelled) -> list[tuple[dict[str, float], str]]:
    """The cues of every draft of a sifted recording that is told without a name, and whether it is meant."""
    return [
        (told_clues(one.scene, draft), MEANT if number in one.status else CHATTER)
        for number, draft in enumerate(one.scene.drafts)
        if tells(draft, one.scene)
    ]


def fit_told(bouts: Sequence[Labelled]) -> StatusJudge:
    """The judge of what is told without a name."""
    rows, truths = zip(*(row for b in bouts for row in telling(b)), strict=True)
    return fit_status(rows, truths, {})


def fit(bouts: Sequence[Labelled]) -> Judges:
    """Status judges by kind, then the side judge on the truth and, again, on its own sides."""
    samples = [(b, n) for b in bouts for n in range(len(b.scene.drafts)) if b.sift.applies(n)]
    meant = fit_status(
        [b.sift.clues(n) for b, n in samples], [MEANT if n in b.status else CHATTER for b, n in samples], {}
    )
    told = fit_told([sifted(b, meant) for b in bouts])
    bouts = [sifted(b, meant, told) for b in bouts]
    status = {kind: _fit_kind(bouts, kind) for kind in JUDGED}
    bouts = [with_status(b, status) for b in bouts]
    side = SideJudge(weights={})
    settled = [[b.pull.get(n, 0.0) for n in range(len(b.scene.drafts))] for b in bouts]
    for _ in range(3):
        side = _fit_hearing(bouts, settled, [[] for _ in bouts])
        settled = [settle(b.scene, Pointers(b.scene, b.sides), side, []) for b in bouts]
    first, again = settled, side
    for _ in range(2):
        again = _fit_hearing(bouts, settled, first)
        settled = [
            settle(b.scene, Pointers(b.scene, b.sides), again, heard)
            for b, heard in zip(bouts, first, strict=True)
        ]
    return Judges(meant=meant, told=told, status=status, side=side, side_again=again)


def _fit_kind(bouts: Sequence[Labelled], kind: str) -> StatusJudge:
    """The status judge of one kind."""
    rows, truths, authors = [], [], []
    for b in bouts:
        meant = as_read(b)
        for number, status in sorted(meant.items()):
            if b.scene.drafts[number].kind == kind:
                rows.append(status_clues(b.scene, number, meant))
                truths.append(status)
                authors.append(b.author)
    judge = fit_status(rows, truths, PRIORS.get(kind, {}), authors if kind == HABITUAL else ())
    return lawful(judge, PRIORS["denying"], PRIORS["thwarting"]["cues"])


def _fit_hearing(
    bouts: Sequence[Labelled], settled: Sequence[list[float]], heard: Sequence[list[float]]
) -> SideJudge:
    """A side judge that knows the earlier drafts as settled and the later ones as heard before."""
    rows, pulls = [], []
    for b, own, before in zip(bouts, settled, heard, strict=True):
        pointers = Pointers(b.scene, b.sides)
        for number, pull in sorted(b.pull.items()):
            rows.append(pointers.clues(number, [*own[:number], *before[number:]]))
            pulls.append(pull)
    return fit_side(rows, pulls)


def score(bouts: Sequence[Labelled], judges: Judges) -> dict[str, Counter[str]]:
    """Right and all, by kind, of status and side."""
    counts: dict[str, Counter[str]] = defaultdict(Counter)
    for bout in bouts:
        for number in range(len(bout.scene.drafts)):
            if bout.sift.applies(number):
                meant = judges.meant.weigh(bout.sift.clues(number))[MEANT] >= LEAST_MEANT
                told = f"{bout.scene.drafts[number].kind}"
                counts[f"meant {told} kept"].update(
                    all=int(meant), right=int(meant and number in bout.status)
                )
                counts[f"meant {told} found"].update(
                    all=int(number in bout.status), right=int(meant and number in bout.status)
                )
        for clues, truth in telling(sifted(bout, judges.meant)):
            chance = judges.told.weigh(clues)[MEANT]
            right = truth == MEANT
            counts["meant told kept"].update(
                all=int(chance >= LEAST_TOLD), right=int(right and chance >= LEAST_TOLD)
            )
            counts["meant told found"].update(all=int(right), right=int(right and chance >= LEAST_TOLD))
        b = with_status(sifted(bout, judges.meant, judges.told), judges.status)
        settled = settle(
            b.scene,
            Pointers(b.scene, b.sides),
            judges.side_again,
            settle(b.scene, Pointers(b.scene, b.sides), judges.side, []),
        )
        for number, status in b.status.items():
            draft = b.scene.drafts[number]
            if draft.kind in JUDGED:
                counts[f"status {draft.kind}"].update(all=1, right=int(draft.status == status))
            if number in b.pull and draft.kind not in SIDELESS:
                right = settled[number] * b.pull[number] > 0
                counts[f"side {draft.kind}"].update(all=1, right=int(right))
    return counts


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--write", action="store_true")
    told = parser.parse_args()
    terms = load_terms()
    files = sorted(told.folder.glob("*.gold.json"))
    clean = [b for f in files if (b := labelled(f, "clean.vtt", terms))]
    heard = [b for f in files if (b := labelled(f, "base.json", terms))]
    bare = [b for f in files if (b := labelled(f, "clean.vtt", terms, bare=True))]
    total: dict[str, Counter[str]] = defaultdict(Counter)
    for author in sorted({b.author for b in clean}):
        judges = fit([b for b in (*clean, *heard, *bare) if b.author != author])
        for name, kept in (("clean", clean), ("heard", heard), ("bare", bare)):
            for key, counts in score([b for b in kept if b.author == author], judges).items():
                total[f"{name} {key}"].update(counts)
                total[f"{name} {key} {author}"].update(counts)
    for key in sorted(total):
        print(f"{key:34s} {total[key]['right'] / max(total[key]['all'], 1):.3f} of {total[key]['all']}")
    if told.write:
        WEIGHTS.write_text(
            json.dumps(fit([*clean, *heard, *bare]).model_dump(), indent=0, sort_keys=True) + "\n", "utf-8"
        )


if __name__ == "__main__":
    main()
