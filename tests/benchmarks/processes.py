"""What processes cost that a benchmark starts."""

import os

import psutil


def readers() -> list[psutil.Process]:
    """The processes that read for this one; the one that minds their semaphores stays to the end."""
    return [child for child in psutil.Process().children() if "spawn_main" in " ".join(child.cmdline())]


def cpu() -> float:
    """Processor seconds of this process and of those that it started, once these have ended."""
    psutil.wait_procs(readers(), timeout=60)
    return sum(os.times()[:4])
