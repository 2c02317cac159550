"""Whose a claim is. All names and places are invented; the weights are those shipped."""

import pytest

from hearings import SHEET, claims, first, terms
from hikite.claims import hear
from hikite.mentions import find_mentions
from hikite.records import Competitor
from talks import talk


@pytest.mark.parametrize(
    ("said", "side"),
    [
        # Colours, nations, names, whole and in part.
        ("The blue jacket tries a shoulder throw.", "blue"),
        ("The Norvanian attacks with a shoulder throw.", "red"),
        ("Orsan Veldrik shoots the double leg.", "red"),
        ("Ambrose goes for the hip throw.", "blue"),
        # The doer behind the name.
        ("Double leg by Ambrose.", "blue"),
        ("A lovely shoulder throw from Veldrik.", "red"),
        ("Veldrik's shoulder throw, four points.", "red"),
        # A pronoun and an ellipsis go on with whoever was spoken of.
        ("Veldrik takes the belt. He goes for the hip throw.", "red"),
        ("Ambrose circles. Goes for the shoulder throw.", "blue"),
        # Whoever defends is not the one who attacked, but may act next.
        ("Ambrose blocks the shoulder throw.", "red"),
        ("Ambrose blocks and counters with a shoulder throw.", "blue"),
        # Who is thrown is not the thrower.
        ("Veldrik is thrown with a hip throw by Ambrose.", "blue"),
        # A name set apart behind tells who "he" was.
        ("He turns in, Veldrik, for the shoulder throw.", "red"),
        ("Veldrik waits. He shoots the double leg, does Ambrose.", "blue"),
        # So does one that stands alone beside the action.
        ("Veldrik circles left. Uchi-mata, Ambrose! Held.", "blue"),
        ("Ambrose waits. Shoulder throw, from the knees, red! Under and over.", "red"),
        # Who walks into it does not do it.
        ("Just as Veldrik came forward the foot sweep, and down he goes.", "blue"),
        # "His opponent" is the other one.
        ("Veldrik waits, and his opponent shoots the double leg.", "blue"),
    ],
)
def test_technique(said: str, side: str) -> None:
    assert first("technique", said).side == side


# A defence told right behind an attack is the other one's, unless somebody is named.
@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("Veldrik shoots the double leg, good sprawl.", "blue"),
        ("Ambrose waits. Veldrik in on the single leg, whizzer, and no score.", "blue"),
    ],
)
def test_defence(said: str, side: str) -> None:
    defence = [one for one in claims(said) if one.concept in ("sprawl", "whizzer")]
    assert [one.side for one in defence] == [side]


# So is what answers an attack, by the words between or by its name (Kodokan's list names it for the attack).
@pytest.mark.parametrize(
    ("said", "concept", "side"),
    [
        ("Veldrik tries o-uchi-gari, and he gets countered, tani-otoshi.", "tani-otoshi", "blue"),
        ("Veldrik tries o-soto-gari. Oh! O-soto-gaeshi!", "o-soto-gaeshi", "blue"),
        ("Veldrik tries o-soto-gari. Oh! O-soto-gaeshi!", "o-soto-gari", "red"),
        ("Ambrose turns in, uchi-mata, hop, hop. Uchi-mata-sukashi!", "uchi-mata-sukashi", "red"),
    ],
)
def test_counter(said: str, concept: str, side: str) -> None:
    assert [one.side for one in claims(said) if one.concept == concept] == [side]


def test_who_holds_a_lock_lands_nowhere() -> None:
    kinds = {one.kind for one in claims("Veldrik goes for the armlock. Stack him up, and he's on his feet.")}
    assert "technique" in kinds
    assert "landing" not in kinds


@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("Veldrik takes the belt.", "red"),
        ("Ambrose grabs the sleeve.", "blue"),
        ("Underhook for blue.", "blue"),
    ],
)
def test_grip(said: str, side: str) -> None:
    assert first("grip", said).side == side


@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("Four points to Ambrose.", "blue"),
        # An award belongs to the one who threw.
        ("Shoulder throw by Veldrik, over goes Ambrose, flat on his back! That's four points.", "red"),
        ("Ambrose shoots the double leg, down goes Veldrik. Two points.", "blue"),
    ],
)
def test_award(said: str, side: str) -> None:
    assert first("score", said).side == side


def test_what_is_taken_back_is_whose_it_was() -> None:
    said = "Uchi-mata from Veldrik, waza-ari, red. Ambrose is up, and Ambrose complains. He's waved it off!"
    judo = SHEET.model_copy(update={"ruleset": "judo.2018"})
    heard = hear(talk(said), find_mentions(talk(said), terms()), terms(), judo).claims
    assert [(one.status, one.side) for one in heard if one.kind == "score"] == [
        ("given", "red"),
        ("denied", "red"),
    ]


# A count goes on with its hold, whoever wriggles under it, and what is paid right behind is the holder's.
def test_a_count_is_its_holds() -> None:
    said = (
        "Osaekomi for Veldrik, scarf hold. Five. Ambrose bridges, Ambrose walks the legs round. Ten. "
        "Ambrose again, a leg between. Fifteen. Twenty. Ippon!"
    )
    heard = hear(
        talk(said),
        find_mentions(talk(said), terms()),
        terms(),
        SHEET.model_copy(update={"ruleset": "judo.2018"}),
    ).claims
    assert {claim.side for claim in heard if claim.kind in ("hold", "score")} == {"red"}


# Whom a penalty is against when nobody says: who backs off, who is on the border, whose attack was feigned.
# Common practice, no source.
@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("Veldrik comes forward. Ambrose keeps backing up. Matte, and there's a shido.", "blue"),
        ("Ambrose comes forward. Veldrik keeps backing up. Matte, and there's a shido.", "red"),
        ("Ambrose drives. Veldrik steps out. Matte. Shido.", "red"),
        (
            "Ambrose takes the sleeve. A hip throw from Veldrik, for show. Matte. Shido, false attack.",
            "red",
        ),
    ],
)
def test_a_penalty_of_whom_nobody_says(said: str, side: str) -> None:
    assert first("penalty", said).side == side


# A nation's word is its wrestler where one wrestles ("the Turk"), and a technique or grip where none does.
@pytest.mark.parametrize(
    ("nation", "told"),
    [("Turkey", []), ("Kessia", ["turk"])],
)
def test_a_nation_is_no_technique(nation: str, told: list[str]) -> None:
    fighters = (SHEET.competitors[0], Competitor(side="blue", name="Tarik Ambrose", nation=nation))
    sheet = SHEET.model_copy(update={"competitors": fighters})
    said = talk("Veldrik shoots in on the leg.", "The Turk, finished well, two points.")
    heard = hear(said, find_mentions(said, terms()), terms(), sheet).claims
    assert [one.concept for one in heard if one.kind == "technique" and one.concept == "turk"] == told


@pytest.mark.parametrize(
    ("said", "name", "expected"),
    [
        # A competitor's name is no technique that it sounds like.
        ("blue goes for the karadal", "Ossip Karadal", []),
        ("blue goes for the karadal", "Ossip Brand", ["cradle"]),
        # What is written as a name stands, whoever fights.
        ("karadal wants the cradle", "Ossip Karadal", ["cradle"]),
    ],
)
def test_people_are_no_techniques(said: str, name: str, expected: list[str]) -> None:
    fighters = (Competitor(side="red", name=name), Competitor(side="blue", name="Milo Tarn"))
    sheet = SHEET.model_copy(update={"competitors": fighters, "ruleset": None})
    heard = hear(talk(said), find_mentions(talk(said), terms()), terms(), sheet).claims
    assert [one.concept for one in heard if one.kind == "technique"] == expected


def test_a_colour_and_what_follows_it_is_no_hold_that_they_sound_like() -> None:
    said = talk("oh and a back step side sweep red sits him down that is buttocks")
    found = find_mentions(said, terms())
    assert "hold" in [one.kind for one in found]
    assert "hold" not in [one.kind for one in hear(said, found, terms(), SHEET).claims]


# A tap is to the lock that is on, and its ippon to whoever has it (IJF rules: who taps has lost).
@pytest.mark.parametrize(
    ("said", "winner"),
    [
        ("Veldrik has the juji gatame. He's straightening it, he's, tap! He tapped!", "red"),
        ("Ambrose with the armlock, hips up. Tap! Ippon!", "blue"),
        ("Ambrose with the armlock, and Veldrik taps.", "blue"),
    ],
)
def test_a_tap_is_to_a_lock(said: str, winner: str) -> None:
    assert first("result", said).side == winner


# Who holds is told by how the two lay before, and by who struggles.
@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("Ambrose is on his hands and knees. Over they go. Kesa-gatame!", "red"),
        ("Veldrik comes up on top. Kesa-gatame!", "red"),
        ("Scarf hold, kesa-gatame! Veldrik is bridging.", "blue"),
    ],
)
def test_hold(said: str, side: str) -> None:
    assert first("hold", said).side == side
