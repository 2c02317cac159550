"""Fit when what sounds like a name is it: ``python tests/fits/soundalikes.py FOLDER … [--write]``.

A folder holds recognised talk beside what was said, written out (``--clean FOLDER`` where that is elsewhere).
Prints how many places are rightly taken for a name, on each annotator's bouts when fitted on the others'.
``--write`` fits on all and writes.
"""

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from namings import fit

from hikite.claims.actors import find_actors
from hikite.claims.judges import SideJudge
from hikite.claims.phrases import find_once
from hikite.claims.rosters import roster_of
from hikite.claims.soundalikes import Soundalikes, heard
from hikite.evaluate.golds import read_gold
from hikite.mentions import find_mentions
from hikite.records import Sheet, Talk
from hikite.records.spans import tokens_of
from hikite.terms import Terms, load_terms
from hikite.terms.speech import load_speech
from hikite.transcripts import read
from hikite.utterances import cut

WEIGHTS = Path(__file__).parents[2] / "pipeline/hikite/claims/soundalikes.json"
HOWS = ("name", "nation")
# What is heard and what was said are one when no farther apart.
NEAR_MS, ROUNDS, LEAST = 1000, 4, 3.0
Row = tuple[dict[str, float], float]
Place = tuple[int, int, int, Row]


class Bout(NamedTuple):
    """One recording's places that may be names; how many names were said that are not plain to read."""

    author: str
    places: list[Place]
    said: int


def named(talk: Talk, sheet: Sheet, terms: Terms) -> list[tuple[int, str]]:
    """When each side is named in a talk that is well written."""
    taken = tokens_of(find_mentions(talk, terms))
    references, _ = find_actors(talk, sheet, load_speech("en"), taken)
    return [
        ((talk.tokens[one.first].start_ms + talk.tokens[one.stop - 1].end_ms) // 2, one.side)
        for one in references
        if one.how in HOWS and one.side
    ]


def bout(gold_file: Path, clean: Path, variant: str, terms: Terms) -> Bout | None:
    """The places of one recording of one bout; nothing where the variant is missing."""
    talk_file, gold = gold_file.with_name(gold_file.name.replace(".gold.json", variant)), read_gold(gold_file)
    if not talk_file.exists() or len(gold.sheets) > 1:
        return None
    sheet, speech, talk = gold.sheets[0], load_speech("en"), cut(read(talk_file))
    said = named(cut(read(clean / gold_file.name.replace(".gold.json", ".clean.vtt"))), sheet, terms)
    mentions = [one for one in find_mentions(talk, terms) if one.candidates[0].how != "sound"]
    roster = roster_of(sheet, speech)
    plain = find_once(roster.phrases, talk.texts)
    worn = [one for one in find_actors(talk, sheet, speech, set())[0] if one.how == "colour"]
    for one in plain:
        at = (talk.tokens[one.first].start_ms + talk.tokens[one.stop - 1].end_ms) // 2
        near = [other for other in said if other[1] == roster.side(one.name) and abs(other[0] - at) < NEAR_MS]
        if near:
            said.remove(min(near, key=lambda other: abs(other[0] - at)))
    taken = tokens_of((*mentions, *plain, *worn))
    return Bout(gold_file.name[0], list(places(talk, sheet, taken, said)), len(said))


def places(talk: Talk, sheet: Sheet, taken: set[int], said: list[tuple[int, str]]) -> Iterator[Place]:
    """Every place that may be a name with its number among those said, -1 for none, and its row."""
    for first, stop, side, clues in heard(talk, roster_of(sheet, load_speech("en")).whole, taken, "en"):
        at = (talk.tokens[first].start_ms + talk.tokens[stop - 1].end_ms) // 2
        near = [n for n, one in enumerate(said) if one[1] == side and abs(one[0] - at) < NEAR_MS]
        which = min(near, key=lambda n: abs(said[n][0] - at)) if near else -1
        yield first, stop, which, (clues, 1.0 if near else -1.0)


def fitted(bouts: list[Bout]) -> SideJudge:
    """The judge, when of all places that may be a name said the likeliest is taken for it, fitted anew."""
    judge = SideJudge(weights={"always": 1.0, "far": -4.0})
    for _ in range(ROUNDS):
        judge = fit([row for one in bouts for row in rows(one, judge)])
    return judge


def rows(one: Bout, judge: SideJudge) -> Iterator[Row]:
    """The likeliest place of each name said for, what overlaps none of these against."""
    best: dict[int, tuple[float, int, int]] = {}
    for first, stop, which, (clues, _) in one.places:
        if which >= 0:
            best[which] = max(best.get(which, (-LEAST, 0, 0)), (judge.pull(clues), first, stop))
    meant = {(first, stop) for _, first, stop in best.values()}
    theirs = {at for first, stop in meant for at in range(first, stop)}
    for first, stop, _, (clues, _) in one.places:
        if (first, stop) in meant:
            yield clues, 1.0
        elif theirs.isdisjoint(range(first, stop)):
            yield clues, -1.0


def figures(bouts: list[Bout], judge: SideJudge) -> str:
    """How many of the names are met, and how many places wrongly."""
    met = wrong = 0
    for one in bouts:
        used: set[int] = set()
        found: set[int] = set()
        ranked = sorted(((judge.pull(row[0]), *place) for *place, row in one.places), reverse=True)
        for pull, first, stop, which in ranked:
            if pull > 0 and used.isdisjoint(range(first, stop)):
                used.update(range(first, stop))
                wrong += which < 0
                found.add(which)
        met += len(found - {-1})
    return f"{met} of {sum(one.said for one in bouts)}, wrong {wrong}"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--clean", type=Path)
    parser.add_argument("--write", action="store_true")
    told = parser.parse_args()
    terms = load_terms()
    files = [file for folder in told.folders for file in sorted(folder.glob("*.gold.json"))]
    every = [
        one
        for file in files
        if (one := bout(file, told.clean or file.parent, ".base.vtt", terms)) is not None
    ]
    for author in sorted({one.author for one in every}):
        judge = fitted([one for one in every if one.author != author])
        print(author, figures([one for one in every if one.author == author], judge))
    judge = fitted(every)
    print("all", figures(every, judge), judge.weights)
    if told.write:
        WEIGHTS.write_text(Soundalikes(meant=judge).model_dump_json(indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main()
