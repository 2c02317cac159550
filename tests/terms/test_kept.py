"""What is kept between runs: made once, never trusted blindly, never in the way."""

import os
import pickle
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from hikite.mentions import Matcher, find_mentions, matcher_of
from hikite.mentions.finding import _matcher
from hikite.terms import Name, Terms, kept, load_terms
from hikite.transcripts import read
from hikite.utterances import cut

THING = (1, ("two", frozenset("ab")), {"three": [4.5, None]})


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("HIKITE_CACHE", str(tmp_path / "cache"))
    return tmp_path / "cache"


class Maker:
    """Makes a thing and counts how often it was asked to."""

    def __init__(self, thing: object = THING) -> None:
        self.thing, self.asked = thing, 0

    def __call__(self) -> object:
        self.asked += 1
        return self.thing


def keep(make: Maker, of: str = "a lexicon", known: dict[str, object] | None = None) -> object:
    return kept.kept("thing", of, type(make.thing), make, known or {})


def only(cache: Path) -> Path:
    (file,) = cache.iterdir()
    return file


def test_made_once() -> None:
    make = Maker()
    assert [keep(make), keep(make), keep(make)] == [THING] * 3
    assert make.asked == 1


def test_another_lexicon_is_another_thing() -> None:
    make = Maker()
    keep(make)
    keep(make, of="another lexicon")
    assert make.asked == 2


# Cut short, one bit turned, empty, or no pickle at all: each is made anew and heals the file.
@pytest.mark.parametrize("spoil", [slice(0, 30), slice(0, 0), slice(20, None)])
def test_damage_is_mended(cache: Path, spoil: slice) -> None:
    make = Maker()
    keep(make)
    whole = only(cache).read_bytes()
    only(cache).write_bytes(whole[spoil])
    assert keep(make) == THING
    assert make.asked == 2
    assert only(cache).read_bytes() == whole
    turned = bytearray(whole)
    turned[-5] ^= 1
    only(cache).write_bytes(bytes(turned))
    assert keep(make) == THING
    assert make.asked == 3


class Planted:
    """A pickle that would leave a file behind if whatever it names were called."""

    def __init__(self, mark: Path) -> None:
        self.mark = mark

    def __reduce__(self) -> tuple[object, ...]:
        return os.mkdir, (str(self.mark),)


def test_planted_code_is_not_run(cache: Path, tmp_path: Path) -> None:
    make, mark = Maker(), tmp_path / "was here"
    keep(make)
    content = pickle.dumps(Planted(mark))
    digest = kept.hashlib.blake2b(content, digest_size=kept._DIGEST).digest()
    only(cache).write_bytes(digest + content)
    assert keep(make) == THING
    assert make.asked == 2
    assert not mark.exists()


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="no owners here")
def test_what_others_may_write_is_not_read(cache: Path) -> None:
    make = Maker()
    keep(make)
    only(cache).chmod(0o666)
    keep(make)
    assert make.asked == 2


def test_nowhere_to_write(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # A file stands where the folder would be: even root cannot write below it.
    cache.write_text("in the way")
    make = Maker()
    assert [keep(make), keep(make)] == [THING] * 2
    monkeypatch.setenv("HIKITE_CACHE", "off")
    assert keep(make) == THING
    assert make.asked == 3
    assert cache.read_text() == "in the way"


def test_a_few_stay(cache: Path) -> None:
    for number in range(9):
        keep(Maker(), of=f"lexicon {number}")
    assert len(list(cache.iterdir())) == kept._KEPT


def test_known_things_are_put_in_again() -> None:
    name = Name(form="hip toss", concept="hip-toss", language="en")
    keep(Maker((name, np.arange(3))), known={"name": name})
    other = name.model_copy()
    found = keep(Maker((None, None)), known={"name": other})
    assert isinstance(found, tuple)
    assert found[0] is other
    assert found[1].tolist() == [0, 1, 2]


# What is read back does what the fresh one does, and is the same lexicon.
def test_lexicon_and_matcher_come_back_whole(cache: Path) -> None:
    said = b"WEBVTT\n\n00:01.000 --> 00:05.000\nhe snaps him down oochie matta an uchimat into juji gatame\n"
    talk = cut(read(said))
    fresh = load_terms()
    by_hand = Matcher(fresh).find(talk)
    assert len(by_hand) >= 3
    _matcher.cache_clear()
    first = find_mentions(talk, fresh)
    assert {"matcher", "terms"} <= {file.name.partition("-")[0] for file in cache.iterdir()}
    _matcher.cache_clear()
    again = load_terms()
    assert again == fresh
    assert isinstance(again, Terms)
    assert by_hand == first == find_mentions(talk, again)
    assert matcher_of(again) is matcher_of(fresh)
    assert all(any(one is name for name in again.names) for one in matcher_of(again).spoken[:5])
    _matcher.cache_clear()


# What was kept and cannot be read back would be made and kept anew at every start, and nobody would be told.
def test_a_second_run_keeps_nothing_new(cache: Path) -> None:
    said = b"WEBVTT\n\n00:01.000 --> 00:05.000\nfour points for the inner thigh throw and a minute left\n"
    code = (
        "import sys; from hikite.process import load_lexicon, process; from hikite.transcripts import read;"
        "process(read(sys.stdin.buffer, name='said'), load_lexicon())"
    )
    kinds = []
    for _ in range(2):
        subprocess.run([sys.executable, "-c", code], input=said, check=True, env=_environment())
        kinds.append({file.name: file.stat().st_ino for file in cache.iterdir()})
    assert len(kinds[0]) >= 4
    assert kinds[0] == kinds[1]


def _environment() -> dict[str, str]:
    """This process's surroundings, with the package as it is imported here."""
    return os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)}
