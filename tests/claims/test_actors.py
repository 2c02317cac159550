"""Who is pointed at. All names and places are invented."""

import pytest

from hikite.claims.actors import find_actors
from hikite.claims.casts import casts_of
from hikite.claims.references import Reference
from hikite.claims.staging import people_of
from hikite.mentions import find_mentions
from hikite.records import Competitor, Sheet, Talk
from hikite.terms import load_terms
from hikite.terms.speech import load_speech
from talks import talk

SHEET = Sheet(
    competitors=(
        Competitor(side="red", name="Orsan Veldrik", nation="Norvania"),
        Competitor(side="blue", name="Tarik Ambrose", nation="Kallas, Finland"),
    )
)


def pointed(said: Talk, sheet: Sheet = SHEET) -> list[tuple[str, str, str]]:
    references, _ = find_actors(said, sheet, load_speech("en"), set())
    return [(said.words(one.first, one.stop), one.side, one.how) for one in references]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # Names, whole or in part.
        ("Orsan Veldrik leads", [("orsan veldrik", "red", "name")]),
        ("and Ambrose answers", [("ambrose", "blue", "name")]),
        # Colours, with or without a noun.
        ("the blue jacket waits", [("the blue jacket", "blue", "colour")]),
        ("four to red", [("red", "red", "colour")]),
        ("a caution for blue I think", [("blue", "blue", "colour")]),
        # A coloured line is nobody.
        ("over the red line", []),
        ("right on the red", []),
        # A nation, its people, an invented nation's people.
        ("the Norvanian pulls", [("norvanian", "red", "nation")]),
        ("good from the Finn", [("finn", "blue", "nation")]),
        # A language is nobody.
        ("the Finnish word for it", []),
        ("as said in Finnish", []),
        # The unnamed.
        ("he throws him", [("he", "", "subject"), ("him", "", "object")]),
        ("his opponent waits", [("his opponent", "", "opponent")]),
        ("the other one waits", [("the other one", "", "opponent")]),
    ],
)
def test_pointing(said: str, expected: list[tuple[str, str, str]]) -> None:
    assert pointed(talk(said)) == expected


@pytest.mark.parametrize(
    ("said", "side"),
    [
        # A recogniser's spellings of the two names.
        ("well veldrick pulls", "red"),
        ("well vel drik pulls", "red"),
        ("well ambros pulls", "blue"),
        # A recogniser that begins its lines large still makes English words of a name.
        ("Well felt rick pulls. And on it goes.", "red"),
        ("Good grip. And em brows has it.", "blue"),
    ],
)
def test_names_heard_wrong(said: str, side: str) -> None:
    assert side in [one[1] for one in pointed(talk(said))]


def test_another_name_is_nobodys_misspelling_where_the_name_is_spelt_well() -> None:
    sheet = Sheet(competitors=(Competitor(side="red", name="Ilya Dravik"), Competitor(side="blue")))
    well = talk("Ilya pulls, and Ilya steps.", "Again Ilya.", "Tolya beside me laughs.")
    assert ("tolya", "red", "name") not in pointed(well, sheet)
    assert ("tolya", "red", "name") in pointed(talk("Now Tolya pulls."), sheet)


@pytest.mark.parametrize(
    ("lines", "phrase", "side"),
    [
        # An epithet in apposition holds for the rest of the talk.
        (["Veldrik, the islander, pulls.", "The islander again."], "islander", "red"),
        (["Blue is the older man.", "Nice from the older man."], "older man", "blue"),
        # A nickname.
        (["There is Ambrose, the team calls him Radio.", "Radio pulls."], "radio", "blue"),
        # The speaker's own.
        (["That's my lad in the red.", "Mine is on top."], "mine", "red"),
    ],
)
def test_what_the_talk_teaches(lines: list[str], phrase: str, side: str) -> None:
    assert (phrase, side, "epithet") in pointed(talk(*lines))


@pytest.mark.parametrize(
    ("lines", "names"),
    [
        (
            ["So it's Dravik in red and Kolmer in blue.", "Dravik pulls.", "Kolmer waits."],
            ("dravik", "kolmer"),
        ),
        # A surname that is also in the dictionary, in bare recogniser text.
        (["right dravik in the red and barlow in blue", "thats barlow, thats good"], ("dravik", "barlow")),
        # Nobody is called lad.
        (["so the lad in red is dravik", "kolmer in blue, kolmer waits"], ("dravik", "kolmer")),
        (["The blue jacket, Kolmer from Dost.", "Red is Dravik.", "Dravik pulls."], ("dravik", "kolmer")),
        # One name as a recogniser wrote it twice.
        (
            ["halberth in red kolmer in blue", "halbreth pulls and halbreth throws", "halbreth again"],
            ("halbreth", "kolmer"),
        ),
        # No colour for either: the first named is the first called.
        (
            [
                "We have Dravik of Velmark against Kolmer of Dost.",
                "Kolmer pulls.",
                "Kolmer on top.",
                "Dravik up.",
            ],
            ("dravik", "kolmer"),
        ),
        # A colour said behind its wearer is not the next one's.
        (
            [
                "It's Osk Dravik from Velmark in white, Tamsin Kolmer, a Dane, in blue.",
                "Dravik pulls.",
                "Good from Kolmer.",
            ],
            ("osk dravik", "tamsin kolmer"),
        ),
        # Sisters: the name they share tells nobody apart.
        (
            ["Red is Ilva Kolmer and blue is Sunna Kolmer.", "Ilva pulls.", "Sunna waits, then Ilva steps."],
            ("ilva", "sunna"),
        ),
        # The everyday word that a competitor is called.
        (
            [
                "White is Grant Dravik, blue is Kolmer.",
                "Now Grant pulls.",
                "Then Grant again, and Grant waits.",
            ],
            ("grant dravik", "kolmer"),
        ),
        # Whoever is only spoken to wrestles with nobody.
        (
            ["In red Dravik, in blue Kolmer.", "Thanks, Wennerholm.", "Dravik pulls.", "Kolmer steps off."],
            ("dravik", "kolmer"),
        ),
        # Captions that know no capital but "I".
        (
            [
                "we've got dravik in the red jacket",
                "and blue is a big lad kolmer",
                "I think dravik pulls",
                "good from kolmer",
            ],
            ("dravik", "kolmer"),
        ),
        # Recogniser text without a stop: each colour has its own wearer, before it or behind it.
        (["dravik is in red kolmer is in blue sit down we begin"], ("dravik", "kolmer")),
        (["red jacket is the local boy dravik and in blue we've got kolmer"], ("dravik", "kolmer")),
        (["in red, Dravik of Velmark; in the blue jacket, Kolmer from Dost"], ("dravik", "kolmer")),
        # Written large once and small from then on; then two small side by side are no first and last name.
        (
            [
                "white is Tamsin Dravik and blue is Ilva Kolmer",
                "dravik pulls",
                "by dravik kolmer hops off",
                "kolmer waits",
            ],
            ("tamsin dravik", "ilva kolmer"),
        ),
        # A first name that only ever begins a statement.
        (
            [
                "Ada Dravik in the red, Lotte Kolmer in blue.",
                "Dravik pulls. Kolmer waits.",
                "Ada Dravik wins.",
            ],
            ("ada dravik", "lotte kolmer"),
        ),
    ],
)
def test_names_are_learnt_from_the_talk_alone(lines: list[str], names: tuple[str, str]) -> None:
    _, learnt = find_actors(talk(*lines), Sheet(), load_speech("en"), set())
    assert tuple(one.name for one in learnt.competitors) == names


# A recogniser's odd words in a long talk of colours alone are nobody's name (common practice, no source).
def test_odd_words_of_long_bare_talk_name_nobody() -> None:
    said = ("red takes the sleeve and blue breaks it", "blue comes in and red blocks with the hips") * 10
    heard = talk("red tries oshibara and nothing there", *said, "blue goes for matapot and lands it")
    _, sheet = find_actors(heard, Sheet(), load_speech("en"), set())
    assert [one.name for one in sheet.competitors] == [None, None]


def test_what_hardly_sounds_like_a_throw_is_rather_somebodys_name() -> None:
    said = talk("so red is Tamo from Vedrin and blue is Lasko from Orren", "red takes the sleeve")
    _, sheet = people_of(said, find_mentions(said, load_terms()), Sheet(), "en")
    assert [one.name for one in sheet.competitors] == ["tamo", "lasko"]


@pytest.mark.parametrize(
    ("lines", "nations"),
    [
        # Of two nations each is another's, though one colour alone is said beside both.
        (
            [
                "norway meets italy for bronze",
                "the norwegian in white has the sleeve",
                "now the italian attacks and white steps round",
            ],
            ("norway", "italy"),
        ),
    ],
)
def test_two_nations_are_two_competitors(lines: list[str], nations: tuple[str, str]) -> None:
    _, learnt = find_actors(talk(*lines), Sheet(), load_speech("en"), set())
    assert tuple(one.nation for one in learnt.competitors) == nations


@pytest.mark.parametrize(
    ("lines", "names"),
    [
        # A word for a nation's people is a first name where no article stands before it.
        (
            ["Finn in the red, Dravik in the blue.", "Now Finn pulls, Dravik steps round.", "Finn throws."],
            ("finn", "dravik"),
        ),
        # A meeting's name is nobody's.
        (
            ["This is Kolmer and Dravik from the Velmark Open.", "Kolmer in red, Dravik in blue."],
            ("kolmer", "dravik"),
        ),
    ],
)
def test_names_that_might_be_others(lines: list[str], names: tuple[str, str]) -> None:
    _, learnt = find_actors(talk(*lines), Sheet(), load_speech("en"), set())
    assert [(one.name, one.aliases, one.nation) for one in learnt.competitors] == [
        (name, (), None) for name in names
    ]


def test_a_finn_is_from_finland() -> None:
    lines = ["The Finn in red, Dravik in the blue.", "Now the Finn pulls and Dravik steps round."]
    _, learnt = find_actors(talk(*lines), Sheet(), load_speech("en"), set())
    assert [one.nation for one in learnt.competitors] == ["finland", None]


@pytest.mark.parametrize(
    ("lines", "place"),
    [
        (["In red Dravik of Velmark, in blue Kolmer.", "Dravik of Velmark pulls."], "velmark"),
        # A place of several words, everyday ones among them.
        (["In red Dravik of Iron Gate, in blue Kolmer.", "Good work by Dravik of Iron Gate."], "iron gate"),
        # What is written large behind a place but once is no part of it.
        (
            [
                "In red Dravik of Velmark, in blue Kolmer.",
                "Two to Dravik of Velmark.",
                "Dravik of Velmark Tuesday last.",
            ],
            "velmark",
        ),
    ],
)
def test_places_are_learnt_whole(lines: list[str], place: str) -> None:
    _, learnt = find_actors(talk(*lines), Sheet(), load_speech("en"), set())
    assert learnt.competitors[0].nation == place


def test_a_slip_of_the_name_put_right_is_forgotten() -> None:
    lines = ["In white Lena Morvath, in blue Idris Okkelund, sorry, Ida Okkelund.", "Okkelund waits."]
    _, learnt = find_actors(talk(*lines), Sheet(), load_speech("en"), set())
    assert learnt.competitors[1].name == "ida okkelund"


@pytest.mark.parametrize(
    ("lines", "phrase", "side"),
    [
        # A second name is a name: a recogniser's spelling of it is found, and "jacket" is none.
        (["Red Jacket Osk Dravik, Blue Jacket Kolmer.", "Osk pulls. Dravick waits."], "dravick", "red"),
        # A nation's people, and the people of an invented place.
        (["In red Dravik of Sweden, in blue Kolmer.", "The Swede pulls."], "swede", "red"),
        (["In red Dravik from Velmark, in blue Kolmer.", "The Velmarkan pulls."], "velmarkan", "red"),
        # A first name that is never said beside the last: whoever acts against the other is the one.
        (
            [
                "Dravik is in red, Kolmer in blue.",
                "Then Josk pulls. Kolmer steps off.",
                "Here comes Josk. Kolmer waits.",
            ],
            "josk",
            "red",
        ),
    ],
)
def test_other_names_of_those_introduced(lines: list[str], phrase: str, side: str) -> None:
    said = talk(*lines)
    assert (phrase, side) in [one[:2] for one in pointed(said, Sheet())]


@pytest.mark.parametrize(
    ("again", "bouts"),
    [
        # An end that was taken back: the same two go on.
        ("And they start again. Dravik pulls. Kolmer waits.", 0),
        # Others come out.
        ("Next, Aldo Penrik in red and Tomas Wray in blue. And they start. Penrik pulls. Wray waits.", 2),
    ],
)
def test_a_new_bout_has_others_in_it(again: str, bouts: int) -> None:
    said = talk("Dravik is in red, Kolmer in blue.", "Dravik pulls. Kolmer waits.", again)
    cut = next(one.first for one in said.utterances if said.tokens[one.first].cue == 2)
    _, casts = casts_of(said, (cut,), Sheet(), load_speech("en"), set(), "en")
    assert len(casts) == bouts


def test_an_opinion_makes_nobody_the_speakers_own() -> None:
    references = pointed(talk("if you ask me red is ahead", "I like it"))
    assert ("i", "red", "epithet") not in references


def test_white_and_blue_are_found_without_a_sheet() -> None:
    _, learnt = find_actors(talk("White pulls, white leads, blue waits."), Sheet(), load_speech("en"), set())
    assert [one.side for one in learnt.competitors] == ["white", "blue"]


@pytest.mark.parametrize(
    ("said", "sides"),
    [
        # No colour at all: judo is fought in white and blue, everything else in red and blue.
        ("Hajime. Kolmer attacks, waza-ari! A shido for Dravik.", ["white", "blue"]),
        ("Kolmer attacks and gets two points.", ["red", "blue"]),
        # A colour that is said outweighs a borrowed word.
        ("Hajime, they say in judo, ippon, waza-ari. Red attacks.", ["red", "blue"]),
    ],
)
def test_what_is_worn_where_no_colour_is_said(said: str, sides: list[str]) -> None:
    _, learnt = find_actors(talk(said), Sheet(), load_speech("en"), set())
    assert [one.side for one in learnt.competitors] == sides


def test_references_do_not_overlap() -> None:
    references, _ = find_actors(
        talk("The red man, Orsan Veldrik, the Norvanian, throws his opponent."),
        SHEET,
        load_speech("en"),
        set(),
    )
    ends = [one.stop for one in references]
    assert all(isinstance(one, Reference) for one in references)
    assert all(one.first >= end for one, end in zip(references[1:], ends, strict=False))


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # A coach's own: every way of saying so, but "I" wrestles with nobody.
        ("That's my Orsan in red. I say, my lad must pull.", [("my lad", "red", "epithet")]),
        # The speaker is one of the two.
        ("That's me in the blue. I pull.", [("i", "blue", "epithet")]),
        # A nickname, written like a name.
        ("Veldrik, the Sparrow, hops. Sparrow waits.", [("sparrow", "red", "epithet")]),
    ],
)
def test_own_competitors_and_nicknames(said: str, expected: list[tuple[str, str, str]]) -> None:
    found = [one for one in pointed(talk(said)) if one[2] == "epithet"]
    assert found[-1:] == expected


# Whoever calls to one of the two again and again coaches that one: "you" is that one, "she" the other.
@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (
            ["Hands up, Tarik. You wait. Go, Tarik!", "Tarik, feet! She has your sleeve. You know that."],
            [("you", "blue"), ("she", "red"), ("your", "blue")],
        ),
        # Called to once.
        (["Hands up, Tarik. You wait.", "She has your sleeve."], [("she", "")]),
        # Both are called to.
        (
            ["You wait, Tarik. Go, Orsan! Your feet!", "Tarik, go! Orsan, you wait! She waits. Tarik!"],
            [("she", "")],
        ),
    ],
)  # fmt: skip
def test_whom_a_coach_speaks_of(lines: list[str], expected: list[tuple[str, str]]) -> None:
    found = [(words, side) for words, side, how in pointed(talk(*lines)) if how in ("subject", "possessive")]
    assert found == expected
