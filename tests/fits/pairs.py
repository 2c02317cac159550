"""Writes ``lexicon/en/pairs.gz``: which two English words are often met side by side, and how often.

    python tests/fits/pairs.py frequency_bigramdictionary_en_243_342.txt

The file is the list of word pairs that ships with symspellpy 6.10.1 (MIT; counts from the Google Books Ngram
data, CC BY 3.0). Words are numbered as in ``lexicon/en/pronunciations.txt.gz``; pairs with other words are
left out. Written are the number of pairs, the ascending pairs as differences in groups of seven bits, and one
byte a pair for the logarithm of its count, in the levels of the single words. Notices:
``pronunciations.LICENSE``.
"""

import gzip
import math
import sys
from pathlib import Path

from hikite.sounds import load_ear
from hikite.sounds.pairs import PLACES

_LEAST = 1e4


def main(counts: Path, target: Path) -> None:
    """Write the table of ``target`` from the list of pairs."""
    number = load_ear("en").number
    pairs = {}
    for line in counts.read_text("utf-8-sig").splitlines():
        first, second, count = line.replace("'", "").split()
        one, two = number(first), number(second)
        if one >= 0 and two >= 0:
            pairs[one * PLACES + two] = round(2 * math.log10(int(count) / _LEAST)) + 1
    packed, before = bytearray(), 0
    for pair in sorted(pairs):
        gap, before = pair - before, pair
        while gap > 127:
            packed.append(gap & 127 | 128)
            gap >>= 7
        packed.append(gap)
    levels = bytes(pairs[pair] for pair in sorted(pairs))
    target.write_bytes(gzip.compress(len(pairs).to_bytes(4, "little") + packed + levels, 9, mtime=0))


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(__file__).parents[2] / "lexicon/en/pairs.gz")
