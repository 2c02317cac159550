"""How words and names are read, and what it costs to mishear them."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from hikite.mentions.candidates import shortened
from hikite.sounds import load_ear, squash
from hikite.sounds.distances import SOUNDS, coded, load_costs
from hikite.sounds.skeletons import SKELETONS, TAG

EAR = load_ear("en")
COSTS = load_costs("en")


@pytest.mark.parametrize(
    ("word", "sounds"),
    [
        # Source: the CMU Pronouncing Dictionary, entries as published (ARPAbet in our signs).
        ("shoulder", "SOld3"),  # SH OW1 L D ER0
        ("thigh", "TY"),  # TH AY1
        ("judge", "J@J"),  # JH AH1 JH
        ("trip", "trIp"),  # T R IH1 P
        ("choke", "COk"),  # CH OW1 K
        # A piece cut from "he's" or "she'd" is a sound, not the name of a letter.
        ("s", "s"),
        ("d", "d"),
        # Not in the dictionary: by spelling.
        ("gake", "gEk"),
        ("zatsep", "zAtsep"),
    ],
)
def test_words(word: str, sounds: str) -> None:
    assert EAR.word(word)[0] == sounds


@pytest.mark.parametrize(
    ("form", "language", "sounds"),
    [
        # Hepburn romanisation and kana read alike (common practice, no source).
        ("uchi mata", "ja", "uCimata"),
        ("せおいなげ", "ja", "seOinage"),
        ("tsuri komi", "ja", "tsurikOmi"),
        # Transliteration and Cyrillic read alike.
        ("podkhvat", "ru", "pOdhvat"),
        ("подхват", "ru", "pOdhvat"),
        ("nozhnitsy", "ru", "nOZnitsi"),
    ],
)
def test_names(form: str, language: str, sounds: str) -> None:
    assert EAR.form(form, language)[0] == sounds


@pytest.mark.parametrize(
    ("text", "squashed"),
    [("Uchi-mata", "uchimata"), ("ŌSOTO", "osoto"), ("poperyók", "poperyok"), ("が", "が"), ("'s", "s")],
)
def test_squash(text: str, squashed: str) -> None:
    assert squash(text) == squashed


def _reference(heard: str, meant: str) -> float:
    """The textbook recurrence, cell by cell, to check the batched one against."""
    codes = {sound: number for number, sound in enumerate(SOUNDS, 1)}
    row = [0.0]
    for sound in meant:
        row.append(row[-1] + float(COSTS.drops[codes[sound]]))
    for one in heard:
        new = [row[0] + float(COSTS.drops[codes[one]])]
        for at, two in enumerate(meant):
            swap = row[at] + float(COSTS.swaps[codes[one], codes[two]])
            added = row[at + 1] + float(COSTS.drops[codes[one]])
            lost = new[at] + float(COSTS.drops[codes[two]])
            new.append(min(swap, added, lost))
        row = new
    return row[-1]


READINGS = st.text(alphabet=SOUNDS, min_size=1, max_size=16)


@given(st.lists(st.tuples(READINGS, READINGS), min_size=1, max_size=20))
def test_distances_are_those_of_the_textbook(pairs: list[tuple[str, str]]) -> None:
    heard, heard_sizes = coded([one for one, _ in pairs])
    meant, meant_sizes = coded([two for _, two in pairs])
    found = COSTS.distances(heard, heard_sizes, meant, meant_sizes)
    assert [round(float(cost), 3) for cost in found] == pytest.approx(
        [_reference(one, two) for one, two in pairs], abs=0.01
    )


@given(READINGS)
def test_a_reading_is_no_distance_from_itself(reading: str) -> None:
    codes, sizes = coded([reading])
    assert float(COSTS.distances(codes, sizes, codes, sizes)[0]) == 0


@pytest.mark.parametrize(
    ("near", "far"),
    [
        # Voicing, vowel quality, r and l, a flapped r: cheaper than sounds that nobody mixes up.
        (("gari", "kari"), ("gari", "mari")),
        (("uCi", "oCi"), ("uCi", "uli")),
        (("guruma", "guluma"), ("guruma", "gusuma")),
        (("arai", "adai"), ("arai", "azai")),
    ],
)
def test_likely_confusions_cost_less(near: tuple[str, str], far: tuple[str, str]) -> None:
    assert _reference(*near) < _reference(*far)


@given(READINGS)
def test_a_key_loses_every_class_in_turn(reading: str) -> None:
    for skeleton in SKELETONS:
        key, size = skeleton.key(reading)
        if size > 15:
            continue
        losses = np.array([min(skeleton.lost(size), 2)], np.uint8)
        several = shortened(np.array([key << TAG], np.uint64), np.array([size]), losses)
        found, rows = (np.concatenate(arrays) for arrays in zip(*several, strict=True))
        digits = f"{key:x}" if size else ""
        wanted = {
            "".join(left) for lost in range(losses[0] + 1) for left in combinations(digits, size - lost)
        }
        assert {f"{one >> TAG:x}" if one else "" for one in found.tolist()} == wanted
        assert not rows.any()
