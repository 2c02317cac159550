"""How an archive is filled: speed, size, memory; killed at random instants; bad files among good ones.

    PYTHONPATH=pipeline:tests python tests/benchmarks/archive_keeping.py FOLDER fill COUNT [JOBS]
    PYTHONPATH=pipeline:tests python tests/benchmarks/archive_keeping.py FOLDER kill COUNT TIMES [JOBS]
    PYTHONPATH=pipeline:tests python tests/benchmarks/archive_keeping.py FOLDER bad COUNT

writes that many made-up recordings (or bad files beside a hundred good ones) under FOLDER and keeps them.
"""

import os
import random
import resource
import sys
import time
from pathlib import Path

from commentaries import write
from hikite.archive import Archive
from hikite.archive.checks import find_faults
from hikite.archive.keeping import Summary, keep_files
from keeping_killed import killed


def keep(file: Path, folder: Path, jobs: int) -> Summary:
    with Archive.open(file, write=True) as archive:
        return keep_files(archive, (folder,), jobs=jobs)


def used(who: int) -> float:
    return resource.getrusage(who).ru_maxrss / 1024


def fill(folder: Path, count: int, jobs: int = 2) -> None:
    write(folder / "talk", count, lines=80)
    file = folder / "fill.archive"
    for part in (count // 10, count):
        file.unlink(missing_ok=True)
        some = folder / f"part-{part}"
        some.mkdir(exist_ok=True)
        for each in sorted((folder / "talk").iterdir())[: 2 * part]:
            if not (some / each.name).exists():
                os.link(each, some / each.name)
        began = time.process_time()
        told = keep(file, some, jobs)
        own = time.process_time() - began
        rate, size = told.words / told.seconds, file.stat().st_size
        print(
            f"{told.new:,} recordings, {told.words:,} words, {told.seconds:.1f} s, {rate:,.0f} words/s"
            f" with {jobs} jobs;"
            f" writer's own {own:.1f} s; {size / 2**20:.1f} MiB, {size / told.words:.0f} bytes a word;"
            f" highest memory {used(resource.RUSAGE_SELF):.0f} MiB,"
            f" of a worker {used(resource.RUSAGE_CHILDREN):.0f} MiB"
        )
    began = time.monotonic()
    again = keep(file, folder / f"part-{count}", jobs)
    print(f"a second run: {again.same:,} as before, {again.new} new, {time.monotonic() - began:.1f} s")


def kill(folder: Path, count: int, times: int, jobs: int = 1) -> None:
    write(folder / "killed", count, lines=40)
    kept = killed(folder / "killed", folder / "killed.archive", times, jobs=jobs, seed=5)
    print(
        f"killed {times} times; kept after each {kept}; whole each time, and in the end as if left in peace"
    )


def bad(folder: Path, count: int) -> None:
    rng, place = random.Random(3), folder / "mixed"
    good = write(place, 100, lines=30)
    text = good[0].read_bytes()
    for number in range(count):
        data = rng.choice(
            (
                b"",
                rng.randbytes(rng.randrange(1, 4_000)),
                b"WEBVTT\n",
                b"{" * rng.randrange(1, 50_000),
                text[: rng.randrange(1, 20)],
                b"<tt><body>" + rng.randbytes(50),
                b"\xff\xfe" + rng.randbytes(99),
                b"1\n99:99 --> x\nhello\n",
                b'{"segments": 7}',
                b"plain prose, no times\n" * rng.randrange(1, 99),
            )
        )
        ending = rng.choice((".vtt", ".srt", ".json", ".ttml", ".ctm", ".txt"))
        (place / f"bad-{number:05d}{ending}").write_bytes(data)
    told = keep(folder / "mixed.archive", place, 1)
    with Archive.open(folder / "mixed.archive", write=True) as archive:
        names = {Path(kept.path or "").name for kept in archive.recordings()}
        listed = {Path(one.path).name for one in archive.refused()}
        faults = find_faults(archive, deep=True)
    missing = {file.name for file in good} - names
    neither = {file.name for file in place.iterdir() if not file.name.endswith(".toml")} - names - listed
    # Files of the same bytes are one recording, or refused each by its name.
    print(
        f"{told.looked_at:,} files in {told.seconds:.1f} s: {told.new} new, {len(told.refused):,} refused,"
        f" {told.copies} copies; good ones missing {len(missing)}; neither kept nor listed {len(neither)};"
        f" faults {faults}"
    )


if __name__ == "__main__":
    {"fill": fill, "kill": kill, "bad": bad}[sys.argv[2]](Path(sys.argv[1]), *map(int, sys.argv[3:]))
