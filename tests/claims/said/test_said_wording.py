"""The phrases as data: what the lexicon says must load, be reachable, and point at its faults."""

from math import prod
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from saying import hear, talk_of

from hikite.claims.said import wording as wordings
from hikite.claims.said.matching import spellings
from hikite.claims.said.wording import load_wording
from hikite.errors import LexiconError

WORDING = load_wording("en")
SLOTS = {"<n>", "<z>", "<nth>", "<noun>", "<zz>", "<mss>", "<side>", "<name>", "<class>", "<any>"}
PHRASES = [
    (group, phrase) for group, entries in WORDING.groups.items() for entry in entries for phrase in entry.say
]


# A phrase must be spelt as the tokeniser cuts it, or it can never be met.
@pytest.mark.parametrize("group", sorted(WORDING.groups))
def test_phrases_are_spelt_as_tokens(group: str) -> None:
    for _, phrase in (pair for pair in PHRASES if pair[0] == group):
        pieces = [piece for part in phrase.split() for piece in part.split("/")]
        words = [word for piece in pieces if piece and piece[0] != "<" for word in piece.split("_")]
        assert {piece for piece in pieces if piece.startswith("<")} <= SLOTS, phrase
        assert any("" not in part.split("/") for part in phrase.split()), phrase
        for word in words:
            if "'" not in word:
                assert [token.text for token in talk_of(word).tokens] == [word], phrase


# A phrase twice in one group would be two meanings of the same words.
@pytest.mark.parametrize("group", sorted(WORDING.groups))
def test_no_phrase_twice_in_a_group(group: str) -> None:
    said = [phrase for owner, phrase in PHRASES if owner == group]
    assert sorted(said) == sorted(set(said))


# Alternatives multiply: one phrase of six wide choices once took 160 MB and three seconds at first start.
def test_no_phrase_unfolds_without_end() -> None:
    ways = {phrase: prod(len(part.split("/")) for part in phrase.split()) for _, phrase in PHRASES}
    assert [phrase for phrase, count in ways.items() if count > 5_000] == []


def test_spellings_of_clitics() -> None:
    assert spellings("the hold 's on", WORDING) == {
        "the hold 's on", "the hold is on", "the hold has on", "the holds on",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ('[[clock]]\nsay = ["a"]\n\n[[clock]]\nsay = ["b"]\nwieght = 1.0\n', 4),
        ('[[watch]]\nsay = ["a"]\n', 1),
        ('[[clock]]\nsay = "a"\n', 1),
        ('[[hold]]\nsay = ["a"]\nstatus = "perhaps"\n', 1),
    ],
)
def test_a_fault_is_told_with_file_and_line(
    text: str, line: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "xx" / "said"
    folder.mkdir(parents=True)
    english = wordings.lexicon_root() / "en"
    (tmp_path / "xx" / "numbers.toml").write_text((english / "numbers.toml").read_text("utf-8"), "utf-8")
    (folder / "faulty.toml").write_text(text, "utf-8")
    monkeypatch.setattr(wordings, "lexicon_root", lambda: tmp_path)
    with pytest.raises(LexiconError) as caught:
        load_wording.__wrapped__("xx")
    assert (Path(caught.value.file or "").name, caught.value.line) == ("faulty.toml", line)


# Laws, on any jumble of the words that matter: no crash; claims in order and inside the talk; no word in two
# claims of numbers; points and seconds in reach.
JUMBLE_WORDS = (
    "one two four five ten twelve nil thirty 340 6 1 seconds minute left that 's it to for red blue he "
    "leads more another a point pair hold toketa osaekomi shido waza ari ippon gong stop not if down up "
    "all . , ! -"
)
JUMBLE = st.lists(st.sampled_from(JUMBLE_WORDS.split()), max_size=30)


@settings(max_examples=200)
@given(JUMBLE, st.booleans())
@example(["shido", "to", "shido", "to", "shido"], False)
@example(["thirty", "two", "thirty", "ten", "two", "one"], False)
def test_laws(words: list[str], points: bool) -> None:
    text = " ".join(words).replace(" 's", "'s").replace(" ,", ",").replace(" .", ".").replace(" !", "!")
    claims = hear(text, points=points)
    count = len(talk_of(text).tokens)
    assert [claim.first for claim in claims] == sorted(claim.first for claim in claims)
    used: set[int] = set()
    for claim in claims:
        assert 0 <= claim.first < claim.stop <= count
        assert claim.start_ms <= claim.end_ms
        assert claim.points is None or 0 <= claim.points <= 5
        if "both" not in claim.attributes:
            span = set(range(claim.first, claim.stop))
            assert not used & span
            used |= span
