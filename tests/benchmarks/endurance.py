"""Whether memory stays flat over many recordings.

    PYTHONPATH=pipeline:tests python tests/benchmarks/endurance.py [RECORDINGS]

reads the samples again and again, one word in five spelt as nobody spells it, so that every recording brings
words never met before; prints the resident memory every tenth of the way. What is remembered of words met has
a bound, so the figure rises to a plateau.
"""

import random
import sys
import time
from pathlib import Path

from commentaries import misheard
from hikite.process import load_lexicon, process
from hikite.transcripts import read

SAMPLES = sorted((Path(__file__).parents[2] / "samples").glob("*.vtt"))


def spoilt(text: str, draw: random.Random) -> str:
    """The caption text with one word in five spoilt."""
    lines = text.split("\n")
    return "\n".join(
        line if "-->" in line or line.startswith("WEBVTT") else misheard(line, 0.2, draw) for line in lines
    )


def resident_mb() -> float:
    """This process's resident memory; from Linux's own account of it."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096 / 1e6


def main() -> None:
    recordings = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    lexicon, draw = load_lexicon(), random.Random(7)
    texts = [path.read_text("utf-8") for path in SAMPLES]
    words, start = 0, time.process_time()
    for number in range(recordings):
        recording = process(read(spoilt(draw.choice(texts), draw).encode()), lexicon)
        words += len(recording.talk.tokens)
        if (number + 1) % max(recordings // 10, 1) == 0:
            speed = words / (time.process_time() - start)
            print(f"{number + 1:7,} recordings   {resident_mb():6.0f} MB   {speed:8,.0f} words/s")


if __name__ == "__main__":
    main()
