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
        # What slang and everyday words make of them.
        ("he has two hands on one arm and is pulling it across the body", "arm-drag"),
        ("snapped down and round the back in a flash", "go-behind"),
        ("he limps it out, lovely", "limp-arm"),
        ("puts a foot in the stomach and pushes him overhead", "tomoe-nage"),
        ("he has wrapped his shin round from the outside, behind the calf", "ko-soto-gake"),
        ("she rolls under, lifting with the shin", "sumi-gaeshi"),
        ("he jumps, one leg before, one leg behind", "kani-basami"),
        ("red has thrown his arm right over the other's shoulder", "grip:over-back"),
        ("he is the other way about, so it's mirror image", "grip:kenka-yotsu"),
        ("takes both her grips on the same side", "grip:one-side"),
        ("gets the forearm bent, hand up by the ear", "ude-garami"),
        ("the leg over her face, sitting back", "ude-hishigi-juji-gatame"),
        ("lapels now, blue has one in each hand", "grip:double-lapel"),
        ("he has hand on neck and hand on wrist", "grip:collar-tie"),
        ("she whisked that front foot away from her", "de-ashi-harai"),
        ("blue swings his leg and chops the back of the leg, like a tree", "o-soto-gari"),
        ("white collects the far leg from the inside and drives her back", "o-uchi-gari"),
        ("red pinches her heel from the inside", "ko-uchi-gari"),
        ("he jams his foot against the ankle and steers him over", "sasae-tsurikomi-ashi"),
        ("her leg whipped across both thighs", "harai-goshi"),
        ("up between the legs, he is hopping after her", "uchi-mata"),
        ("she pivots, bum in, and loads him up", "o-goshi"),
        ("wraps up her neck, bum first", "koshi-guruma"),
        ("spins in and flips her over his back", "seoi-nage"),
        ("down on two knees with his back turned to her", "drop-seoi-nage"),
        ("the outstretched leg, and she tumbles over it", "tai-otoshi"),
        ("boot in the belly and he sends him over the top", "tomoe-nage"),
        ("the shin up between the legs as she rolls back", "sumi-gaeshi"),
        ("squeezes her in both arms round the ribs and arches back", "ura-nage"),
        ("leg behind both heels and sits down", "tani-otoshi"),
        ("he ducks under and carries her across his shoulders", "kata-guruma"),
        ("red reaches in, arm through the crotch, and tips him", "sukui-nage"),
        ("he shoots, behind both knees, and bulldozes her", "double-leg"),
        ("snatches up the near leg, hopping her round", "single-leg"),
        ("a hand on the heel, and he drives", "ankle-pick"),
        ("ducks his head under the elbow and pops out behind", "duck-under"),
        ("yanks the arm past him and the angle is his", "arm-drag"),
        ("jerks the head down to the mat", "snap-down"),
        ("scoots round behind", "go-behind"),
        ("one arm over and one under, he throws himself sideways", "lateral-drop"),
        ("arms around his ribs, rolls her over like a log", "gut-wrench"),
        ("laces up the ankles and twists", "leg-lace"),
        ("flings his legs back, heavy on top", "sprawl"),
        ("winds a leg round hers like ivy and falls backwards", "kawazu-gake"),
        ("the thigh goes up inside and she takes her hips away, nobody there", "uchi-mata-sukashi"),
        ("traps the foot just as she puts it down", "de-ashi-harai"),
        ("with his back against her chest, and hurls her", "seoi-nage"),
        ("hugs the arm with both of his, turns in and hurls her", "arm-throw"),
        ("locks round his ribs and takes him over", "gut-wrench"),
        ("hanging heavy on the head, snaps it", "snap-down"),
        ("all of a sudden blue is the one on top", "reversal"),
        # What is told seldom: to one side, across the feet, by the hands alone, in answer.
        ("drops onto her side, leg stretched, and hauls", "yoko-otoshi"),
        ("he falls on his flank, leg out, and over she goes", "uki-waza"),
        ("flings himself flat across her feet and she trips over him", "yoko-wakare"),
        ("down on one knee he tugs her by, no hip, no leg", "uki-otoshi"),
        ("into the rear corner she goes, nothing but his hands", "sumi-otoshi"),
        ("reaps him right back", "o-soto-gaeshi"),
        ("squats under her, lifts and pulls", "tsurikomi-goshi"),
        ("hand round her waist, a flick of the hips", "uki-goshi"),
        ("leg across at the belt, and she wheels over", "o-guruma"),
        ("hugs her, heaves her up and drops her straight down", "ushiro-goshi"),
        ("clutches a trouser leg and topples him", "kuchiki-taoshi"),
        ("from above, arms round the ribs, and hurls her", "tawara-gaeshi"),
        ("hug round the ribs, bends her over backwards", "body-lock"),
        ("the hook from the inside, and he drives her back", "o-uchi-gari"),
        ("scythes across both of her thighs", "harai-goshi"),
        ("head on the outside, her arm deep in the crotch", "high-crotch"),
        ("sits through, both feet out", "sit-out"),
        ("reaches back inside the thigh, hips out", "switch"),
        ("ducks a shoulder and rolls across his own back", "granby-roll"),
        ("steps deep between the feet", "penetration-step"),
        ("blocks her with both forearms", "down-block"),
        ("sinks at the knees", "level-change"),
        ("neck and leg tied together", "cradle"),
        ("grinds a forearm over the cheek, hard", "crossface"),
        # Grips.
        ("both collars in the same fist", "grip:one-hand-two-lapels"),
        ("he clamps his arm over hers", "grip:overhook"),
        ("a handful of the front of the jacket", "grip:lapel"),
        ("her hand cupped behind his head", "grip:collar-tie"),
        ("both palms behind the neck now", "grip:double-collar-tie"),
        ("the palm on her elbow", "grip:elbow-tie"),
        ("squeezes the biceps", "grip:biceps-tie"),
        ("his fingers round her wrist", "grip:wrist-control"),
        ("she digs her arm under his armpit", "grip:underhook"),
        ("both arms in under the armpits", "grip:double-underhooks"),
        ("and he clamps down over her arm", "grip:overhook"),
        ("one over the shoulder, one under, from behind", "grip:seatbelt"),
        ("long arm over the top, a fistful of jacket", "grip:over-back"),
        ("one hand under the knot", "grip:front-belt"),
        ("fingers interlocked in the middle", "grip:fingers"),
        ("slapping hands, nothing more", "grip:hand-fight"),
        ("he prises the fingers off", "grip:grip-break"),
        ("her arms like broomsticks", "grip:blocking"),
        ("hugged him tight round the middle", "grip:bear-hug"),
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
        # Who stops himself tells of two things.
        ("she goes across, no, wait, under the arm with her neck", "kata-guruma"),
        ("he hooks, no, he has the leg on the inside", "o-uchi-gari"),
        # A piece that tells of something else.
        ("blue hooks the heel from outside, not inside", "o-uchi-gari"),
        # Nobody comes to be there.
        ("he is on top of the world", "reversal"),
        # What is slung over a shoulder is no man, what lands on a shoulder is not carried there.
        ("he slung his towel over the shoulder", "seoi-nage"),
        ("straight onto his shoulders and that is four", "kata-guruma"),
        ("he lifts the trophy over his head", "ura-nage"),
        # What is taken back is no back.
        ("strips the left hand off, then takes it back", "go-behind"),
        # What many throws and holds have in common tells of none.
        ("he is tipped over backwards", "ura-nage"),
        ("pulls her down", "snap-down"),
        ("the arm round his back", "grip:bear-hug"),
        ("an arm over and an arm under", "grip:overhook"),
        ("has got the ankle by her ear", "grip:high-collar"),
        ("his knee across her leg", "tai-otoshi"),
        # Pulled across, over or behind, but nothing of the kind.
        ("she pulled a face across the mat", "arm-drag"),
        ("the photographer stays behind the rope", "go-behind"),
        ("he limps off to the doctor", "limp-arm"),
        ("she wrapped a towel round his shin", "ko-soto-gake"),
        # Everyday words alone.
        ("two places behind him in the ranking", "go-behind"),
        ("one leg is bandaged", "single-leg"),
        ("and over he goes", "gut-wrench"),
        ("under the arm", "grip:underhook"),
        ("the thigh is strapped", "grip:leg-grip"),
        ("something wrong with the neck", "grip:head-grip"),
        ("head against head they lean", "grip:collar-tie"),
        ("the knot of the belt", "ude-garami"),
        ("he steps across in front of the judges", "tai-otoshi"),
        # What he wants is to keep it.
        ("he only wants to hide that arm", "ude-hishigi-juji-gatame"),
        # Words of a name are the name's.
        ("she looks for the arm throw", "ude-hishigi-juji-gatame"),
    ],
)
def test_not_told(matcher: Matcher, talk: Talker, said: str, not_told: str) -> None:
    assert not_told not in [mention.concept for mention in matcher.find(talk(said))]


# A slot is one to three words, a stroke an alternative, a plus all forms of the verb.
@pytest.mark.parametrize(
    "said", ["over the shoulder she flung him", "flinging her over his own left shoulder"]
)
def test_a_piece_stands_for_all_its_forms(matcher: Matcher, talk: Talker, said: str) -> None:
    assert [mention.concept for mention in matcher.find(talk(said))] == ["seoi-nage"]


# What is told at greater length is surer, up to a point.
def test_a_longer_description_is_surer(matcher: Matcher, talk: Talker) -> None:
    short, long = (
        matcher.find(talk(said))[0].candidates[0].probability
        for said in ("hugging a leg", "snatches up the near leg and runs her round hopping on the other leg")
    )
    assert short < long < 1


# Where the words fit two techniques the other is kept beside the likelier, less likely.
def test_what_else_the_words_may_tell_of_is_kept(matcher: Matcher, talk: Talker) -> None:
    (mention,) = matcher.find(talk("he falls on his flank, leg out, and hauls her over"))
    best, *others = mention.candidates
    assert {best.concept, *(one.concept for one in others)} >= {"yoko-otoshi", "uki-waza"}
    assert all(one.probability <= best.probability for one in others)
    assert sum(one.probability for one in mention.candidates) <= 1


# What must not be there tells otherwise beside the pieces, not as a word of one.
def test_a_word_of_a_piece_tells_nothing_else(matcher: Matcher, talk: Talker) -> None:
    said = "wraps the arm, keeps rolling and lands on top"
    assert "soto-makikomi" in [mention.concept for mention in matcher.find(talk(said))]


# What holds a form of the lexicon that says the same is as sure as that form.
def test_a_description_is_as_sure_as_the_form_inside_it(matcher: Matcher, talk: Talker) -> None:
    (mention,) = matcher.find(talk("he arches, over the chest"))
    assert (mention.concept, mention.candidates[0].how) == ("ura-nage", "exact")


# No description takes half of a name: the sweep is the side sweep's.
def test_no_description_cuts_a_name_in_two(matcher: Matcher, talk: Talker) -> None:
    (first, *_) = matcher.find(talk("the side sweep, foot behind the ankle"))
    assert (first.concept, first.stop) == ("de-ashi-harai", 3)


def test_every_set_of_words_is_used() -> None:
    wordings = load_descriptions("en")
    used = {
        name for texts in wordings.told.values() for text in texts for name in text.split() if name != "but"
    }
    assert used == set(wordings.pieces)
