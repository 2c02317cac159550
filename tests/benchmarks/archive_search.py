"""How long searches take in an archive of a million made-up events.

    PYTHONPATH=pipeline:tests python tests/benchmarks/archive_search.py FILE [EVENTS]

makes the archive in FILE unless it is there (see ``archive_making``), and asks it. Times are processor time
of one process, with the file in the system's cache; other work on the machine still makes them longer.
"""

import os
import random
import statistics
import subprocess
import sys
import time
from pathlib import Path

from archive_making import RULES, Maker, make

from hikite.archive import Archive, Query, search
from hikite.archive.searches.expressions import read_expression
from hikite.process import load_lexicon


def compound(maker: Maker, rng: random.Random) -> str:
    """An expression with two to six conditions, as a coach or an archivist might ask."""

    def one(kind: str) -> str:
        ids = maker.concepts[kind]
        return f'"{rng.choices(ids, cum_weights=maker.weights[kind])[0]}"'

    what = rng.choices(
        (one("technique"), '"foot technique"', "throw", f"{one('technique')} or {one('technique')}", ""),
        (60, 10, 5, 15, 10),
    )[0]
    clauses = rng.sample(
        (
            f"by {rng.choice(('red', 'blue'))}",
            f"by {rng.choice(maker.people)}",
            rng.choice(("completed", "failed", "attempted")),
            f"holding {one('grip')}",
            "scored",
            f"when {rng.choice(('behind', 'level', 'leading by 2 or more'))}",
            rng.choice(("clock under 1:00", "clock 3:00 to 1:00")),
            f"under {rng.choice(RULES)}",
            "try 2",
            "sure 80%",
            f"for {rng.choice(maker.nations)}",
            "since 2015-01-01",
            f"at Cup {rng.randrange(150)}",
            f"not {one('technique')}",
        ),
        rng.randrange(1, 5),
    )
    text = " ".join((what, *clauses))
    if rng.random() < 0.2:
        text += f" within {rng.choice((5, 10, 30))} s after {one(rng.choice(('technique', 'grip')))}"
    return text


def quantiles(name: str, times: list[float], notes: str) -> None:
    times.sort()
    cut = [times[int(len(times) * share)] for share in (0.5, 0.95, 0.99)]
    print(
        f"{name:<22} p50 {cut[0]:7.2f}  p95 {cut[1]:7.2f}  p99 {cut[2]:7.2f}  worst {times[-1]:7.2f} ms"
        f"  {notes}"
    )


def forgotten(file: Path) -> None:
    """Have the system drop what it holds of a file (Linux, where nothing of it waits to be written)."""
    with file.open("rb") as stream:
        os.posix_fadvise(stream.fileno(), 0, 0, os.POSIX_FADV_DONTNEED)


def ask(file: Path, count: int = 400) -> None:
    maker, rng = Maker(load_lexicon().terms, 7), random.Random(11)
    with Archive.open(file) as archive:
        maker.people = [name for (name,) in archive.db.execute("SELECT name FROM people ORDER BY id")]
        nations = archive.db.execute("SELECT DISTINCT nation FROM competitors ORDER BY 1")
        maker.nations = [nation for (nation,) in nations]
        queries = [read_expression(compound(maker, rng)) for _ in range(count)]
        spoken = [
            text for (text,) in archive.db.execute("SELECT text FROM talk WHERE id % 251 = 7 LIMIT 2000")
        ]
        phrases = []
        for text in rng.sample(spoken, min(count, len(spoken))):
            words, length = text.split(), rng.choice((1, 2, 2, 3))
            at = rng.randrange(len(words) - length)
            phrases.append(" ".join(words[at : at + length]))
        phrases = [phrase for phrase in phrases if any(c.isalnum() for c in phrase)]
        told: dict[str, list[Query]] = {
            "compound": queries,
            "of these, of one event": [query for query in queries if not query.links],
            "of these, sequences": [query for query in queries if query.links],
            "text, statements": [Query(said=(phrase,)) for phrase in phrases],
            "text and conditions": [
                Query(said=(phrase,), kinds=("technique",), status=("completed", "failed"))
                for phrase in phrases
            ],
        }
        for name, asked in told.items():
            times, hits, slowest = [], 0, []
            for query in asked:
                began = time.process_time()
                hits += bool(search(archive, query).hits)
                times.append((time.process_time() - began) * 1000)
                slowest.append((round(times[-1], 1), str(query.model_dump(exclude_defaults=True))))
            quantiles(name, times, f"{hits}/{len(asked)} with hits")
            if "-v" in sys.argv:
                print("   ", *sorted(slowest)[-6:], sep="\n      ")
    firsts = (
        Query(what=("uchi-mata",)),
        Query(what=("throw",), standing="behind", scored=True),
        Query(said=("left-handed",)),
    )
    for state, forget in (("warm", False), ("not in the system's cache", True)):
        opened = []
        for asked in firsts * 5:
            if forget:
                forgotten(file)
            began = time.perf_counter()
            with Archive.open(file, once=True) as archive:
                search(archive, asked)
            opened.append((time.perf_counter() - began) * 1000)
        print(
            f"open and first search  median {statistics.median(opened):.0f}, worst {max(opened):.0f} ms"
            f" by the clock, the file {state}"
        )
    command = "import sys; from hikite.cli import run; sys.argv[0] = 'hikite'; run()"
    costs = []
    for _ in range(5):
        before, began = os.times(), time.perf_counter()
        subprocess.run(
            [sys.executable, "-c", command, "search", "uchi-mata", "--archive", str(file)],
            check=True,
            stdout=subprocess.DEVNULL,
        )
        wall, after = time.perf_counter() - began, os.times()
        used = after.children_user + after.children_system
        costs.append((used - before.children_user - before.children_system, wall))
    print(f"a new `hikite search`  {min(costs)[0]:.2f} s processor time, {min(costs)[1]:.2f} s by the clock")
    print("load", *(f"{load:.1f}" for load in os.getloadavg()))


if __name__ == "__main__":
    place = Path(sys.argv[1])
    if not place.exists():
        make(place, int(sys.argv[2]) if len(sys.argv) > 2 and sys.argv[2].isdigit() else 1_000_000)
    ask(place)
