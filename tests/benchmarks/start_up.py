"""What a command costs, start to exit: ``python tests/benchmarks/start_up.py [RECORDING] [ROUNDS]``.

Prints the shortest and the median wall time and the highest resident memory, beside a bare interpreter's,
of the help text and of one recording read. Compare the ratios; a machine's absolute times are its own.
"""

import resource
import subprocess
import sys
import time
from pathlib import Path
from statistics import median

SAMPLE = Path(__file__).parents[2] / "samples/final-79kg.vtt"


def measure(command: list[str], rounds: int) -> tuple[float, float]:
    """Shortest and median seconds."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        times.append(time.perf_counter() - start)
    return min(times), median(times)


def main() -> None:
    recording = sys.argv[1] if len(sys.argv) > 1 else str(SAMPLE)
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 5
    hikite = [sys.executable, "-c", "from hikite.cli import run; run()"]
    commands = {
        "interpreter": [sys.executable, "-c", "pass"],
        "hikite --help": [*hikite, "--help"],
        "hikite read": [*hikite, "read", recording],
    }
    for name, command in commands.items():
        best, middle = measure(command, rounds)
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        print(f"{name:15s} shortest {best:6.2f} s   median {middle:6.2f} s   peak so far {peak:6.0f} MB")


if __name__ == "__main__":
    main()
