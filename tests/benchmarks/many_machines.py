"""One machine against the same machine as a cluster: python tests/benchmarks/many_machines.py FOLDER [COUNT].

Prints words a second by the clock and processor seconds for `keep` with one and two processes and for
`spread` with one and two workers, and whether all of them made the same events.
"""

import os
import shutil
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from processes import cpu

from commentaries import write
from hikite.archive import Archive
from hikite.archive.keeping import keep_files
from hikite.shards import deal, gather, spread


def timed(name: str, run: Callable[[], int]) -> None:
    clock, before = time.monotonic(), cpu()
    words = run()
    seconds, worked = time.monotonic() - clock, cpu() - before
    load = os.getloadavg()[0]
    print(
        f"{name:20} {words:9,} words {seconds:7.1f} s {worked:7.1f} cpu-s {words / seconds:7,.0f} words/s"
        f" {words / worked:7,.0f} words a cpu-s, load {load:.1f}",
        flush=True,
    )


def main(folder: Path, count: int) -> None:
    talk, each = folder / "talk", max(count // 8, 1)
    write(talk, count, lines=110)

    def kept(jobs: int) -> int:
        with Archive.open(folder / f"kept-{jobs}", write=True) as archive:
            return keep_files(archive, (talk,), jobs=jobs).words

    def spread_out(workers: int) -> int:
        shutil.rmtree(folder / f"records-{workers}", ignore_errors=True)
        told = spread(str(folder / "shards"), str(folder / f"records-{workers}"), workers=workers)
        return sum(one.done.words for one in told.worked)

    def dealt() -> int:
        return deal((talk,), str(folder / "shards"), each).recordings and 0

    def gathered() -> int:
        with Archive.open(folder / "gathered", write=True) as archive:
            gather(archive, str(folder / "records-2"))
        return 0

    for jobs in (2, 1):
        timed(f"keep, {jobs} processes", lambda jobs=jobs: kept(jobs))  # type: ignore[misc]
    timed("deal", dealt)
    # Turn about, because other work on the machine comes and goes.
    for workers in (2, 1, 2, 1, 2, 1):
        timed(f"spread, {workers} workers", lambda workers=workers: spread_out(workers))  # type: ignore[misc]
    timed("gather", gathered)
    size = sum(file.stat().st_size for file in (folder / "records-2").rglob("*.parquet"))
    dealt_size = sum(file.stat().st_size for file in (folder / "shards").iterdir())
    print(f"{size:,} bytes of Parquet, {dealt_size:,} of shards")
    query = "SELECT concept, status, side, start_ms, confidence FROM events ORDER BY 1, 2, 3, 4, 5"
    rows = []
    for name in ("kept-2", "kept-1", "gathered"):
        with Archive.open(folder / name) as archive:
            rows.append(archive.db.execute(query).fetchall())
    print("the same events:", rows[0] == rows[1] == rows[2], len(rows[0]))


if __name__ == "__main__":
    place = Path(sys.argv[1])
    shutil.rmtree(place, ignore_errors=True)
    main(place, int(sys.argv[2]) if len(sys.argv) > 2 else 200)
