"""Archives of made-up events, as many as wanted, for the benchmarks.

The events are drawn at random: techniques and words by Zipf's law, as names and words are spread in talk;
statuses, sides, scores and clocks by rough shares of what the samples hold (common practice, no source).
"""

import itertools
import random
import time
from pathlib import Path

from hikite.archive import Archive
from hikite.archive.derivations import Derived
from hikite.archive.derivations.rows import BoutRow, CompetitorRow, EventRow, RecordingRow, StatementRow
from hikite.archive.lexicons import put_lexicon
from hikite.archive.planning import Place
from hikite.archive.stamps import load_stamps
from hikite.archive.writing import put, put_tallies
from hikite.process import load_lexicon
from hikite.terms import Terms

A_BOUT = 55
RULES = ("sambo.sport.2020", "judo.2018", "judo.2025", "uww.fs", "uww.gr", "fila.2005")
KINDS = (
    *("technique", "grip", "score", "stoppage", "clock", "landing", "penalty", "hold", "position"),
    "stated_score",
)
SHARES = (34, 14, 8, 14, 8, 6, 4, 4, 4, 4)
STATUS = {
    "technique": (
        ("attempted", "completed", "failed", "threatened", "recalled", "described"),
        (30, 18, 28, 8, 10, 6),
    ),
    "grip": (("taken", "broken", "sought", "described"), (70, 12, 10, 8)),
    "hold": (("running", "completed", "broken", "attempted"), (40, 25, 25, 10)),
}


class Maker:
    """Draws recordings one after the other from one seed."""

    def __init__(self, terms: Terms, seed: int) -> None:
        self.rng = random.Random(seed)
        self.concepts = {
            kind: [id_ for id_, one in terms.concepts.items() if one.kind == kind]
            for kind in ("technique", "grip", "hold", "landing", "penalty", "stoppage", "position")
        }
        self.weights = {
            kind: list(itertools.accumulate(1 / (at + 1) ** 0.8 for at in range(len(ids))))
            for kind, ids in self.concepts.items()
        }
        self.vocabulary = sorted(
            {word for name in terms.names if name.language == "en" for word in name.form.split()}
        )
        self.rng.shuffle(self.vocabulary)
        self.word_weights = list(itertools.accumulate(1 / (at + 3.7) for at in range(len(self.vocabulary))))
        syllables = [
            *("ka", "dren", "vo", "mar", "tis", "ul", "bek"),
            *("sor", "lin", "pa", "zu", "hal", "ost", "fer"),
        ]
        self.people = [
            "".join(self.rng.choices(syllables, k=3)).title()
            + " "
            + "".join(self.rng.choices(syllables, k=2)).title()
            for _ in range(9_000)
        ]
        self.nations = ["".join(self.rng.choices(syllables, k=2)).title() + "land" for _ in range(80)]

    def words(self, count: int) -> str:
        return " ".join(self.rng.choices(self.vocabulary, cum_weights=self.word_weights, k=count))

    def concept(self, kind: str) -> str:
        ids = self.concepts.get(kind)
        return self.rng.choices(ids, cum_weights=self.weights[kind])[0] if ids else kind

    def recording(self, number: int) -> Derived:
        rng, events = self.rng, []
        names = rng.sample(self.people, 2)
        fighters = tuple(
            CompetitorRow(1, side, name, rng.choice(self.nations))
            for side, name in zip(("red", "blue"), names, strict=True)
        )
        day = 731_000 + rng.randrange(8_000)
        start, points, grips, tries = 0, [0, 0], "", {}
        for place in range(1, A_BOUT + 1):
            start += rng.randrange(1_000, 12_000)
            kind = rng.choices(KINDS, SHARES)[0]
            names_of = STATUS.get(kind)
            status = (
                rng.choices(*names_of)[0]
                if names_of
                else "given"
                if kind in ("score", "penalty")
                else "stated"
            )
            side = rng.randrange(2)
            concept = self.concept(kind)
            gained = rng.choice((1, 2, 4)) if status == "completed" and rng.random() < 0.6 else None
            attempt = None
            if kind == "technique" and status in ("attempted", "completed", "failed"):
                attempt = tries[concept, side] = tries.get((concept, side), 0) + 1
            lead = points[side] - points[1 - side]
            grips = f"|{self.concept('grip')}|" if rng.random() < 0.3 else grips
            clock = max(300 - start / 1000, 0.0)
            events.append(
                EventRow(
                    place=place,
                    bout=1,
                    number=place,
                    start_ms=start,
                    end_ms=start + 900,
                    kind=kind,
                    concept=concept,
                    status=status,
                    side=("red", "blue")[side],
                    generic=False,
                    attributes="",
                    counts=kind == "score",
                    points=2 if kind == "score" else None,
                    score_class=None,
                    seconds=None,
                    fell=None,
                    unspoken=False,
                    rule_row=None,
                    clock_low_s=clock - 5,
                    clock_high_s=clock + 5,
                    clock_best_s=clock,
                    golden=False,
                    confidence=rng.random() ** 0.3,
                    side_confidence=rng.random() ** 0.2,
                    status_confidence=rng.random() ** 0.4,
                    statement=place,
                    words="",
                    head=rng.random() < 0.85,
                    moment=place,
                    gained=gained,
                    gained_class=None,
                    scored=gained is not None or kind == "score",
                    landing=None,
                    own_before=points[side],
                    other_before=points[1 - side],
                    lead=lead,
                    standing=(lead > 0) - (lead < 0),
                    score_before=f"{points[0]}–{points[1]}",
                    score_after=None,
                    grips=grips if kind != "grip" else "",
                    attempt=attempt,
                    previous=place - 1 or None,
                )
            )
            points[side] += gained or 0
        talk = tuple(StatementRow(e.place, e.start_ms, e.end_ms, None, self.words(12)) for e in events)
        return Derived(
            path=f"/made/up/{number}.vtt",
            recording=RecordingRow(
                sha256=f"{number:064x}",
                title=f"{rng.choice(self.nations)} Cup {number % 150}",
                folded_title=f"cup {number % 150}",
                date=None,
                day=day,
                address=None,
                format="webvtt",
                encoding="utf-8",
                language=None,
                duration_ms=start,
                cues=A_BOUT,
                sheet="{}",
                ruleset=None,
            ),
            parts={},
            lexicon="",
            talk=talk,
            bouts=(
                BoutRow(
                    1,
                    rng.choices(RULES, (30, 30, 10, 20, 8, 2))[0],
                    1.0,
                    "red",
                    "blue",
                    0,
                    start,
                    300,
                    "0–0",
                    1.0,
                    None,
                    None,
                    0.0,
                ),
            ),
            competitors=fighters,
            events=tuple(events),
        )


def make(file: Path, events: int) -> None:
    lexicon, stamps = load_lexicon(), load_stamps()
    maker, began = Maker(lexicon.terms, 7), time.process_time()
    with Archive.open(file, write=True) as archive:
        archive.db.execute("PRAGMA synchronous = OFF")
        with archive.writing() as db:
            put_lexicon(db, lexicon, stamps.words)
        for number in range(events // A_BOUT):
            derived = maker.recording(number)
            put(archive, derived, (Place(path=derived.path),), "", stamps)
        with archive.writing() as db:
            put_tallies(db)
        archive.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    took = time.process_time() - began
    print(f"made {events // A_BOUT * A_BOUT:,} events in {took:.0f} s, {file.stat().st_size / 2**20:.0f} MiB")
