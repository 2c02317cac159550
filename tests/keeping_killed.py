"""An archive whose filling is ended by force, again and again, against one that was left in peace."""

import random
import subprocess
import sys
import time
from pathlib import Path

from hikite.archive import Archive
from hikite.archive.checks import find_faults
from hikite.archive.errors import ArchiveError
from hikite.archive.keeping import keep_files

PIPELINE = Path(__file__).parents[1] / "pipeline"
FILL = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[1])
from hikite.archive import Archive
from hikite.archive.keeping import keep_files
if __name__ == "__main__":
    with Archive.open(Path(sys.argv[2]), write=True) as archive:
        keep_files(archive, (Path(sys.argv[3]),), jobs=int(sys.argv[4]))
"""


def filling(script: Path, file: Path, folder: Path, jobs: int) -> subprocess.Popen[bytes]:
    script.write_text(FILL, "utf-8")
    command = [sys.executable, str(script), str(PIPELINE), str(file), str(folder), str(jobs)]
    return subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)


def contents(archive: Archive) -> list[object]:
    """All that an archive holds, whatever the order in which it came."""
    people = {one.person: one.name for one in archive.competitors() if one.person}
    shas = {kept.id: kept.sha256 for kept in archive.recordings()}
    rows: list[object] = [
        (shas[event.recording], event.entry, event.concept, event.status, people.get(event.person or 0))
        for event in archive.events()
    ]
    rows += [(sha, archive.reading(id_).model_dump_json()) for id_, sha in shas.items()]
    return sorted(map(str, rows))


def kept_in(file: Path) -> set[str]:
    """The contents of the recordings that an archive holds; none where there is no archive yet."""
    try:
        with Archive.open(file) as archive:
            return {kept.sha256 for kept in archive.recordings()}
    except ArchiveError:
        return set()


def ended(
    process: subprocess.Popen[bytes], file: Path, rng: random.Random, begins_s: float, slice_s: float
) -> None:
    """Kill it: one time in four while it still begins, else so long after it has kept something new."""
    before, deadline = kept_in(file), time.monotonic() + 60
    if rng.random() < 0.25:
        time.sleep(rng.uniform(0, begins_s))
    else:
        while kept_in(file) <= before and process.poll() is None and time.monotonic() < deadline:
            time.sleep(0.01)
        time.sleep(rng.uniform(0, slice_s))
    process.kill()
    process.wait()


def killed(folder: Path, file: Path, times: int, *, jobs: int = 1, seed: int = 1) -> list[int]:
    """Fill ``file`` and kill the process at ``times`` random instants; how many were kept after each.

    AssertionError where, after any of them, the archive is not whole or has lost something.
    """
    rng, kept, last = random.Random(seed), list[int](), set[str]()
    started = began = time.monotonic()
    peaceful = filling(file.with_suffix(".py"), file.with_suffix(".peaceful"), folder, jobs)
    while not kept_in(file.with_suffix(".peaceful")) and peaceful.poll() is None:
        began = time.monotonic()
        time.sleep(0.01)
    assert peaceful.wait() == 0
    begins_s, slice_s = began - started, (time.monotonic() - began) / times
    for _ in range(times):
        ended(filling(file.with_suffix(".py"), file, folder, jobs), file, rng, begins_s, slice_s)
        if file.exists():
            with Archive.open(file, write=True) as archive:
                assert find_faults(archive, deep=True) == ()
            now = kept_in(file)
            assert now >= last
            last = now
        kept.append(len(last))
    with Archive.open(file, write=True) as archive:
        keep_files(archive, (folder,))
        assert find_faults(archive, deep=True) == ()
        with Archive.open(file.with_suffix(".peaceful")) as other:
            assert contents(archive) == contents(other) != []
    return kept
