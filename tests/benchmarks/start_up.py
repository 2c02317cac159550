"""What a command costs, start to exit: ``python tests/benchmarks/start_up.py [RECORDING] [ROUNDS]``.

Prints the shortest and the median wall time, the least processor time and the highest resident memory, beside
a bare interpreter's, of the help text and of one recording read: with what an earlier run kept, and with
nothing kept between runs. Compare the ratios; a machine's absolute times are its own.
"""

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median
from typing import NamedTuple

SAMPLE = Path(__file__).parents[2] / "samples/final-79kg.vtt"


class Cost(NamedTuple):
    """Wall time and processor time in seconds, resident memory in megabytes."""

    wall: float
    processor: float
    memory: float


def measure(command: list[str], cache: str) -> Cost:
    """What one run costs."""
    start = time.perf_counter()
    child = subprocess.Popen(
        command,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env=os.environ | {"HIKITE_CACHE": cache},
    )
    _, status, usage = os.wait4(child.pid, 0)
    wall = time.perf_counter() - start
    if status:
        raise SystemExit(f"{' '.join(command)}: exit status {os.waitstatus_to_exitcode(status)}")
    return Cost(wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024)


def main() -> None:
    recording = sys.argv[1] if len(sys.argv) > 1 else str(SAMPLE)
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    hikite = [sys.executable, "-c", "from hikite.cli import run; run()"]
    read = [*hikite, "read", recording]
    with tempfile.TemporaryDirectory() as cache:
        measure(read, cache)
        commands = (
            ("interpreter", [sys.executable, "-c", "pass"], "off"),
            ("hikite --help", [*hikite, "--help"], "off"),
            ("hikite read", read, cache),
            ("nothing kept", read, "off"),
        )
        for name, command, kept in commands:
            costs = [measure(command, kept) for _ in range(rounds)]
            walls = [cost.wall for cost in costs]
            print(
                f"{name:15s} shortest {min(walls):6.2f} s   median {median(walls):6.2f} s   "
                f"processor {min(cost.processor for cost in costs):6.2f} s   "
                f"memory {max(cost.memory for cost in costs):6.0f} MB"
            )


if __name__ == "__main__":
    main()
