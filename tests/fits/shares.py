"""Fits ``shares.toml``: ``python tests/fits/shares.py FOLDER [FOLDER ...] [--write]``.

How often a claim read from a phrase is one that a careful listener marks, by kind and by what it was read
from, counted on labelled bouts. Half of these should be by speakers whose phrases were not collected yet: of
bouts that were read for their phrases nearly all is right. Rare makes lean on their kind, a rare kind on all.
"""

import argparse
import tomllib
from collections import defaultdict
from pathlib import Path

from hikite.claims.said.confidences import FITTED, make_of
from hikite.evaluate.golds import read_gold
from hikite.evaluate.matches import heard_claims, match
from hikite.evaluate.runs import commentary_of, find_golds
from hikite.process import load_lexicon, process
from hikite.transcripts import read

FILE = Path(__file__).parents[2] / "pipeline/hikite/claims/said/shares.toml"
# So many claims of the next wider group count beside a group's own.
_LEAN = 20
Counts = dict[tuple[str, str], list[bool]]


def counted(folders: list[Path]) -> Counts:
    """Whether each claim was right, by kind and make."""
    lexicon, found = load_lexicon(), defaultdict(list)
    for path in find_golds(folders):
        gold = read_gold(path)
        talk = commentary_of(path, "clean")
        if talk is None:
            continue
        recording = process(read(talk), lexicon, gold.sheets[0])
        claims = recording.testimony.claims
        right = set(match(heard_claims(claims, recording.talk), gold, lexicon.terms.same).values())
        for number, claim in enumerate(claims):
            if claim.kind in FITTED:
                found[claim.kind, make_of(claim)].append(number in right)
    return found


def fitted(found: Counts) -> dict[str, dict[str, float]]:
    """The share of each kind (under an empty name) and make."""

    def share(right: list[bool], wider: float) -> float:
        return (sum(right) + _LEAN * wider) / (len(right) + _LEAN)

    everything = [one for right in found.values() for one in right]
    overall = sum(everything) / len(everything)
    shares: dict[str, dict[str, float]] = {}
    for kind in FITTED:
        of_kind = [one for (which, _), right in found.items() if which == kind for one in right]
        shares[kind] = {"": share(of_kind, overall)}
        for (which, make), right in sorted(found.items()):
            if which == kind:
                shares[kind][make] = share(right, shares[kind][""])
    return shares


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folders", type=Path, nargs="+")
    parser.add_argument("--write", action="store_true")
    given = parser.parse_args()
    found = counted(given.folders)
    shares = fitted(found)
    for (kind, make), right in sorted(found.items()):
        print(f"{kind:<14}{make:<28}{sum(right):>4} of {len(right):>4}  told {shares[kind][make]:.2f}")
    if given.write:
        head = FILE.read_text("utf-8").split("\n[", 1)[0]
        kinds = {
            kind: [f'"{make}" = {share:.2f}' for make, share in of.items()] for kind, of in shares.items()
        }
        text = head + "".join(f"\n[{kind}]\n" + "\n".join(rows) + "\n" for kind, rows in kinds.items())
        tomllib.loads(text)
        FILE.write_text(text, "utf-8")


if __name__ == "__main__":
    main()
