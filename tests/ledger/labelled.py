"""Labelled recordings run as far as their claims, and what the ledger should make of them."""

import json
import sys
from pathlib import Path
from typing import Any, NamedTuple
from unittest.mock import patch

sys.path.insert(0, str(Path(__file__).parents[1] / "fits"))
from judgement import fit
from judgement import labelled as scene_of

from hikite.claims import hear
from hikite.claims.judges import Judges, load_judges
from hikite.mentions import find_mentions
from hikite.records import Bout, Competitor, Sheet, Testimony
from hikite.terms import load_terms
from hikite.transcripts import read
from hikite.utterances import cut

FORMS = ("clean.vtt", "base.vtt")
NEAR_S, REVEALED_S = 5, 30


class Labelled(NamedTuple):
    """One recording: its truth and the claims heard in it."""

    gold: dict[str, Any]
    testimony: Testimony

    @property
    def author(self) -> str:
        """Who wrote the bout: the first letter of its id."""
        return str(self.gold["id"][0])

    def exact(self, bout: Bout) -> bool:
        """Whether both sides' totals are right."""
        for side, tally in bout.final.items():
            want = self.gold["final"][side]
            wanted = {"points": want} if isinstance(want, int) else want
            if any(
                (getattr(tally, name.replace("-", "_")) or 0) != number for name, number in wanted.items()
            ):
                return False
        return True

    def lines(self, bout: Bout) -> tuple[list[float], list[float], int]:
        """Confidences of the score's lines that are right, of those that are not, and how many are missed."""
        left = list(self.gold["ledger"])
        right, wrong = [], []
        for event in bout.events:
            if not event.counts:
                continue
            near = REVEALED_S if event.unspoken else NEAR_S
            value, at = event.points or event.score_class, event.start_ms / 1000
            found = next(
                (
                    line
                    for line in left
                    if (line["side"], line.get("points") or line.get("score")) == (event.side, value)
                    and line["start_s"] - near <= at <= line["end_s"] + near
                ),
                None,
            )
            if found is None:
                wrong.append(event.confidence)
            else:
                left.remove(found)
                right.append(event.confidence)
        return right, wrong, len(left)


def judged_by_others(folder: Path) -> dict[str, Judges]:
    """For each annotator, the claims' judgement fitted on the others' bouts alone."""
    terms = load_terms()
    files = sorted(folder.glob("*.gold.json"))
    bouts = [
        one for file in files for form in ("clean.vtt", "base.json") if (one := scene_of(file, form, terms))
    ]
    authors = sorted({bout.author for bout in bouts})
    return {author: fit([bout for bout in bouts if bout.author != author]) for author in authors}


def load_labelled(
    folder: Path, forms: tuple[str, ...] = FORMS, judges: dict[str, Judges] | None = None
) -> list[Labelled]:
    """Every labelled bout of a folder in each form there is, heard with its sheet.

    ``judges`` are the claims' judgement for each annotator, in place of the shipped one.
    """
    terms, found = load_terms(), []
    for path in sorted(folder.glob("*.gold.json")):
        gold = json.loads(path.read_text("utf-8"))
        judge = (judges or {}).get(str(gold["id"])[0], load_judges())
        competitors = tuple(
            Competitor(side=side, name=known["name"], nation=known["from"])
            for side, known in gold["competitors"].items()
        )
        sheet = Sheet(competitors=competitors, ruleset=gold["ruleset"], duration_s=gold["duration_s"])
        for form in forms:
            file = path.with_name(f"{gold['id']}.{form}")
            if file.exists():
                talk = cut(read(file))
                with patch("hikite.claims.hearing.load_judges", lambda judge=judge: judge):
                    heard = hear(talk, find_mentions(talk, terms), terms, sheet)
                found.append(Labelled(gold, heard))
    return found
