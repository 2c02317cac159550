"""No athlete in two parts, the same parts every time, shares kept as far as they can be."""

import hashlib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hikite.archive import Archive
from hikite.archive.folding import folded
from hikite.archive.keeping import keep_files
from hikite.datasets.plans import PARTS, Plan
from hikite.datasets.splits import split, split_archive

SHARES = (0.8, 0.1, 0.1)
NAMES = st.sampled_from(
    ["Ilmar Destrow", "Destrow", "destrow", "Orla Destrow", "Rafe Pennaluk", "Odrun Vosk", "Vosk",
     "Teshka Ardane", "Téshka Ardane", "Bram Kellim", "Yorro Tarrow", "Nils Zubel"]
)  # fmt: skip
TALKS = st.dictionaries(st.integers(1, 10_000), st.lists(NAMES, max_size=2), max_size=30)


def hashes(names):
    return {one: hashlib.sha256(str(one).encode()).hexdigest() for one in names}


@settings(max_examples=200)
@given(TALKS, st.integers(0, 5))
def test_no_athlete_is_in_two_parts(names, seed):
    made = split(names, hashes(names), SHARES, seed)
    assert set(made.parts) == set(names)
    parts_of = {}
    for recording, given_ in names.items():
        for name in given_:
            parts_of.setdefault(folded(name), set()).add(made.parts[recording])
    assert all(len(parts) == 1 for parts in parts_of.values())
    # A family name alone may be anybody of that family.
    for name, parts in parts_of.items():
        assert name.split()[-1] not in parts_of or parts_of[name.split()[-1]] == parts
    for recording, group in made.groups.items():
        assert made.parts[recording] == made.parts[group]


@settings(max_examples=50)
@given(TALKS, st.integers(0, 5), st.randoms())
def test_order_does_not_matter(names, seed, rng):
    mixed = list(names.items())
    rng.shuffle(mixed)
    assert split(dict(mixed), hashes(names), SHARES, seed) == split(names, hashes(names), SHARES, seed)


# Who is in which part is the archive's content's matter, not that of its numbering.
def test_numbers_do_not_matter():
    names = {number: [f"Ilmar {number}"] for number in range(1, 50)}
    known = hashes(names)
    moved = {number + 500: given_ for number, given_ in names.items()}
    ones = split(names, known, SHARES, 3)
    others = split(moved, {number + 500: sha for number, sha in known.items()}, SHARES, 3)
    assert {number + 500: part for number, part in ones.parts.items()} == others.parts


@pytest.mark.parametrize(
    ("shares", "expected"),
    [
        ((0.8, 0.1, 0.1), (80, 10, 10)),
        ((1.0, 0.0, 0.0), (100, 0, 0)),
        ((0.5, 0.25, 0.25), (50, 25, 25)),
    ],
)
def test_shares_are_kept_where_nothing_hangs_together(shares, expected):
    names = {number: [f"First{number} Last{number}"] for number in range(100)}
    made = split(names, hashes(names), shares, 1)
    assert tuple(list(made.parts.values()).count(part) for part in PARTS) == expected


def test_seeds_choose():
    names = {number: [] for number in range(100)}
    assert split(names, hashes(names), SHARES, 1) != split(names, hashes(names), SHARES, 2)


# A meets B, B meets C, C meets D: four athletes, three recordings, one group.
def test_what_hangs_together_through_others():
    names = {1: ["A", "B"], 2: ["B", "C"], 3: ["C", "D"], 4: ["E", "F"]}
    made = split(names, hashes(names), (0.5, 0.25, 0.25), 1)
    assert len({made.groups[one] for one in (1, 2, 3)}) == 1
    assert made.groups[4] == 4


# One film in two wordings stays together, whatever its names became: by the media file, or by name but for
# endings of letters. Days in a name are no endings.
def test_a_film_is_in_one_part(tmp_path):
    for name in ("final.en.vtt", "final.de.vtt", "2026.05.09.vtt", "2026.05.10.vtt", "heat.vtt", "other.vtt"):
        cue = f"00:01.000 --> 00:02.000\n{name} begins\n"
        (tmp_path / name).write_text(f"WEBVTT\n\n{cue}", "utf-8")
    with Archive.open(tmp_path / "archive", write=True) as archive:
        assert keep_files(archive, (tmp_path,)).new == 6
        made = split_archive(archive, SHARES, 1)
        groups = {Path(one.path).name: made.groups[one.id] for one in archive.recordings()}
    assert groups["final.en.vtt"] == groups["final.de.vtt"]
    assert len(set(groups.values())) == 5


def test_films_hang_together():
    films = {1: ["a.mp4"], 2: ["a.mp4", "b"], 3: ["b"], 4: ["c"]}
    names = {one: [] for one in films}
    made = split(names, hashes(names), (0.5, 0.25, 0.25), 1, films)
    assert len({made.groups[one] for one in (1, 2, 3)}) == 1
    assert made.groups[4] == 4


def test_an_archive_is_split(archive):
    made = split_archive(archive, SHARES, 1)
    assert set(made.parts) == {one.id for one in archive.recordings()}


@pytest.mark.parametrize("shares", [(0.5, 0.5, 0.5), (1.2, -0.1, -0.1)])
def test_shares_that_are_none(shares):
    with pytest.raises(ValueError, match="make 1"):
        Plan(shares=shares)
