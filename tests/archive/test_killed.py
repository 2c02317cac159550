"""Ended by force at any instant, an archive is whole, and the next run takes the work up."""

import os
import time
from pathlib import Path

import psutil
import pytest

from commentaries import write
from hikite.archive import Archive
from keeping_killed import filling, killed

_MANY = 120

pytestmark = pytest.mark.skipif(os.name != "posix", reason="kill -9 is POSIX")


@pytest.mark.parametrize("jobs", [1, 2])
def test_killed_again_and_again(jobs: int, tmp_path: Path) -> None:
    # So many that a machine with much else to do still ends it amid its work.
    write(tmp_path / "talk", _MANY, lines=30)
    kept = killed(tmp_path / "talk", tmp_path / "bouts.archive", 4, jobs=jobs)
    # Nothing that was kept is lost, and it was ended amid its work at least once.
    assert kept == sorted(kept)
    assert any(0 < some < _MANY for some in kept)


def test_its_processes_go_with_it(tmp_path: Path) -> None:
    write(tmp_path / "talk", 200, lines=12)
    process = filling(tmp_path / "fill.py", tmp_path / "bouts.archive", tmp_path / "talk", 2)
    children: list[psutil.Process] = []
    deadline = time.monotonic() + 60
    while len(children) < 3 and time.monotonic() < deadline and process.poll() is None:
        time.sleep(0.2)
        children = below(process.pid)
    assert children, "no process of its own was seen"
    process.kill()
    process.wait()
    while any(map(lives, children)) and time.monotonic() < deadline:
        time.sleep(0.2)
    assert not any(map(lives, children))


def test_a_process_that_dies_costs_no_recording(tmp_path: Path) -> None:
    write(tmp_path / "talk", 150, lines=12)
    process = filling(tmp_path / "fill.py", tmp_path / "bouts.archive", tmp_path / "talk", 2)
    workers: list[psutil.Process] = []
    deadline = time.monotonic() + 60
    while len(workers) < 2 and time.monotonic() < deadline and process.poll() is None:
        time.sleep(0.2)
        workers = [child for child in below(process.pid) if "spawn_main" in command(child)]
    assert workers, "no process of its own was seen"
    workers[-1].kill()
    assert process.wait() == 0
    with Archive.open(tmp_path / "bouts.archive") as archive:
        assert sum(1 for _ in archive.recordings()) == 150
        assert archive.refused() == ()


def below(pid: int) -> list[psutil.Process]:
    try:
        return psutil.Process(pid).children()
    except psutil.NoSuchProcess:
        return []


def command(process: psutil.Process) -> str:
    try:
        return " ".join(process.cmdline())
    except psutil.Error:
        return ""


def lives(process: psutil.Process) -> bool:
    try:
        return process.status() != psutil.STATUS_ZOMBIE
    except psutil.NoSuchProcess:
        return False


def test_readers_see_it_while_it_is_written(tmp_path: Path) -> None:
    file = tmp_path / "bouts.archive"
    Archive.open(file, write=True).close()
    write(tmp_path / "talk", 40, lines=20)
    process = filling(tmp_path / "fill.py", file, tmp_path / "talk", 1)
    seen = []
    while process.poll() is None:
        with Archive.open(file) as archive, archive.looking():
            # Of one recording all is there, or nothing.
            ids = {kept.id for kept in archive.recordings()}
            assert {event.recording for event in archive.events()} == ids
            seen.append(len(ids))
        time.sleep(0.05)
    assert process.returncode == 0
    assert seen == sorted(seen)
    assert len(set(seen)) > 2
