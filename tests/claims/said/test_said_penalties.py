"""Penalties: what is one by how the sport counts, why, how many, and what only sounds like one."""

import pytest
from saying import hear


def told(said: str, *, judo: bool = False) -> list[tuple[str, str]]:
    """What is heard of penalties in the words: concept and status."""
    return [(one.concept, one.status) for one in hear(said, kind="penalty", points=not judo)]


# Why somebody is penalised is no penalty of its own, wherever in the statement it is told.
@pytest.mark.parametrize(
    ("said", "judo", "expected"),
    [
        ("Caution to Tarik, her first of the day, for passivity.", False, "caution"),
        ("Warning to red, and it's for passivity.", False, "warning"),
        ("Shido against Orsan there, second of the contest, non-combativity.", True, "shido"),
        ("False attack. Shido, blue.", True, "shido"),
        ("Passivity, and this time it's a caution.", False, "caution"),
        ("A shido for blue, told off for all that dawdling.", True, "shido"),
    ],
)
def test_reasons(said: str, judo: bool, expected: str) -> None:
    assert told(said, judo=judo) == [(expected, "given")]


# Words that leave the penalty open mean the one they name, else the lightest of the sport.
@pytest.mark.parametrize(
    ("said", "points", "judo"),
    [
        ("The referee calls it a false attack.", "warning", "shido"),
        ("Tarik is warned for it.", "warning", "shido"),
        ("Orsan gets pinged for that.", "warning", "shido"),
        ("They've penalised blue.", "warning", "shido"),
        ("Tarik gets carded.", "warning", "shido"),
        ("Both sides penalised.", "warning", "shido"),
        ("Jambe! He used the leg.", "caution", "caution"),
    ],
)
def test_lightest(said: str, points: str, judo: str) -> None:
    assert {one for one, _ in told(said)} == {points}
    assert {one for one, _ in told(said, judo=True)} == {judo}


# Told that there is none, and what would be one.
@pytest.mark.parametrize(
    ("said", "judo", "expected"),
    [
        ("No shido for that, play on.", True, ("shido", "denied")),
        ("No caution coming from this chap.", False, ("caution", "denied")),
        ("He gets away with it without a warning.", False, ("warning", "denied")),
        ("Refuses to caution.", False, ("caution", "denied")),
        ("They'll card you for it.", True, ("shido", "supposed")),
        ("His bench is screaming for a caution.", False, ("caution", "supposed")),
        ("That should have been another warning.", False, ("warning", "supposed")),
        ("I'd have warned him.", False, ("warning", "supposed")),
        ("One more and it's goodnight.", True, ("hansoku-make", "supposed")),
        ("A shido on its own doesn't end it.", True, ("shido", "supposed")),
        ("Any score ends it now, or a third penalty.", True, ("shido", "supposed")),
        # Told of as known.
        ("Still level, with only the shido between them.", True, ("shido", "recalled")),
        ("Orsan has one and the card.", True, ("shido", "recalled")),
        ("He's one mistake away from being sent home.", True, ("hansoku-make", "supposed")),
        ("Whoever gets the third walks off.", False, ("disqualification", "supposed")),
        ("The next warning sends him home.", False, ("disqualification", "supposed")),
        ("One more caution and he's gone.", False, ("disqualification", "supposed")),
    ],
)
def test_not_given(said: str, judo: bool, expected: tuple[str, str]) -> None:
    assert told(said, judo=judo) == [expected]


# What somebody has by now is told of, and is one claim though both have it.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("He's been warned twice already.", "warning"),
        ("She is on two warnings now.", "warning"),
        ("Two cautions on each of them.", "caution"),
        ("They go to the break with a caution apiece.", "caution"),
        ("Both carrying a warning.", "warning"),
        ("That's two cautions on Tarik.", "caution"),
    ],
)
def test_had(said: str, expected: str) -> None:
    assert told(said) == [(expected, "recalled")]


# A clock for the idle one.
@pytest.mark.parametrize(
    "said",
    ["Activity clock on against Tarik.", "Tarik goes on the thirty second clock.", "Shot clock starts."],
)
def test_activity(said: str) -> None:
    assert told(said) == [("passivity", "given")]


# What only sounds like a penalty, and signs that mean one in judo alone.
@pytest.mark.parametrize(
    "said",
    [
        "A warning light came on in the van.", "And down he goes, no warning whatsoever!",
        "The caution tape is still round the stand.", "He missed the penalty kick.",
        "He leads by the passive smile on his face.", "The referee has a finger to her ear.",
        "You get penalised for wasting time, that's the rule.", "Starts with some caution.",
        "On the yellow side of the mat.",
        "Orsan keeps pointing at him.", "A remark from the back of the hall.",
        "Without so much as a warning he shoots.",
    ],
)  # fmt: skip
def test_no_penalty(said: str) -> None:
    assert told(said) == []


def test_attention_is_no_judo_call() -> None:
    assert [told("Attention Orsan, he took the trousers.", judo=judo) for judo in (False, True)] == [
        [("passivity", "given")],
        [],
    ]


@pytest.mark.parametrize(
    "said", ["She's pointing at her own hip.", "The lady in the yellow has a stopwatch."]
)
def test_no_sign_of_one(said: str) -> None:
    assert told(said, judo=True) == []


# A short talk is judo's where the name of one score is sure, a long one needs several.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("It's a waza-ari, on the side.", ["waza-ari"]),
        ("Four! Red has four.", ["points"]),
    ],
)
def test_short_talk(said: str, expected: list[str]) -> None:
    words = "waza-ari" if "waza" in said else ""
    mentions = ((words.replace("-", " "), "score", "waza-ari"),) if words else ()
    assert [one.concept for one in hear(said, kind="score", points=None, mentions=mentions)] == expected


# IJF Sport and Organisation Rules, FIAS International Sambo Rules: passivity is what a shido or a warning is
# given for; from memory.
@pytest.mark.parametrize(
    ("said", "judo", "expected"),
    [
        ("Warning, blue passivity.", False, [("warning", "given")]),
        ("Shido for Tarik passive.", True, [("shido", "given")]),
        ("Tarik is passive, the referee gives him a shido.", True, [("shido", "given")]),
        ("Warning for Tarik. Passivity, Orsan.", False, [("warning", "given"), ("passivity", "given")]),
        ("Penalised for that, hansoku-make.", True, [("shido", "given"), ("hansoku-make", "given")]),
        ("Only a third, hansoku-make, ends it.", True, [("shido", "supposed")]),
    ],
)
def test_the_reason_is_no_other_penalty(said: str, judo: bool, expected: list[tuple[str, str]]) -> None:
    assert told(said, judo=judo) == expected
