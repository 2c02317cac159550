"""What stands for a name said before, and what a name means under the rules. All people are invented."""

import pytest

from hearings import SHEET, claims, terms
from hikite.claims import hear
from hikite.mentions import find_mentions
from hikite.records import Claim, Competitor
from talks import talk


def technique(heard: tuple[Claim, ...], number: int = -1) -> Claim:
    return [one for one in heard if one.kind == "technique"][number]


@pytest.mark.parametrize(
    ("said", "then"),
    [
        # A word of the name, long after: the last technique that is called so.
        ("De ashi harai from Veldrik, down goes Ambrose!", "The replay. The sweep, perfectly timed."),
        # "Another roll" is of a turn.
        ("Veldrik, gut wrench, two points.", "Rolls him, two more."),
    ],
)
def test_a_short_name_stands_for_the_last_so_named(said: str, then: str) -> None:
    heard = claims(said, "They look at one another for a while.", then)
    again = technique(heard)
    assert again.reasons[0].name == "back-reference"
    assert again.concept == technique(heard, 0).concept


def test_what_is_tried_once_more_is_the_same() -> None:
    heard = claims("Veldrik, gut wrench, two points.", "He tries it a second time, naturally.")
    assert technique(heard).reasons[0].name == "back-reference"
    assert technique(heard).concept == technique(heard, 0).concept


# What is said not to have come about is no other attempt.
def test_what_is_denied_is_not_done_again() -> None:
    heard = claims("Veldrik, gut wrench, two points.", "No, he can't turn him.")
    assert sum(one.kind == "technique" for one in heard) == 1


# One attack told by its verb and its name is one.
def test_a_shot_by_name_is_one_attack() -> None:
    heard = claims("Veldrik shoots double leg, Ambrose sprawls.")
    assert [one.concept for one in heard if one.kind == "technique"] == ["double-leg", "sprawl"]


# Wrestling's published rules count no hold: numbers said side by side are none there.
@pytest.mark.parametrize(("rules", "held"), [("uww.fs", 0), ("sambo.sport.2020", 1)])
def test_numbers_are_counts_where_holds_count(rules: str, held: int) -> None:
    said = talk("Veldrik is on top.", "Seven, eight, nine.", "And up they get.")
    heard = hear(said, find_mentions(said, terms()), terms(), SHEET.model_copy(update={"ruleset": rules}))
    assert sum(one.kind == "hold" and one.status == "running" for one in heard.claims) == held


# Who threw is put right: the throw is the same, and the other's.
def test_whose_the_throw_was_is_put_right() -> None:
    heard = claims("Tomoe-nage from Veldrik, over he goes!", "That was Ambrose who threw, sir.")
    assert technique(heard).concept == technique(heard, 0).concept
    assert technique(heard).side != technique(heard, 0).side


def test_a_turn_again_needs_a_turn() -> None:
    heard = claims("Veldrik, shoulder throw, four points.", "Another roll, they say.")
    assert all(reason.name != "back-reference" for one in heard for reason in one.reasons)


def test_a_name_in_a_sentence_of_its_own_is_told_again() -> None:
    heard = claims("Blast double from Veldrik! Morote-gari! Two points.")
    assert len([one for one in heard if one.kind == "technique"]) == 2


@pytest.mark.parametrize(
    "said",
    [
        # What is told without a name goes on in one breath.
        "Both arms round the waist, Veldrik squeezes, he arches, over the chest, four points.",
        # A name, and behind it how it is done, in a sentence of its own or under a name less fitting.
        "Veldrik, podkhvat iznutri! Between the legs and up with the thigh.",
        "Veldrik, harai, swings the leg across and throws, two points.",
        # A name broken off, then whole.
        "They call it koshi something. Koshi-guruma from Veldrik, four points.",
    ],
)
def test_said_again_in_one_breath_is_one(said: str) -> None:
    assert len([one for one in claims(said) if one.kind == "technique"]) == 1


# Each name of one action is heard by itself, a name and what tells it before as one.
@pytest.mark.parametrize(
    ("said", "heard"),
    [
        ("Ambrose sits behind him, tani-otoshi, one point.", 1),
        ("Ankle pick from Veldrik, ankle pick!", 2),
        ("There's a foot sweep de ashi barai from Veldrik, just a tap.", 1),
        ("Podsechka, de-ashi-barai, as clean as a whistle, Veldrik.", 2),
    ],
)
def test_each_name_in_one_breath_is_heard(said: str, heard: int) -> None:
    assert len([one for one in claims(said) if one.kind == "technique"]) == heard


# What somebody else does, or what is done anew, is another thing.
@pytest.mark.parametrize(
    "said",
    [
        "Uchi-mata from Veldrik. Ambrose snatches both legs and drives.",
        "Uchi-mata! And he attacks again, scoops both knees and drives.",
    ],
)
def test_told_behind_a_name_but_another_thing(said: str) -> None:
    assert len([one for one in claims(said) if one.kind == "technique"]) == 2


# Two names of one thing are two mentions; the second tells of it again.
@pytest.mark.parametrize(
    "said",
    [
        "Veldrik, the windmill, the melnitsa, two points.",
        "Ambrose with a rychag kolena, the knee lever, and he taps.",
    ],
)
def test_named_twice_in_one_breath_is_one_action(said: str) -> None:
    heard = [one for one in claims(said) if one.kind == "technique"]
    assert len(heard) == 2
    assert (heard[0].status, heard[0].side) == (heard[1].status, heard[1].side)
    assert heard[1].status != "recalled"
    assert heard[1].repeats is not None


@pytest.mark.parametrize(
    "said",
    [
        # Somebody else's is another.
        "Sleeve grip for Veldrik, Ambrose sleeve grip as well.",
        # So is one that is tried anew.
        "Sleeve grip for Veldrik, lost, takes the sleeve.",
    ],
)
def test_what_is_done_anew_is_another(said: str) -> None:
    assert len([one for one in claims(said) if one.kind == "grip"]) == 2


@pytest.mark.parametrize(
    ("said", "concept"),
    [
        ("Veldrik sticks the leg out straight across both shins and hauls.", "tai-otoshi"),
        ("A sweep of the leg from Ambrose, and Veldrik's thigh sweeps only air.", "uchi-mata-sukashi"),
    ],
)
def test_what_is_told_at_length_is_meant(said: str, concept: str) -> None:
    assert technique(claims(said)).concept == concept


def test_a_competitor_whose_name_sounds_like_a_technique_is_no_technique() -> None:
    sheet = SHEET.model_copy(
        update={
            "competitors": (
                SHEET.competitors[0],
                Competitor(side="blue", name="Jan Pessik", nation="Kessia"),
            )
        }
    )
    said = talk("Jan Pessik is in blue.", "Pessik throws an arm drag.")
    heard = hear(said, find_mentions(said, terms()), terms(), sheet).claims
    assert [one.concept for one in heard if one.kind == "technique"] == ["arm-drag"]


@pytest.mark.parametrize(
    ("ruleset", "concept"),
    [("uww.gr", "arm-throw"), ("judo.2025", "seoi-nage")],
)
def test_under_the_rules_a_thing_has_one_name(ruleset: str, concept: str) -> None:
    said = talk("Shoulder throw from Veldrik, over he goes.")
    sheet = SHEET.model_copy(update={"ruleset": ruleset})
    assert technique(hear(said, find_mentions(said, terms()), terms(), sheet).claims, 0).concept == concept


# "That throw" is no strangle, and what comes again and is named is named once.
@pytest.mark.parametrize(
    ("lines", "concepts"),
    [
        (
            ("Veldrik, tai-otoshi, two points.", "Ambrose wants a triangle choke.", "A word on that throw."),
            ["tai-otoshi", "sankaku-jime", "tai-otoshi"],
        ),
        (
            ("Veldrik, side sweep, one point.", "Here it comes again on the screen, the side sweep."),
            ["de-ashi-harai", "de-ashi-harai"],
        ),
    ],
)
def test_what_stands_for_what(lines: tuple[str, ...], concepts: list[str]) -> None:
    assert [one.concept for one in claims(*lines) if one.kind == "technique"] == concepts


# How a throw is done is no landing: the knees are the thrower's.
def test_on_the_knees_is_how_it_is_done() -> None:
    heard = claims("Veldrik, a seoi-nage on the knees, and over goes Ambrose, on his side!")
    assert [one.concept for one in heard if one.kind == "landing"] == ["landing:side"]


# Trying a thing that is named is no other thing.
def test_shooting_a_throw_is_no_shot() -> None:
    heard = claims("Veldrik shoots an arm throw, nothing, Ambrose sprawls and goes behind, two.")
    acts = [(one.concept, one.side) for one in heard if one.kind == "technique"]
    assert acts == [("arm-throw", "red"), ("sprawl", "blue"), ("go-behind", "blue")]
