"""What is told without a name. The sentences are invented; how it is done: the concepts' glosses."""

from collections.abc import Callable

import pytest

from hikite.mentions import Matcher
from hikite.mentions.descriptions import load_descriptions
from hikite.records import Talk

Talker = Callable[[str], Talk]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # The same pieces in any order, with other words in between.
        ("red just snags that leg of his on the inside", "o-uchi-gari"),
        ("on the inside red snags his leg", "o-uchi-gari"),
        # From where tells which it is.
        ("blue hooking the heel from outside", "ko-soto-gake"),
        ("blue scratches a little at the heel from the inside", "ko-uchi-gari"),
        # What the feet do: to both, to one that steps, to one that stands.
        ("she whisks both of her feet away", "okuri-ashi-harai"),
        ("the sole brushes the ankle just as he steps", "de-ashi-harai"),
        ("the sole goes to the front of the shin and he steers", "sasae-tsurikomi-ashi"),
        # Throws told by the way of the body.
        ("arms locked round the waist and hurls him over his own chest", "ura-nage"),
        ("he plonks down behind her, over the leg", "tani-otoshi"),
        ("white's thigh sweeps only air", "uchi-mata-sukashi"),
        ("puts the leg out straight across both shins and hauls", "tai-otoshi"),
        # On the ground.
        ("blue rummages, no, red is rummaging for the far arm", "ude-hishigi-juji-gatame"),
        ("the foot is hugged under the armpit and he leans back", "ushchemlenie-akhillova-sukhozhiliya"),
        # What catches the leg and from where is the throw, what is caught alone the attack.
        ("red traps the near leg from the inside with her calf", "o-uchi-gari"),
        ("blue collects the leg from outside with his heel", "ko-soto-gake"),
        ("a nip at him between the feet", "ko-uchi-gari"),
        ("she dabs at the front foot", "de-ashi-harai"),
        ("and scythes the supporting leg away", "o-soto-gari"),
        ("blue plunges at the knees", "double-leg"),
        ("red has both arms around the knees", "double-leg"),
        ("he is hugging a leg now", "single-leg"),
        ("and blue scrambles, out on top now", "reversal"),
        ("she puts a straight leg across the knee and wheels him", "ashi-guruma"),
        # Grips.
        ("she has the sleeve in two hands", "grip:two-on-one"),
        ("both fists on the one sleeve", "grip:two-on-one"),
        ("red with both hands round the collar", "grip:double-lapel"),
        ("red keeps her elbows locked", "grip:blocking"),
        ("red slaps that hand away", "grip:grip-break"),
        ("white has hold of one arm with both hands", "grip:two-on-one"),
    ],
)
def test_told_without_a_name(matcher: Matcher, talk: Talker, said: str, expected: str) -> None:
    assert expected in [mention.concept for mention in matcher.find(talk(said))]


@pytest.mark.parametrize(
    ("said", "not_told"),
    [
        # Two sentences tell no one thing.
        ("Red snags it. His leg is on the inside.", "o-uchi-gari"),
        # Nor do pieces far apart.
        (
            "he hooks one up for his old coach who was, they say, a great leg man, from the inside",
            "o-uchi-gari",
        ),
        # A piece that tells of something else.
        ("blue hooks the heel from outside, not inside", "o-uchi-gari"),
        # Nobody comes to be there.
        ("he is on top of the world", "reversal"),
        # What he wants is to keep it.
        ("he only wants to hide that arm", "ude-hishigi-juji-gatame"),
        # Words of a name are the name's.
        ("she looks for the arm throw", "ude-hishigi-juji-gatame"),
    ],
)
def test_not_told(matcher: Matcher, talk: Talker, said: str, not_told: str) -> None:
    assert not_told not in [mention.concept for mention in matcher.find(talk(said))]


# What holds a form of the lexicon that says the same is as sure as that form.
def test_a_description_is_as_sure_as_the_form_inside_it(matcher: Matcher, talk: Talker) -> None:
    (mention,) = matcher.find(talk("he arches, over the chest"))
    assert (mention.concept, mention.candidates[0].how) == ("ura-nage", "exact")


def test_every_set_of_words_is_used() -> None:
    wordings = load_descriptions("en")
    used = {
        name for texts in wordings.told.values() for text in texts for name in text.split() if name != "but"
    }
    assert used == set(wordings.pieces)
