"""How what is named is meant. All names and places are invented; the weights are those shipped."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hearings import SHEET, claims, first, terms
from hikite.claims.clues import status_clues
from hikite.claims.judges import load_judges
from hikite.claims.staging import stage
from hikite.mentions import find_mentions
from talks import talk


@pytest.mark.parametrize(
    ("said", "status"),
    [
        # What became of it, read behind the name.
        ("Veldrik with the shoulder throw, over he goes, flat on his back! Four points to red.", "completed"),
        ("Double leg from Ambrose, and down goes Veldrik! Two for blue.", "completed"),
        ("Veldrik tries the shoulder throw, blocked.", "failed"),
        ("Veldrik shoots the double leg, and Ambrose sprawls. Nothing there.", "failed"),
        ("Veldrik goes for the inner thigh throw. Ambrose hops out of it. No score.", "failed"),
        # A no of its own tells that it did not come off.
        ("Veldrik turns in, hip throw. No.", "failed"),
        # What is told as done and then named is told of again.
        (
            "Veldrik clips him and dumps him flat on his back. Four points, red! O-soto-gari, so it was.",
            "recalled",
        ),
        ("Over goes Ambrose, four! That was the hip throw.", "recalled"),
        # A name with "again" right behind it is another attempt, though the same was done just before.
        ("Veldrik, gut wrench, over he goes, two points. Gut wrench again, two more.", "completed"),
        # In pictures of what is past nothing is tried any more, whatever is said of it.
        ("Here is the replay, and see how the shoulder throw is stopped at first.", "recalled"),
        ("Over goes Ambrose. Let me see this again, he gets the lapel, turns, hip throw.", "recalled"),
        # What somebody is known for is not done now.
        ("He's a leg lock man, Veldrik, so watch the feet.", "described"),
        ("Veldrik loves the shoulder throw, and Ambrose knows it.", "described"),
        # A story is of other people and other days.
        ("My uncle had a shoulder throw, twenty years ago, at a wedding.", "described"),
        # A wish or a supposition reaches what follows it.
        ("If I were Veldrik I would look for the shoulder throw here.", "supposed"),
        # What is supposed has no fate, whatever is told behind it.
        ("If Veldrik had turned in there, a shoulder throw, and Ambrose is flat on his back.", "supposed"),
    ],
)
def test_technique(said: str, status: str) -> None:
    assert first("technique", said).status == status


# Knees alone are no throw (published rules of sambo); a name said over and over is tried (common practice, no
# source); a throw's own way down is no landing.
@pytest.mark.parametrize(
    ("said", "came_off"),
    [
        ("Inside hook from Veldrik, and Ambrose goes down on his knees only, no score.", False),
        ("Ko-uchi, ko-uchi from Veldrik, chopping away.", False),
        ("Veldrik, drop seoi-nage on his knees, and Ambrose lands on his side! Two points to red.", True),
    ],
)
def test_what_hardly_came_off(said: str, came_off: bool) -> None:
    assert (first("technique", said).status == "completed") == came_off


def test_with_nothing_told_before_it_a_name_is_no_memory() -> None:
    assert first("technique", "Veldrik, shoulder throw.").status in ("completed", "attempted")


def _clues(which: int, *lines: str) -> set[str]:
    """The cues of a technique, counted from 0 in the order named."""
    said = talk(*lines)
    scene, _ = stage(said, find_mentions(said, terms()), terms(), SHEET, "en")
    named = [number for number, one in enumerate(scene.drafts) if one.kind == "technique"]
    return set(status_clues(scene, named[which]))


# The "nothing" of a score thwarts nobody, and "no takedown" is none.
def test_a_number_is_no_failure() -> None:
    said = "Ambrose double leg, that's two, two nothing, and rides him."
    assert not any(clue.endswith("thwart") for clue in _clues(0, said))
    denied = claims("Ambrose drives him out of bounds, no takedown.")
    assert all(one.concept != "takedown" for one in denied if one.kind == "technique")


@pytest.mark.parametrize(
    ("lines", "which", "cue"),
    [
        # Where somebody comes down tells what became of the throw.
        (("Shoulder throw, and Ambrose lands on his side.",), 0, "then=effect"),
        (("Shoulder throw from Veldrik.", "Ambrose on his back."), 0, "then=effect"),
        # A second name in the same breath is no new action: what follows it is told of the first name too.
        (("Shoulder throw, seoi nage, up and over.",), 0, "then=effect"),
        # Another action is: what follows it is told of that one.
        (("Shoulder throw, then a long time later the double leg, up and over.",), 0, "then=nothing"),
        # What was told last before the name: it names what has happened.
        (("Flat on his back!", "Shoulder throw."), 0, "told=effect"),
        (("Four points to red.", "That was the shoulder throw."), 0, "told=award"),
        (("Shoulder throw, up and over.", "Matte.", "Double leg from Ambrose."), 1, "told=nothing"),
        # What thwarts the attack is the defence that came off.
        (("Ambrose sprawls, no score.",), 0, "defence:then=thwart"),
        # The end was called and nothing is live since.
        (("That's the end.", "It was the shoulder throw."), 0, "after-end"),
    ],
)
def test_what_is_told_around_a_name(lines: tuple[str, ...], which: int, cue: str) -> None:
    assert cue in _clues(which, *lines)


@pytest.mark.parametrize(
    ("lines", "statuses"),
    [
        # Another name in the same breath is the same action's.
        (
            ("Windmill from Veldrik!", "Kata guruma, and Ambrose lands on his side."),
            ["completed", "completed"],
        ),
        # What is done is done once: a name that comes late tells of it again.
        (
            ("Windmill from Veldrik, Ambrose lands on his side, two points!", "That was a kata guruma."),
            ["completed", "recalled"],
        ),
        # What is done after it was named is no second name.
        (("Veldrik has the gut wrench.", "He turns him, two points."), ["completed", "completed"]),
        # Said once more by the same words, as another go.
        (("Veldrik tries the ankle pick, blocked.", "Another ankle pick, blocked."), ["failed", "failed"]),
    ],
)
def test_named_once_more(lines: tuple[str, ...], statuses: list[str]) -> None:
    assert [one.status for one in claims(*lines) if one.kind == "technique"] == statuses


def test_a_win_called_in_the_middle_is_no_end() -> None:
    live = ("Hajime!", "Mate.", "Two minutes left.", "Hajime!")
    lines = ("It's over, Veldrik wins by total victory!", "Double leg from Ambrose.")
    assert "after-result" in _clues(0, *lines)
    assert "after-result" not in _clues(0, *lines, *live)


def test_what_follows_pictures_of_the_past_weighs_anew() -> None:
    lines = ("Let us see the replay.", "Shoulder throw from Veldrik.", "Blocked.")
    assert {"then=thwart", "pictures!then=thwart"}.intersection(_clues(0, *lines)) == {"pictures!then=thwart"}


def test_after_a_restart_nothing_has_ended() -> None:
    assert "after-end" not in _clues(0, "That's the end.", "Hajime!", "Shoulder throw from Veldrik.")


def test_what_became_of_a_throw_says_nothing_of_a_grip() -> None:
    said = talk("Veldrik takes the belt, up and over, four points.")
    scene, _ = stage(said, find_mentions(said, terms()), terms(), SHEET, "en")
    number = next(n for n, one in enumerate(scene.drafts) if one.kind == "grip")
    assert not any(clue.startswith(("then", "told", "outcome")) for clue in status_clues(scene, number))


def test_told_again_after_the_end() -> None:
    heard = claims(
        "Shoulder throw from Veldrik, flat on his back, four points to red!",
        "That's the end, red wins.",
        "So, looking back, it was the shoulder throw that won it.",
    )
    assert [one.status for one in heard if one.kind == "technique"] == ["completed", "recalled"]


@pytest.mark.parametrize(
    ("said", "status"),
    [
        ("Veldrik takes the belt.", "taken"),
        ("Ambrose has the belt now, over the back.", "taken"),
        ("Veldrik is hunting for the belt.", "sought"),
        ("They circle, hand fighting, hand fighting.", "sought"),
        ("Ambrose strips the sleeve.", "broken"),
        ("Both men right-handed.", "described"),
        # What somebody likes is not had now.
        ("He likes the over the back grip, Veldrik.", "described"),
        # Told to a pupil it is nobody's grip here.
        ("Don't put your underhook there, keep your elbows in.", "described"),
        # Seen again in pictures.
        ("Here it is again, see how the lapel grip turns him.", "recalled"),
    ],
)
def test_grip(said: str, status: str) -> None:
    assert first("grip", said).status == status


_WORDS = (
    "he",
    "Veldrik",
    "Ambrose",
    "goes for",
    "the shoulder throw",
    "belt",
    "no",
    "if",
    "four points",
    "again",
)


@given(st.lists(st.sampled_from(_WORDS), min_size=1, max_size=25).map(" ".join))
def test_probabilities_sum_to_one(said: str) -> None:
    for one in claims(said):
        assert sum(one.statuses.values()) == pytest.approx(1.0)
        assert one.sides == {} or sum(one.sides.values()) == pytest.approx(1.0)


_DENYING = ("before:deny", "after:fail", "then=thwart", "in:fail", "later:fail")
_KINDS = (("technique", "completed"), ("score", "given"))


@pytest.mark.parametrize(("kind", "status"), _KINDS)
@pytest.mark.parametrize("cue", _DENYING)
@given(data=st.data())
def test_a_denying_cue_never_raises(kind: str, status: str, cue: str, data: st.DataObject) -> None:
    """Whatever else is heard, P(completed) and P(given) do not grow when a denying cue is added."""
    judge = load_judges().status[kind]
    known = sorted({clue for weights in judge.weights.values() for clue in weights} - set(_DENYING))
    around = data.draw(st.lists(st.sampled_from(known), max_size=12, unique=True))
    without = dict.fromkeys(around, 1.0)
    assert judge.weigh(without | {cue: 1.0})[status] <= judge.weigh(without)[status] + 1e-9


def test_before_the_start_nothing_is_done() -> None:
    lines = (
        "Veldrik is a man for the uchi-mata.",
        "And the hip throw.",
        "Off they go.",
        "Ambrose, hip throw!",
    )
    told = [one for one in claims(*lines) if one.kind == "technique"]
    assert [one.status for one in told[:-1]] == ["described"] * (len(told) - 1)
    assert told[-1].status != "described"
