"""Penalties, holds, calls, results, places and landings."""

import pytest
from saying import hear


@pytest.mark.parametrize(
    ("said", "concept", "side", "status"),
    [
        ("First warning for Tarik.", "warning", "blue", "given"),
        ("Orsan is warned.", "warning", "red", "given"),
        ("Second warning to red.", "warning", "red", "given"),
        ("Remark to blue.", "remark", "blue", "given"),
        ("Caution on red.", "caution", "red", "given"),
        ("Blue passive.", "passivity", "blue", "given"),
        ("Red's on the shot clock.", "passivity", "red", "given"),
        ("Told to open up.", "passivity", None, "given"),
        ("A finger for Tarik.", "warning", "blue", "given"),
        ("Hansoku-make!", "hansoku-make", None, "given"),
        ("A shido for Orsan.", "shido", "red", "given"),
        ("Second shido to blue.", "shido", "blue", "given"),
        ("One more and it's hansoku-make.", "hansoku-make", None, "supposed"),
        ("Passivity warning for Tarik.", "passivity", "blue", "given"),
        ("Stalling warning on Orsan.", "passivity", "red", "given"),
        ("That's hansoku-make, is it, no, the referee lets it go.", "hansoku-make", None, "denied"),
        # What it would be, what is risked.
        ("That's a shido if he keeps it up.", "shido", None, "supposed"),
        ("On another day that's a shido.", "shido", None, "supposed"),
        ("Why risk another penalty?", "shido", None, "supposed"),
        ("Orsan will get a warning before long.", "warning", "red", "supposed"),
        # Its reason is not a second penalty.
        ("Tarik is warned for passivity.", "warning", "blue", "given"),
        ("Passivity, that's a warning to Tarik.", "warning", "blue", "given"),
        ("A remark for passivity for Tarik, I think.", "remark", "blue", "given"),
        ("Caution, red, for fleeing.", "caution", "red", "given"),
    ],
)
def test_penalty(said: str, concept: str, side: str | None, status: str) -> None:
    (claim,) = hear(said, kind="penalty")
    assert (claim.concept, claim.side, claim.status) == (concept, side, status)


# A call met by its sound, and who it is against.
def test_penalty_met_by_sound() -> None:
    (claim,) = hear(
        "Cheetah, blue.", kind="penalty", points=False, mentions=(("cheetah", "penalty", "shido"),)
    )
    assert (claim.concept, claim.side) == ("shido", "blue")


# One call against both is a penalty of each; its reason is none.
@pytest.mark.parametrize("said", ["A shido each.", "Shido to both.", "Non-combativity, shido to both."])
def test_penalty_of_both(said: str) -> None:
    claims = hear(said, kind="penalty", points=False)
    assert [(claim.concept, claim.side) for claim in claims] == [("shido", "red"), ("shido", "blue")]


# Met by its sound, too.
@pytest.mark.parametrize("said", ["Cheetah to both.", "A cheetah each.", "They both get a cheetah."])
def test_penalty_of_both_met_by_sound(said: str) -> None:
    claims = hear(said, kind="penalty", points=False, mentions=(("cheetah", "penalty", "shido"),))
    assert [(claim.concept, claim.side) for claim in claims] == [("shido", "red"), ("shido", "blue")]


@pytest.mark.parametrize(
    "said",
    ["A word of warning about the mat.", "He throws caution to the wind.", "And the activity clock's off."],
)
def test_no_penalty(said: str) -> None:
    assert hear(said, kind="penalty") == []


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # Called, counted, broken.
        ("The hold's on.", [("running", None)]),
        ("Osaekomi! Five. Ten.", [("running", None), ("running", 10)]),
        ("Hold's called. Eight, nine, ten.", [("running", None), ("running", 10)]),
        ("The hold's on. Ten... out at twelve.", [("running", None), ("running", 10), ("broken", 12)]),
        # A break takes the length counted last, or said right after.
        ("Osaekomi. Five, six. Toketa!", [("running", None), ("running", 6), ("broken", 6)]),
        ("Osaekomi. Five. Toketa! Seven seconds.", [("running", None), ("running", 5), ("broken", 7)]),
        # Held to the end.
        ("The count's on. Ten, fifteen, twenty.", [("running", None), ("completed", 20)]),
        (
            "The hold's on. Twenty seconds, confirmed. Hold complete.",
            [("running", None), ("completed", 20), ("completed", None)],
        ),
        # What the speaker wishes for is not where the count is.
        ("The hold's on, you need your twenty. Eight... nine... ten.", [("running", None), ("running", 10)]),
        # Falling side by side they are a score.
        ("Hold's called. Eight-six, and he's up.", [("running", None)]),
        # No count without a hold; no hold of a wish.
        ("Five. Ten. Fifteen.", []),
        ("He needs twenty seconds for a score.", []),
        # What was wanted has come about when it is counted.
        (
            "He wants to pin him, lying across. Eleven, twelve... and out.",
            [("supposed", None), ("running", 12), ("broken", 12)],
        ),
        ("She's holding Orsan off.", []),
        # Without a mark one number after the next is a count, and the words that end it may begin anew.
        ("the count is on fifteen sixteen and he's out", [("running", None), ("broken", 16)]),
        ("the hold is on he holds her seven eight nine", [("running", None), ("running", 9)]),
        # By fives, where the count was begun and nothing parts them; what it takes is no count.
        (
            "the hold is on he holds him ten he bridges good bridge not enough fifteen twenty that is it",
            [("running", None), ("running", 10), ("completed", 20)],
        ),
        ("the hold is on fifteen twenty to go and he holds her", [("running", None)]),
        ("The hold's on. Twenty for two points.", [("running", None)]),
        # A lone number is a count while a hold is on, whatever is done meanwhile.
        ("The hold's on. Nine, and his feet are waving about.", [("running", None), ("running", 9)]),
        ("Osaekomi! Six seconds, and she's still under there.", [("running", None), ("running", 6)]),
        # "Pin" is a hold where one is called or counted right after.
        ("Pin! Lying right across, and the count has begun.", [("running", None)]),
        ("The count's started. Three, four.", [("running", None), ("running", 4)]),
        # The ways out, while one is on; told twice it ends once.
        ("Hold's on. Seven. He's hooked a leg.", [("running", None), ("running", 7), ("broken", 7)]),
        ("Osaekomi! Out, he's slipped out from underneath!", [("running", None), ("broken", None)]),
        ("Osaekomi! If he gets out now it's nothing.", [("running", None)]),
        ("They've broken the hold-down.", [("broken", None)]),
        ("He's hooked a leg, and down they go.", []),
        # What numbers would be worth is no count.
        ("Osaekomi! Two, three. Five would be something.", [("running", None), ("running", 3)]),
        ("Osaekomi! Two, three. Nineteen seconds left in the bout.", [("running", None), ("running", 3)]),
        # Counted by ones and high enough, numbers tell of a hold by themselves; else they may be a score.
        ("Thirteen, fourteen, stay heavy on him!", [("running", 14)]),
        ("Seven, eight, nine, ten!", [("running", 10)]),
        ("Three, four, and away they go.", []),
        ("The hold's on. Out at six! Two, four, and red leads.", [("running", None), ("broken", 6)]),
        # Signalled, counted and timed in other words.
        ("Flat hand out over the pair of them, the arm's out over them both.", [("running", None)]),
        ("And now it's counting!", [("running", None)]),
        ("The gong for the twenty seconds has gone.", [("completed", 20)]),
        ("He rolled onto his belly at eight.", [("broken", 8)]),
        # Asked, refused, or what it would take.
        ("Is that a hold?", [("supposed", None)]),
        ("Are they counting it?", [("supposed", None)]),
        ("If he keeps her there for ten it pays.", [("supposed", 10)]),
        ("No hold given, says the umpire.", [("denied", None)]),
        ("Osaekomi! You need the full twenty.", [("running", None)]),
        # What goes in is not out; a leg that is hooked need not be the holder's.
        ("The hold's on. He gets an elbow in.", [("running", None)]),
        # What is said of the points is no count, nor does anybody escape over the edge.
        ("The hold's on. Ten. That's two already.", [("running", None), ("running", 10)]),
        ("The hold's on. Ten. And he's out over the line.", [("running", None), ("running", 10)]),
        # No hold.
        ("They're fighting for the hold.", []),
        ("He has a firm hold of the sleeve.", []),
        ("She fled the hold in par terre.", []),
        ("She wears it like a scarf on a cold day.", []),
        ("I can count them on one hand.", []),
        ("Hold on, where's my pencil?", []),
        ("The prize-giving is on hold.", []),
        ("Caution for fleeing the hold.", []),
        ("The wrestler is off his back.", []),
        # Looked back at.
        ("Those fourteen seconds earned two.", [("recalled", 14)]),
    ],
)
def test_holds(said: str, expected: list[tuple[str, int | None]]) -> None:
    claims = hear(said, kind="hold")
    assert [(claim.status, claim.seconds) for claim in claims] == expected


# Called without a name it is the hold that was just begun, or any.
@pytest.mark.parametrize(
    ("lines", "concepts"),
    [
        (("Scarf hold from Orsan.", "The hold is called."), ["kesa-gatame", "kesa-gatame"]),
        (
            (
                "Scarf hold from Orsan.",
                *["They talk about it for quite a while."] * 12,
                "The hold is called.",
            ),
            ["kesa-gatame", "hold-down"],
        ),
        # The same hold named anew is no second one.
        (("Scarf hold from Orsan, a tight scarf hold.",), ["kesa-gatame"]),
    ],
)
def test_which_hold(lines: tuple[str, ...], concepts: list[str]) -> None:
    claims = hear(*lines, kind="hold", mentions=(("scarf hold", "hold", "kesa-gatame"),))
    assert [claim.concept for claim in claims] == concepts


# The seconds of a hold that was let go without a word are not those of the next.
def test_a_new_hold_is_counted_from_the_start() -> None:
    waiting = ["The hall is full tonight, and somebody behind me is eating chips with vinegar."] * 6
    claims = hear("The hold's on. Eighteen.", *waiting, "The hold's on. He's out.", kind="hold")
    assert [(claim.status, claim.seconds) for claim in claims][-1] == ("broken", None)


# Told in other words beside the call, it is that one; nowhere near a hold, the words are of none.
@pytest.mark.parametrize(
    ("lines", "concepts"),
    [
        (("He's lying straight across her, and the count's on.",), ["yoko-shiho-gatame"]),
        (("Orsan's got a hold on, lying straight across her.", "Ten."), ["yoko-shiho-gatame"] * 2),
        (("He's lying straight across her, and up they get.",), []),
    ],
)
def test_which_hold_is_told(lines: tuple[str, ...], concepts: list[str]) -> None:
    claims = hear(*lines, kind="hold")
    assert [claim.concept for claim in claims] == concepts


# A count is of the hold last named; a number counted is neither award nor clock.
def test_count_belongs_to_the_named_hold() -> None:
    said = "Scarf hold from Orsan. Five, six, seven."
    claims = hear(said, mentions=(("scarf hold", "hold", "kesa-gatame"),))
    assert [(claim.kind, claim.concept) for claim in claims] == [("hold", "kesa-gatame")] * 2


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # The first call to begin starts the bout, the next resumes it.
        ("Off we go. He attacks. Stop. Wrestle.", ["start", "stop", "restart"]),
        ("Hajime! They circle. Matte. A word with both. Hajime!", ["start", "stop", "restart"]),
        # A whistle starts a bout that has not begun, and stops one that has.
        ("There's the whistle. Grip fight. The whistle.", ["start", "stop"]),
        ("They're away. There's the gong.", ["start", "end"]),
        ("They're away. Sore-made.", ["start", "end"]),
        # Stood up by the referee they are stopped.
        ("They're away. The referee stands them up. Wrestle.", ["start", "stop", "restart"]),
        (
            "They're away. Much leaning, forehead on forehead, and not a lot of anything else, to be "
            "honest with you. The referee stands them up and they circle for a while.",
            ["start", "stop"],
        ),
        # Said twice in a breath.
        ("Stop, stop.", ["stop"]),
        ("They're away. Stop from the referee.", ["start", "stop"]),
        ("They're away. The jackets to be straightened. Wrestle.", ["start", "stop", "restart"]),
        ("They're away. Stood up again by the referee. Wrestle.", ["start", "stop", "restart"]),
        # Told to stand they are stopped, whatever follows.
        ("They're away. They lean for ever. The ref says up.", ["start", "stop"]),
        ("They're away. They lean for ever. He wants to stand up now.", ["start"]),
        ("They're away. They lean for ever. Stand up!", ["start", "stop"]),
        ("They're away. They lean for ever. Called up by the referee.", ["start", "stop"]),
        # Said by the referee it is nobody's stand-up.
        ("They're away. Stand up, please. Wrestle.", ["start", "stop", "restart"]),
        ("They're away. The judge has seen enough and the official brings them back.", ["start", "stop"]),
        ("They're away. It's blown dead at the rim.", ["start", "stop"]),
        # Where they go is of the stop; stood up again they go on.
        ("They're away. Stop, back to the middle, both of you.", ["start", "stop"]),
        (
            "They're away. Matte. He ties his belt and looks at the crowd. Back on their feet, then.",
            ["start", "stop", "restart"],
        ),
        ("They're away. Matte. He ties his belt. Again.", ["start", "stop", "restart"]),
        ("They're away. A throw, again, but it's blocked.", ["start"]),
        ("Hajime again.", ["restart"]),
        # An end is told as one, or beside one.
        ("They're away. That's it, push, that's it.", ["start"]),
        ("They're away. There's the gong. That's it.", ["start", "end"]),
        ("They're away. Ice, tea, done.", ["start"]),
        ("He taps. Finished.", ["end"]),
        ("The horn goes, that's the end of it.", ["end"]),
        ("They're away. Three-two at half-time, somebody said.", ["start"]),
        ('They\'re away. "Open," says the man with the whistle.', ["start"]),
        ("An old injury kept him out in spring.", []),
        # A grip that comes and goes, a clock of its own.
        ("They're away. On again, off again, that sleeve.", ["start"]),
        ("They're away. Now they start the passivity clock.", ["start"]),
        # No calls.
        ("They're going to need a breather.", []),
        ("It's over his shoulder, nearly.", []),
        ("Orsan rode it out near the line.", []),
        ("He's been asleep since they resumed.", []),
        ("The coach wants him to get up and fight.", []),
        ("His headgear's off again.", []),
        ("Like drunks at a bus stop.", []),
        ("First time this year he fights here.", []),
        ("What a start to the season he had.", []),
        # Saved by it, it was the end; going on is beginning anew; sore is no "sore made".
        ("But there goes the hooter, saving Tarik's skin.", ["end"]),
        ("He lands on his knees. Stop! And on we go.", ["stop", "restart"]),
        ("He'll be sore tomorrow.", []),
    ],
)
def test_stoppages(said: str, expected: list[str]) -> None:
    assert [claim.concept for claim in hear(said, kind="stoppage")] == expected


@pytest.mark.parametrize(("said", "expected"), [("He has him down and mate", ["stop"]), ("why mate why", [])])
def test_matte_and_mates(said: str, expected: list[str]) -> None:
    claims = hear(said, kind="stoppage", points=False, mentions=(("mate", "stoppage", "stop"),))
    assert [claim.concept for claim in claims] == expected


def test_the_end_of_a_period_is_not_the_end() -> None:
    said = "They're away. They lean for a while. End of the period. Water, and a word. We go again."
    claims = hear(said, kind="stoppage")
    assert [(claim.concept, claim.of) for claim in claims] == [
        ("start", None),
        ("end", "period"),
        ("start", "period"),
    ]


@pytest.mark.parametrize(
    ("said", "concept", "side", "status"),
    [
        ("Orsan wins.", "points", "red", "given"),
        ("Tarik takes it.", "points", "blue", "given"),
        ("Orsan wins by technical superiority.", "superiority", "red", "given"),
        ("Total victory, blue.", "total-victory", "blue", "given"),
        # The one who taps has lost.
        ("Tarik taps!", "submission", "red", "given"),
        ("Tarik by submission.", "submission", "blue", "given"),
        ("That's a fall!", "fall", None, "given"),
        ("Orsan wins by ippon.", "ippon", "red", "given"),
        ("Blue is disqualified.", "disqualification", "red", "given"),
        ("It's not the clean one.", "total-victory", None, "denied"),
        ("Eight ends it.", "superiority", None, "supposed"),
        ("If he taps it's over.", "submission", None, "supposed"),
        ("Orsan would get the nod, I fancy.", "points", "red", "supposed"),
        ("Tarik, the county champion!", "points", "blue", "given"),
        # Ended otherwise.
        ("Kiken-gachi, then.", "withdrawal", None, "given"),
        ("Tarik can't go on.", "withdrawal", "red", "given"),
        ("So that's a walkover.", "no-show", None, "given"),
        ("Hiki-wake.", "draw", None, "given"),
        ("Orsan has gone to sleep!", "submission", "blue", "given"),
        ("He's tapping with his free hand.", "submission", None, "given"),
        # How it ended, told in one go; the fall refused; giving up in other words.
        ("It's all over by fall.", "fall", None, "given"),
        ("Tarik wins with fall.", "fall", "blue", "given"),
        ("The bout is settled by a strangle.", "submission", None, "given"),
        ("The umpire won't give the fall.", "fall", None, "denied"),
        ("That'd be a pin in any other hall.", "fall", None, "supposed"),
        ("Tarik's had enough.", "submission", "red", "given"),
        ("A tap and it's all over.", "submission", None, "supposed"),
        ("Palm slapping on the mat!", "submission", None, "given"),
        ("A win on points, nothing more.", "points", None, "given"),
        ("It's decided by cards.", "disqualification", None, "given"),
        ("Orsan has conceded.", "withdrawal", "blue", "given"),
        ("Tarik's corner has thrown in the towel.", "withdrawal", None, "given"),
    ],
)
def test_results(said: str, concept: str, side: str | None, status: str) -> None:
    (claim,) = hear(said, kind="result")
    assert (claim.concept, claim.side, claim.status) == (concept, side, status)


@pytest.mark.parametrize(
    "said",
    [
        "A knee tap, defended.",
        "They both fall.",
        "He's tapping his wrist.",
        "Take it downstairs, Orsan.",
        "Orsan and Tarik, and the winner's in the semis.",
        "On the wrist, Orsan pulls it off.",
        # What is lost is no bout, what would win it has not, and a score at the break is no result.
        "Tarik lost his temper.",
        "The next point wins it.",
        "It's Orsan by two at the break.",
        "Orsan wins by waiting.",
        "Orsan wins the step out.",
        "Orsan goes on the activity clock.",
        "Why did Tarik lose, do you think?",
        # Nor is what somebody has to do yet, or holds.
        "Orsan has it all to do.",
        "Orsan has it locked.",
    ],
)
def test_no_result(said: str) -> None:
    assert hear(said, kind="result") == []


# Who won and the score that says so are two claims of one sentence.
def test_result_beside_its_score() -> None:
    claims = hear("Orsan takes it by seven to five.")
    assert [claim.kind for claim in claims] == ["result", "stated_score"]
    assert {side: tally.points for side, tally in claims[1].tallies.items()} == {"red": 7, "blue": 5}


@pytest.mark.parametrize(
    ("said", "concept"),
    [
        ("They're on the floor now.", "ground"),
        ("They crash to the canvas.", "ground"),
        ("Red keeps turning him on the mat.", "ground"),
        ("On the deck, and Tarik waits.", "ground"),
        ("Both back on their feet.", "standing"),
        ("He's near the edge.", "edge"),
        ("Red's out, stepped right out.", "out"),
        ("Par terre, then.", "par-terre"),
        ("Blue's in danger.", "danger"),
        ("Tarik turtles.", "turtle"),
        ("Red has recovered half guard.", "half-guard"),
        ("Tarik walks straight over the line.", "out"),
        ("Both of them kneeling.", "kneeling"),
        ("Danger! He's flat.", "danger"),
        ("Centre of the mat, please.", "centre"),
        ("He's stuck inside the guard.", "guard"),
        ("Guard passed.", "guard"),
        ("Half guard, and no further.", "half-guard"),
        ("She takes his back.", "back-control"),
        ("Both hooks in.", "back-control"),
        ("He stepped outside with both feet.", "out"),
    ],
)
def test_positions(said: str, concept: str) -> None:
    assert concept in [claim.concept for claim in hear(said, kind="position")]


@pytest.mark.parametrize(
    ("said", "concept", "fell"),
    [
        ("Flat on his back!", "landing:back", None),
        ("Down on her side.", "landing:side", None),
        ("He sat him on his backside.", "landing:buttocks", None),
        ("Chest first.", "landing:chest", None),
        ("Flat on his belly.", "landing:stomach", None),
        ("Only to her knees.", "landing:knees", None),
        # Whether the thrower went down decides what many throws are worth.
        ("Both of them down.", "landing", True),
        ("He went down with him.", "landing", True),
        ("He dropped to his knees to do it.", "landing", True),
        ("The knee went down.", "landing", True),
        ("They both ended up on the floor.", "landing", True),
        ("And he kept his feet!", "landing", False),
        ("No, he was standing at the end.", "landing", False),
        ("The thrower stayed up.", "landing", False),
    ],
)
def test_landings(said: str, concept: str, fell: bool | None) -> None:
    (claim,) = hear(said, kind="landing")
    assert (claim.concept, claim.fell) == (concept, fell)


# Where a grip lies, and thanks.
@pytest.mark.parametrize(
    "said", ["Lovely grip, deep on the back.", "Squeezing high on the ribs.", "A slap on the back."]
)
def test_no_landing(said: str) -> None:
    assert hear(said, kind="landing") == []


# Whoever puts the other down does not land.
@pytest.mark.parametrize(
    ("said", "concept", "side"),
    [
        ("Orsan sits him down.", "landing:buttocks", "blue"),
        ("Tarik dumps him flat on his back.", "landing:back", "red"),
        ("Orsan sits down hard.", "landing:buttocks", "red"),
    ],
)
def test_who_is_put_down(said: str, concept: str, side: str) -> None:
    (claim,) = hear(said, kind="landing")
    assert (claim.concept, claim.side) == (concept, side)


@pytest.mark.parametrize(
    "said",
    [
        "Hands on the mat.",
        "A fist on the back of the jacket.",
        # What else is there, and what comes off it.
        "The elbow to the floor.",
        "He hoists him off the mat.",
        "The coach is pointing to the line.",
        "A thump on the back from the trainer.",
        "Both arms on the same side.",
        "That joke was over the line.",
        "The danger is that he waits.",
        "He looks at the floor.",
        "Tarik's out of it, good.",
        "She takes the belt from on top.",
        "He let his guard down there.",
        "And Tarik sits through, nice.",
        "Stay on the line if you have a question.",
        "Somebody walked out of the hall.",
    ],
)
def test_no_place(said: str) -> None:
    assert [claim.kind for claim in hear(said)] == []


# Which one of its side's a penalty is; one that counts both sides' is no one's count.
@pytest.mark.parametrize(
    ("said", "attributes"),
    [
        ("Second shido to blue.", ("count:2",)),
        ("Shido number two for Tarik.", ("count:2",)),
        ("Third warning, Orsan.", ("count:3",)),
        ("Shido, blue.", ()),
        ("The second passive of the bout, blue.", ()),
    ],
)
def test_a_penalty_counted(said: str, attributes: tuple[str, ...]) -> None:
    claims = hear(said, kind="penalty", points="shido" not in said.lower())
    assert [claim.attributes for claim in claims] == [attributes]


# "A fight over the inside hand" ends nothing.
def test_a_fight_over_something_is_no_end() -> None:
    assert hear("So it's a fight over the inside hand.", kind="stoppage") == []


@pytest.mark.parametrize(
    ("said", "side"),
    [
        # Who lands is named right in front of how.
        ("Red hits flat on the back.", "red"),
        ("Tarik comes down on his side.", "blue"),
        ("Down goes Orsan on his seat.", "red"),
        ("He dumps Tarik on his back.", "blue"),
        # Where the thrower's part is told, the other one.
        ("Blue goes down with him.", "red"),
        # Nobody is named.
        ("Straight on his back.", None),
    ],
)
def test_who_lands(said: str, side: str | None) -> None:
    claims = hear(said, kind="landing")
    assert [claim.side for claim in claims] == [side]


@pytest.mark.parametrize(
    ("said", "attributes"),
    [
        # Each has one then; of a double shido nothing is said of how many each has.
        ("A shido each.", ("both", "count:1")),
        ("A shido to each.", ("both",)),
        ("Shido to both.", ("both",)),
        ("Passivity upon both.", ("both",)),
    ],
)
def test_penalties_of_both(said: str, attributes: tuple[str, ...]) -> None:
    claims = hear(said, kind="penalty", points=False)
    assert [(claim.side, claim.attributes) for claim in claims] == [("red", attributes), ("blue", attributes)]


# Said apart, and counted behind it; one of both in a few words.
@pytest.mark.parametrize(
    ("said", "sides", "attributes"),
    [
        ("Shido! To red.", ["red"], ()),
        ("Shido. Blue.", ["blue"], ()),
        ("Shido, blue. That's two.", ["blue"], ("count:2",)),
        ("Shido! For both.", ["red", "blue"], ("both",)),
        ("They both get one, they've been shoving.", ["red", "blue"], ("both",)),
        ("Shido shido, they've been shoving.", ["red", "blue"], ("both",)),
    ],
)
def test_a_penalty_said_shortly(said: str, sides: list[str], attributes: tuple[str, ...]) -> None:
    claims = hear(said, kind="penalty", points=False)
    assert [(claim.side, claim.attributes) for claim in claims] == [(side, attributes) for side in sides]


# A challenge turned down is told of for itself.
@pytest.mark.parametrize(
    "said", ["Challenge lost.", "And the challenge is rejected.", "They've lost the challenge."]
)
def test_a_challenge_lost(said: str) -> None:
    assert [claim.concept for claim in hear(said, kind="stoppage")] == ["lost-challenge"]


# In general, of other days, and words that only sound like one.
@pytest.mark.parametrize(
    "said",
    [
        "Two hands to break a grip was a shido for a while.",
        "One does not receive shido for walking out.",
        "How'd she do that?",
        "First score, or the third shido.",
        "He leads in the shido count.",
        "Not a card in sight.",
        "Count the yellow ones.",
    ],
)
def test_no_shido(said: str) -> None:
    assert hear(said, kind="penalty", points=False) == []


# A clock said between two counts of a hold is none of them; "eight, he go out" ends it.
def test_a_clock_is_no_count() -> None:
    lines = ("Osaekomi!", "Five, six, seven.", "Eight, he go out, with a bridge.", "One fifteen.")
    claims = hear(*lines, points=False)
    held = [(claim.status, claim.seconds) for claim in claims if claim.kind == "hold"]
    assert held == [("running", None), ("running", 7), ("broken", 8)]
    assert [claim.seconds for claim in claims if claim.kind == "clock"] == [75]


# "Caution and two for Orsan": who gets the points is not who is cautioned.
@pytest.mark.parametrize("said", ["Caution and two for Orsan.", "Caution plus one to red."])
def test_a_caution_with_its_points(said: str) -> None:
    assert [claim.side for claim in hear(said, kind="penalty")] == ["blue"]
