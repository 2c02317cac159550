"""Train, dev and test: whoever fights in one part fights in no other.

Two recordings belong together where they share an athlete, or are one film in two wordings: the same media
file, or captions whose names differ in their endings alone (``final.en.vtt``, ``final.de.vtt``). What hangs
together is put into one part as a whole.
"""

import hashlib
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping

from pydantic import BaseModel

from hikite.archive import Archive
from hikite.archive.folding import folded
from hikite.archive.kept import BOUTS, KeptRecording
from hikite.datasets.plans import PARTS, Part

_ENDING = re.compile(r"\.[A-Za-z][A-Za-z-]{0,11}$")


class Split(BaseModel, frozen=True, extra="forbid"):
    """By recording its part and the group of recordings it hangs together with (named by its first)."""

    parts: dict[int, Part]
    groups: dict[int, int]


def split_archive(archive: Archive, shares: tuple[float, float, float], seed: int) -> Split:
    """Every recording of the archive in its part."""
    names: dict[int, set[str]] = {one.id: set() for one in archive.recordings()}
    hashes = {one.id: one.sha256 for one in archive.recordings()}
    for one in archive.competitors():
        if one.name:
            names[one.bout >> BOUTS].add(one.name)
    films = {one.id: _films(one) for one in archive.recordings()}
    return split(names, hashes, shares, seed, films)


def _films(kept: KeptRecording) -> tuple[str, ...]:
    """What a recording has in common with another wording of it: the media file, the name without endings.

    An ending is a few letters after a dot: ``.en``, ``.pt-BR``, ``.vtt``; ``2026.05.09`` has none.
    """
    name = kept.path or ""
    while (found := _ENDING.search(name)) is not None:
        name = name[: found.start()]
    return tuple(filter(None, (kept.media, name)))


def split(
    names: Mapping[int, Iterable[str]],
    hashes: Mapping[int, str],
    shares: tuple[float, float, float],
    seed: int,
    films: Mapping[int, Iterable[str]] | None = None,
) -> Split:
    """Recordings, each with its athletes' names and its content's hash, in parts of about these shares.

    Those that have one of ``films`` in common belong together as well.

    The largest groups are placed first, each where most is lacking; among those of one size the seed and the
    hashes decide, so that neither order nor numbering of recordings matters.
    """
    groups = _groups(names, hashes, films or {})
    members: dict[int, list[int]] = defaultdict(list)
    for recording, first in groups.items():
        members[first].append(recording)
    order = sorted(members, key=lambda first: (-len(members[first]), _drawn(seed, hashes[first])))
    filled = dict.fromkeys(PARTS, 0)
    parts: dict[int, Part] = {}
    for first in order:
        lacking = [len(names) * share - filled[part] for part, share in zip(PARTS, shares, strict=True)]
        part = PARTS[max(range(len(PARTS)), key=lambda number: (lacking[number], -number))]
        filled[part] += len(members[first])
        parts.update(dict.fromkeys(members[first], part))
    return Split(parts=parts, groups=groups)


def _groups(
    names: Mapping[int, Iterable[str]], hashes: Mapping[int, str], films: Mapping[int, Iterable[str]]
) -> dict[int, int]:
    """By recording the one of its group whose hash comes first."""
    joined = _Joined()
    whole: dict[str, set[str]] = defaultdict(set)
    for recording, given in names.items():
        joined.find(recording)
        for film in films.get(recording, ()):
            joined.join(recording, f"film {film}")
        for name in map(folded, given):
            joined.join(recording, f"name {name}")
            for word in name.split():
                whole[word].add(name)
    # "Destrow" may be any Destrow: a name of one word joins all that have it.
    for word, having in whole.items():
        if word in having:
            for name in having:
                joined.join(f"name {word}", f"name {name}")
    firsts: dict[int | str, int] = {}
    for recording in sorted(names, key=lambda one: hashes[one]):
        firsts.setdefault(joined.find(recording), recording)
    return {recording: firsts[joined.find(recording)] for recording in names}


def _drawn(seed: int, sha256: str) -> str:
    return hashlib.sha256(f"{seed} {sha256}".encode()).hexdigest()


class _Joined:
    """Disjoint sets with path halving."""

    def __init__(self) -> None:
        self._above: dict[int | str, int | str] = {}

    def find(self, one: int | str) -> int | str:
        above = self._above
        above.setdefault(one, one)
        while above[one] != one:
            above[one] = above[above[one]]
            one = above[one]
        return one

    def join(self, one: int | str, other: int | str) -> None:
        self._above[self.find(one)] = self.find(other)
