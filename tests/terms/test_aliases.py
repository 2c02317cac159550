"""Corrections: written, read back, put before what the words meant, refused when broken."""

from pathlib import Path

import pytest

from hikite.errors import LexiconError
from hikite.terms import load_terms
from hikite.terms.aliases import Alias, drop_alias, read_aliases, write_alias


# corrections
def alias(words: str, concept: str) -> Alias:
    return Alias(
        words=words,
        concept=concept,
        language="en",
        who='a "quoted" name',
        when="2026-03-01",
        where="mat-1.vtt 0:31",
    )


def test_a_correction_is_read_back_and_known(tmp_path: Path) -> None:
    file = tmp_path / "corrections" / "own.toml"
    written = (alias("Ooh cheap motor", "uchi-mata"), alias("tie oh toast", "tai-otoshi"))
    for each in written:
        write_alias(file, each)
    terms = load_terms(aliases=(file, tmp_path / "not-there.toml"))
    assert terms.lookup("ooh cheap motor") == ("uchi-mata",)
    assert terms.lookup("tie oh toast") == ("tai-otoshi",)
    assert any(name.form == "ooh cheap motor" and "2026-03-01" in name.source for name in terms.names)
    assert load_terms().lookup("ooh cheap motor") == ()
    assert terms.version != load_terms().version


def test_a_correction_goes_before_what_the_words_meant(tmp_path: Path) -> None:
    file = tmp_path / "own.toml"
    write_alias(file, alias("seoi", "ippon-seoi-nage"))
    write_alias(file, alias("windmill", "arm-spin"))
    terms = load_terms(aliases=(file,))
    assert terms.lookup("seoi")[:2] == ("ippon-seoi-nage", "seoi-nage")
    assert terms.lookup("windmill") == ("arm-spin", "kata-guruma")


@pytest.mark.parametrize(
    ("content", "problem", "line"),
    [
        ('[[alias]]\nwords = "x"\n', "concept", 1),
        (
            '[[alias]]\nwords = "x"\nconcept = "osoto"\nlanguage = "en"\nwho = "a"\nwhen = ""\nwhere = ""\n',
            "osoto",
            3,
        ),
        ('[[alias]]\nwords = "x"\nmood = "y"\n', "Field required", 1),
        ("[[alias]\n", "broken TOML", 1),
    ],
)
def test_a_broken_alias_file_is_named_with_its_line(
    tmp_path: Path, content: str, problem: str, line: int
) -> None:
    file = tmp_path / "own.toml"
    file.write_text(content)
    with pytest.raises(LexiconError) as caught:
        load_terms(aliases=(file,))
    assert problem in str(caught.value)
    assert (caught.value.file, caught.value.line) == (str(file), line)


# One correction taken out: the others stand, and so does what a person wrote between them.
def test_a_correction_is_taken_out(tmp_path: Path) -> None:
    file, concepts = tmp_path / "own.toml", load_terms().concepts
    one, two = alias("ooh cheap motor", "uchi-mata"), alias("tie oh toast", "tai-otoshi")
    write_alias(file, one)
    file.write_text(file.read_text() + "# mine\n\n")
    write_alias(file, two)
    write_alias(file, one)
    assert drop_alias(file, one)
    assert read_aliases(file, concepts) == (one, two)
    assert drop_alias(file, one)
    assert read_aliases(file, concepts) == (two,)
    assert "# mine" in file.read_text()
    assert not drop_alias(file, one)
    assert drop_alias(file, two)
    assert not drop_alias(tmp_path / "not-there.toml", two)
