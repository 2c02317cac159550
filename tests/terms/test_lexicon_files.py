"""The loader refuses broken files by name and line."""

from pathlib import Path

import pytest

from hikite.errors import LexiconError
from hikite.terms import load_terms

# broken files: (file, content, problem, line)
CONCEPTS = """
[throw]
kind = "technique"
generic = true
tradition = "grappling"
gloss = "a throw"
mark = "memory"

[uchi-mata]
kind = "technique"
family = "throw"
tradition = "judo"
gloss = "inner-thigh throw"
mark = "memory"
"""
NAMES = '[throw]\nalso = ["throw"]\n\n[uchi-mata]\nalso = ["uchi mata"]\n'
BROKEN = [
    ("concepts/a.toml", CONCEPTS + 'colour = "red"\n', "uchi-mata.colour", 15),
    ("concepts/a.toml", CONCEPTS.replace('"memory"\n\n', '"rumour"\n\n'), "throw.mark", 7),
    (
        "concepts/a.toml",
        CONCEPTS.replace('family = "throw"', 'family = "nowhere"'),
        "unknown concept, nowhere",
        11,
    ),
    ("concepts/a.toml", CONCEPTS + 'near = ["nowhere"]\n', "near names an unknown concept", 15),
    ("concepts/a.toml", CONCEPTS.replace("generic = true", 'family = "uchi-mata"'), "circle", 4),
    ("concepts/a.toml", CONCEPTS + "near = [", "broken TOML", 15),
    ("en/terms.toml", NAMES + 'slang = ["x"]\n', "uchi-mata.slang", 6),
    ("en/terms.toml", NAMES + '[osoto]\nalso = ["osoto"]\n', "osoto: no such concept", 6),
    ("en/terms.toml", NAMES.replace('["uchi mata"]', '["throw"]'), "claimed by uchi-mata and by throw", 4),
    ("en/terms.toml", NAMES.replace('["uchi mata"]', '["Uchi mata"]'), "lower-case", 5),
    ("en/terms.toml", NAMES.replace('["uchi mata"]', '["snap ~"]'), "lower-case form with one ~", 5),
    ("en/terms.toml", NAMES + 'weak = ["mata"]\n', "weak lists what is not a form of it, mata", 6),
    ("en/ambiguous.toml", '[mata]\nconcepts = ["uchi-mata"]\n', "needs two concepts", 2),
    ("en/ambiguous.toml", '["mata x"]\nconcepts = ["uchi-mata", "osoto"]\n', "no such concept, osoto", 2),
    ("en/ambiguous.toml", '[mata]\nconcepts = ["uchi-mata", "throw"]\nwhy = "x"\n', "mata.why", 3),
]


def lexicon(root: Path, file: str = "", content: str = "") -> Path:
    for name, text in {
        "concepts/a.toml": CONCEPTS,
        "en/terms.toml": NAMES,
        file or "en/none": content,
    }.items():
        (root / name).parent.mkdir(exist_ok=True)
        (root / name).write_text(text, "utf-8")
    return root


def test_the_small_lexicon_loads(tmp_path: Path) -> None:
    assert load_terms(lexicon(tmp_path)).lookup("uchi-mata") == ("uchi-mata",)


@pytest.mark.parametrize(("file", "content", "problem", "line"), BROKEN)
def test_a_broken_file_is_named_with_its_line(
    tmp_path: Path, file: str, content: str, problem: str, line: int
) -> None:
    with pytest.raises(LexiconError) as caught:
        load_terms(lexicon(tmp_path, file, content))
    assert problem in str(caught.value)
    assert caught.value.file == str(tmp_path / file)
    assert caught.value.line == line


def test_an_ambiguous_form_is_named_once_for_each_meaning(tmp_path: Path) -> None:
    terms = load_terms(
        lexicon(tmp_path, "en/ambiguous.toml", '[mata]\nconcepts = ["uchi-mata", "throw"]\nweak = true\n')
    )
    assert [(name.concept, name.weak) for name in terms.names if name.form == "mata"] == [
        ("uchi-mata", True),
        ("throw", True),
    ]
    assert terms.lookup("Mata") == ("uchi-mata", "throw")


def test_the_version_follows_the_content(tmp_path: Path) -> None:
    before = load_terms(lexicon(tmp_path)).version
    assert load_terms(tmp_path).version == before
    (tmp_path / "en" / "terms.toml").write_text(NAMES.replace("uchi mata", "inner thigh"))
    assert load_terms(tmp_path).version != before
