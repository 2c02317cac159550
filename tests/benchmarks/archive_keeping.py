"""How an archive is filled: speed, size, memory; killed at random instants; bad files among good ones.

    PYTHONPATH=pipeline:tests python tests/benchmarks/archive_keeping.py FOLDER fill COUNT [JOBS]
    PYTHONPATH=pipeline:tests python tests/benchmarks/archive_keeping.py FOLDER kill COUNT TIMES [JOBS]
    PYTHONPATH=pipeline:tests python tests/benchmarks/archive_keeping.py FOLDER bad COUNT [JOBS]

writes that many made-up recordings (or bad files beside a hundred good ones) under FOLDER and keeps them.
"""

import os
import random
import resource
import sys
import time
from pathlib import Path

import psutil
from processes import cpu, readers

from commentaries import write
from hikite.archive import Archive
from hikite.archive.checks import find_faults
from hikite.archive.keeping import Summary, Watch, keep_files
from keeping_killed import killed


def keep(file: Path, folder: Path, jobs: int, watch: Watch | None = None) -> Summary:
    with Archive.open(file, write=True) as archive:
        return keep_files(archive, (folder,), jobs=jobs, watch=watch)


def used(who: int) -> float:
    return resource.getrusage(who).ru_maxrss / 1024


def resident(process: psutil.Process) -> float:
    return float(process.memory_info().rss / 2**20)


class Memory:
    """What the writer and its processes hold, told every tenth of the way."""

    def __init__(self) -> None:
        self.own, self.began, self.told = psutil.Process(), time.monotonic(), 0

    def __call__(self, step: str, done: int, whole: int) -> None:
        if step != "reading" or done * 10 // whole == self.told:
            return
        self.told = done * 10 // whole
        each = map(resident, readers())
        seconds = time.monotonic() - self.began
        print(
            f"{done:7,} recordings  {seconds:6.0f} s  writer {resident(self.own):4.0f} MiB"
            f"  processes {' '.join(f'{one:.0f}' for one in each)} MiB",
            flush=True,
        )


def fill(folder: Path, count: int, jobs: int = 2) -> None:
    talk, file = folder / f"talk-{count}", folder / "fill.archive"
    if not talk.exists():
        write(talk, count, lines=66, slips=0.05)
    file.unlink(missing_ok=True)
    before, own = cpu(), time.process_time()
    told = keep(file, talk, jobs, Memory())
    worked, own = cpu() - before, time.process_time() - own
    size = file.stat().st_size
    print(
        f"{told.new:,} recordings, {told.words:,} words, {jobs} jobs, {told.seconds:.0f} s by the clock:"
        f" {told.words / told.seconds:,.0f} words/s; {worked:.0f} processor seconds, of which the writer"
        f" {own:.0f}: {told.words / worked:,.0f} words a processor second;"
        f" {size / 2**20:.1f} MiB, {size / told.words:.0f} bytes a word, text itself"
        f" {sum(each.stat().st_size for each in talk.glob('*.vtt')) / told.words:.0f}"
    )
    print(
        f"highest memory: writer {used(resource.RUSAGE_SELF):.0f} MiB, "
        f"of its processes {used(resource.RUSAGE_CHILDREN):.0f} MiB"
    )
    began = time.monotonic()
    again = keep(file, talk, jobs)
    print(f"a second run: {again.same:,} as before, {again.new} new, {time.monotonic() - began:.1f} s")
    began = time.monotonic()
    with Archive.open(file) as archive:
        print(f"faults {find_faults(archive)}; looked for in {time.monotonic() - began:.1f} s")
    print("load", *(f"{load:.1f}" for load in os.getloadavg()))


def kill(folder: Path, count: int, times: int, jobs: int = 1) -> None:
    write(folder / "killed", count, lines=40)
    kept = killed(folder / "killed", folder / "killed.archive", times, jobs=jobs, seed=5)
    print(
        f"killed {times} times; kept after each {kept}; whole each time, and in the end as if left in peace"
    )


def spoilt(text: bytes, rng: random.Random) -> dict[str, bytes]:
    """Contents that are no recording, by what is wrong with them; ``text`` is a good one."""
    return {
        "empty": b"",
        "blank": b" \r\n\t" * rng.randrange(1, 50),
        "noise": rng.randbytes(rng.randrange(1, 4_000)),
        "head alone": b"WEBVTT\n",
        "cut off in its head": text[: rng.randrange(1, 20)],
        "cues without words": b"WEBVTT\n\n" + b"00:01.000 --> 00:02.000\n\n" * rng.randrange(1, 9),
        "no such times": b"1\n99:99 --> x\nhello\n",
        "JSON nested without end": b"{" * rng.randrange(1, 50_000),
        "JSON lists without end": b"[" * 20_000,
        "JSON of another kind": b'{"segments": 7}',
        "JSON with words for times": b'{"segments": [{"start": "soon", "end": null, "text": 4}]}',
        "JSON with times past all bounds": b'{"segments": [{"start": 1e400, "end": NaN, "text": "leg"}]}',
        "markup cut off": b"<tt><body>" + rng.randbytes(50),
        "markup that grows": b'<!DOCTYPE t [<!ENTITY a "aa"><!ENTITY b "&a;&a;">]><tt>&b;</tt>',
        "a web page": b"<!doctype html><html><body><p>not found</p></body></html>",
        "half of a UTF-16 text": b"\xff\xfe" + rng.randbytes(99),
        "a picture's head": b"\x89PNG\r\n\x1a\n" + rng.randbytes(200),
        "an archive's head": b"PK\x03\x04" + rng.randbytes(200),
        "zeros": bytes(rng.randrange(1, 5_000)),
        "prose": b"plain prose, no times\n" * rng.randrange(1, 99),
    }


def bad(folder: Path, count: int, jobs: int = 2) -> None:
    rng, place, kinds = random.Random(3), folder / "mixed", dict[str, str]()
    good = {file.name for file in write(place, 100, lines=30)}
    text = (place / min(good)).read_bytes()
    for number in range(count):
        kind, data = rng.choice(tuple(spoilt(text, rng).items()))
        name = f"bad-{number:05d}{rng.choice(('.vtt', '.srt', '.json', '.ttml', '.ctm', '.txt'))}"
        kinds[name] = kind
        (place / name).write_bytes(data)
    file = folder / "mixed.archive"
    file.unlink(missing_ok=True)
    told = keep(file, place, jobs)
    with Archive.open(file) as archive:
        kept = {Path(path).name for (path,) in archive.db.execute("SELECT path FROM files")}
        listed = {Path(one.path).name: one.reason for one in archive.refused()}
        faults = find_faults(archive, deep=True)
    print(
        f"{told.looked_at:,} files in {told.seconds:.1f} s with {jobs} jobs:"
        f" {len(kept & good)} of {len(good)} good ones kept,"
        f" {len(listed):,} of {count:,} bad ones listed in {len(set(kinds.values()))} kinds;"
        f" neither {len(kinds.keys() - kept - listed.keys())}; faults {faults}"
    )
    print("bad ones kept:", sorted({kinds[name] for name in kept - good}))
    print("faults of hikite:", sorted({kinds[name] for name in listed if "fault of hikite" in listed[name]}))


if __name__ == "__main__":
    {"fill": fill, "kill": kill, "bad": bad}[sys.argv[2]](Path(sys.argv[1]), *map(int, sys.argv[3:]))
