"""Writes ``lexicon/en/pronunciations.txt.gz``: how common English words sound and how common they are.

    python tests/fits/pronunciations.py cmudict.dict frequency_dictionary_en_82_765.txt

The first file is the CMU Pronouncing Dictionary (BSD 2-clause; https://github.com/cmusphinx/cmudict), the
second the word counts that ship with symspellpy 6.10.1 (MIT; counts from the Google Books Ngram data, CC BY
3.0, cut to the SCOWL word lists). Three lines come out: words, their sounds, and one digit or letter a word
for the logarithm of its count. Notices: ``lexicon/en/pronunciations.LICENSE``.
"""

import gzip
import math
import sys
from pathlib import Path

_SIGNS = {
    "AA": "a", "AE": "A", "AH": "@", "AO": "o", "EH": "e", "IY": "i", "IH": "I", "OW": "O", "UW": "u",
    "UH": "U",
    "ER": "3", "EY": "E", "AY": "Y", "AW": "W", "OY": "8", "P": "p", "B": "b", "T": "t", "D": "d", "K": "k",
    "G": "g", "F": "f", "V": "v", "S": "s", "Z": "z", "SH": "S", "ZH": "Z", "CH": "C", "JH": "J", "M": "m",
    "N": "n", "NG": "N", "L": "l", "R": "r", "W": "w", "Y": "y", "HH": "h", "TH": "T", "DH": "D",
}  # fmt: skip
_LEVELS = "0123456789abcdefghijklmnopqrstuvwxyz"
_UNREAD = "-"
_OFTEN = 200_000


def main(dictionary: Path, counts: Path, target: Path) -> None:
    """Write the table of ``target`` from the two sources."""
    sounds: dict[str, str] = {}
    for line in dictionary.read_text("utf-8").splitlines():
        word, *phones = line.split("#")[0].split()
        if word.replace("'", "").isalpha():
            sounds.setdefault(word.replace("'", ""), "".join(_SIGNS[phone.rstrip("012")] for phone in phones))
    often = dict(line.split() for line in counts.read_text("utf-8-sig").splitlines())
    for word, count in often.items():
        if int(count) >= _OFTEN and word.isalpha():
            sounds.setdefault(word, _UNREAD)
    words = sorted(sounds)
    levels = "".join(_level(int(often.get(word, "0"))) for word in words)
    table = "\n".join([" ".join(words), " ".join(sounds[word] for word in words), levels])
    target.write_bytes(gzip.compress(table.encode("ascii"), 9, mtime=0))


def _level(count: int) -> str:
    """Half-decades of the count above ten thousand; 0 for a word that is not listed."""
    return _LEVELS[max(0, round(2 * math.log10(count / 1e4)) + 1)] if count >= 1e4 else _LEVELS[count > 0]


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]), Path(__file__).parents[2] / "lexicon/en/pronunciations.txt.gz")
