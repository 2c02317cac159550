"""Awards, who gets them where said, what is refused; and the numbers in chatter that are none."""

import pytest
from saying import hear


@pytest.mark.parametrize(
    ("said", "points", "side"),
    [
        # Announced.
        ("That's four.", 4, None),
        ("It's a one.", 1, None),
        ("So only two.", 2, None),
        ("He gets two for that.", 2, None),
        ("Worth two.", 2, None),
        ("Another pair!", 2, None),
        ("Plus one.", 1, None),
        ("Two more!", 2, None),
        ("That's a double.", 2, None),
        ("The referee shows a whole hand.", 5, None),
        ("Four points.", 4, None),
        ("A single point.", 1, None),
        # Alone between two stops.
        ("Over he goes, flat. Four!", 4, None),
        # To somebody.
        ("Four to red.", 4, "red"),
        ("Two, blue.", 2, "blue"),
        ("One for Tarik.", 1, "blue"),
        ("A point for blue.", 1, "blue"),
        ("Orsan gets two.", 2, "red"),
        ("Two points awarded to blue.", 2, "blue"),
        ("A point to the opponent.", 1, None),
        ("One point to Dunhollow for that.", 1, "blue"),
        # Without punctuation or case.
        ("four points for orsan what a throw", 4, "red"),
        ("and down he goes two more for red", 2, "red"),
        ("The judge has one.", 1, None),
        ("They change it. Four.", 4, None),
        ("they change it for thank you", 4, None),
    ],
)
def test_points(said: str, points: int, side: str | None) -> None:
    (claim,) = hear(said, kind="score")
    assert (claim.points, claim.side, claim.status) == (points, side, "given")


# Where nobody wrote marks, a silence between words sets a number apart.
def test_a_pause_parts_words_where_no_mark_does() -> None:
    (claim,) = hear("over he goes with the hip", "two", "what a start to the evening", kind="score")
    assert claim.points == 2
    assert hear("over he goes with his hip and two of his hands", kind="score") == []


@pytest.mark.parametrize(
    ("said", "points", "status"),
    [
        ("No score.", 0, "denied"),
        ("Nothing given.", 0, "denied"),
        ("No points for that.", 0, "denied"),
        ("The judges wave it off: waved off, not scored.", 0, "denied"),
        ("Not four.", 4, "denied"),
        ("It'd be four if he stayed up.", 4, "supposed"),
        ("I've got four in my book.", 4, "supposed"),
        ("That's four, four in my book.", 4, "supposed"),
        ("In my eyes that's two.", 2, "supposed"),
        ("One more of anything and we can all go home.", 1, "supposed"),
        ("You need twenty seconds for two points.", 2, "supposed"),
        ("He needs a four to win.", 4, "supposed"),
        ("If that lands it's four.", 4, "supposed"),
        # Asked, and of other days.
        ("And it's four?", 4, "supposed"),
        ("In those days that was four for red.", 4, "supposed"),
        # What the rules give for seconds, and for one fault more.
        ("Ten seconds is two.", 2, "supposed"),
        ("The second one's a point to the other man.", 1, "supposed"),
        ("In old rules you get two for that.", 2, "supposed"),
        # Taken back behind whose it was.
        ("That's four for blue. No, no, I hurry.", 4, "denied"),
        # "if" that supposes nothing.
        ("It's four, if you're keeping score.", 4, "given"),
    ],
)
def test_refused_and_supposed(said: str, points: int, status: str) -> None:
    claims = hear(said, kind="score")
    assert (claims[0].points, claims[0].status) == (points, status)


# What is not so before a "but" is another thing.
def test_a_clause_of_its_own_denies_no_score() -> None:
    (claim,) = hear("It's not pretty but one-four now.", kind="stated_score")
    assert claim.status == "stated"


@pytest.mark.parametrize(
    ("said", "score", "side", "status"),
    [
        ("Waza-ari!", "waza-ari", None, "given"),
        ("Waza-ari to Tarik.", "waza-ari", "blue", "given"),
        ("Yuko, red.", "yuko", "red", "given"),
        ("Orsan yuko off the hip.", "yuko", "red", "given"),
        ("Ippon, what a throw!", "ippon", None, "given"),
        ("Not ippon.", "ippon", None, "denied"),
        ("He needs a waza-ari.", "waza-ari", None, "supposed"),
        ("Ippon? Is it?", "ippon", None, "supposed"),
        ("Waza-ari, no.", "waza-ari", None, "denied"),
        # An opinion is one; "they call that a yuko" only explains the word.
        ("I'd call that a yuko.", "yuko", None, "supposed"),
        # Split or joined by a recogniser.
        ("wazaari given to blue", "waza-ari", "blue", "given"),
    ],
)
def test_judo_scores(said: str, score: str, side: str | None, status: str) -> None:
    (claim,) = hear(said, kind="score", points=False)
    assert (claim.score_class, claim.side, claim.status) == (score, side, status)


# A score heard by its sound comes as a mention of the lexicon.
def test_judo_score_met_by_sound() -> None:
    said = "Was a otte for blue!"
    (claim,) = hear(said, kind="score", points=False, mentions=(("was a otte", "score", "waza-ari"),))
    assert (claim.score_class, claim.side) == ("waza-ari", "blue")


@pytest.mark.parametrize(
    ("said", "probability", "points", "heard"),
    [
        # Loosely met by sound it counts where a call would stand, not inside a clause.
        ("Yoko! For blue.", 0.4, False, 1),
        ("And off yoko home for blue now.", 0.4, False, 0),
        ("And it's yoko for blue now.", 0.8, False, 1),
        # In a sport that counts points there are no such scores.
        ("Yoko! For blue.", 0.8, True, 0),
    ],
)
def test_sound_alone_is_weighed_by_its_place(said: str, probability: float, points: bool, heard: int) -> None:
    mentions = (("yoko", "score", "yuko"),)
    claims = hear(said, kind="score", points=points, mentions=mentions, how="sound", probability=probability)
    assert len(claims) == heard


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        # One award said twice in a breath.
        (("Four! Four to red.",), [(4, "red", "given")]),
        (("One. It's one.",), [(1, None, "given")]),
        # Taken up by the other speaker.
        (("A: Down he sits, two, red.", "B: Fine. Two."), [(2, "red", "given"), (2, None, "recalled")]),
        # Two awards of the same size.
        (("Two! And two more.",), [(2, None, "given"), (2, None, "given")]),
        (("One for the walk. One for the caution.",), [(1, None, "given"), (1, None, "given")]),
    ],
)
def test_said_again(lines: tuple[str, ...], expected: list[tuple[int, str | None, str]]) -> None:
    claims = hear(*lines, kind="score")
    assert [(claim.points, claim.side, claim.status) for claim in claims] == expected


@pytest.mark.parametrize(
    "said",
    [
        "I've said it for forty years.",
        "Two boys from the same club.",
        "One of those throws you dream of.",
        "He's number one in the world.",
        "That's on mat two.",
        "Seventy-nine kilos, red and blue.",
        "Ranked third, drew lot number one.",
        "The younger one turns in.",
        "Five metres from me.",
        "He has two bronze medals.",
        "Both hands, one lapel.",
        "These two know each other.",
        "He's twenty-two.",
        "Two on one, and he drags it.",
        "A two-time champion.",
        "One leg, one arm, all heart.",
        "They fall like two bags of cement.",
        "Blue is the one built like a barn.",
        "That is the one they call the windmill.",
        "This is one I promised the Thursday group.",
    ],
)
def test_numbers_in_chatter_are_no_awards(said: str) -> None:
    assert hear(said, kind="score") == []


# Which one of its kind an award is.
@pytest.mark.parametrize(
    ("said", "attributes"),
    [
        ("A second yuko!", ("count:2",)),
        ("Yuko. That's two for him.", ("count:2",)),
        ("Yuko, that's his third.", ("count:3",)),
        ("Yuko for Orsan.", ()),
        ("Yuko. Two minutes left.", ()),
    ],
)
def test_a_judo_score_counted(said: str, attributes: tuple[str, ...]) -> None:
    (claim,) = hear(said, kind="score", points=False)
    assert claim.attributes == attributes


# Nothing was given, or what was given is taken back.
@pytest.mark.parametrize(
    ("said", "of"),
    [
        ("No score.", None),
        ("They've taken it off her.", "taken-back"),
        ("No, they've looked again and taken it off.", "taken-back"),
        ("He's waving it away!", "taken-back"),
        ("The score is cancelled.", "taken-back"),
        ("The waza-ari has been taken away.", "taken-back"),
    ],
)
def test_given_and_taken_back(said: str, of: str | None) -> None:
    claims = [claim for claim in hear(said, kind="score", points=False) if claim.status == "denied"]
    assert [claim.of for claim in claims] == [of]


# Heard by a recogniser.
@pytest.mark.parametrize(
    ("said", "points"),
    [("So too to him.", 2), ("For to Tarik.", 4), ("Won to red.", 1), ("It stands. For it is.", 4)],
)
def test_numbers_misheard(said: str, points: int) -> None:
    (claim,) = hear(said, kind="score")
    assert claim.points == points


# What one pays the other gets.
@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("The warning costs Orsan a point.", "blue"),
        ("Tarik hands over a point.", "red"),
        ("Orsan concedes two.", "blue"),
        ("Tarik pays for it with a point.", "red"),
    ],
)
def test_a_point_paid(said: str, side: str) -> None:
    assert [claim.side for claim in hear(said, kind="score")] == [side]


# Speakers' ways of putting points on the board.
@pytest.mark.parametrize(
    ("said", "points", "side"),
    [
        ("That's a two-point takedown for Orsan.", 2, "red"),
        ("Two go up for the red corner.", 2, "red"),
        ("Four on the board for Orsan.", 4, "red"),
        ("Tarik gets the step-out point.", 1, "blue"),
        ("Orsan grabs himself a quick two.", 2, "red"),
        ("Add two to red's tally.", 2, "red"),
        ("Big four-pointer for blue!", 4, "blue"),
        ("Give the man his four.", 4, None),
        ("Blue's got his first point.", 1, "blue"),
        ("Tarik pulls one back.", 1, "blue"),
        ("Mat chairman confirms the two.", 2, None),
        ("They've downgraded it to a two.", 2, None),
        ("So the point's Tarik's.", 1, "blue"),
    ],
)
def test_points_put_on_the_board(said: str, points: int, side: str | None) -> None:
    (claim,) = hear(said, kind="score")
    assert (claim.points, claim.side, claim.status) == (points, side, "given")


# Judo's words as recognisers write them, and points for a garbled name.
@pytest.mark.parametrize(
    ("said", "concept"),
    [("was a ari", "waza-ari"), ("waza odi", "waza-ari"), ("eppon", "ippon"), ("a yucco", "yuko")],
)
def test_judo_scores_as_recognisers_write_them(said: str, concept: str) -> None:
    (claim,) = hear(f"And that's {said}.", kind="score", points=False)
    assert claim.score_class == concept


def test_points_for_a_garbled_name() -> None:
    (claim,) = hear("Down he goes, two to the cars and kid.", kind="score")
    assert (claim.points, claim.side) == (2, None)


# A bare call of the point, and what only counts steps.
@pytest.mark.parametrize(("said", "side"), [("Point blue!", "blue"), ("Point to Orsan.", "red")])
def test_the_point_called(said: str, side: str) -> None:
    (claim,) = hear(said, kind="score")
    assert (claim.points, claim.side, claim.status) == (1, side, "given")


# Whose it is may be a statement of its own; one that goes on is another matter.
@pytest.mark.parametrize(
    ("said", "side"),
    [
        ("Both feet out! One! Red!", "red"),
        ("Four. To blue.", "blue"),
        ("Two! For Tarik.", "blue"),
        ("Two points! Orsan!", "red"),
        ("Two. Blue, he turns in.", None),
    ],
)
def test_whose_it_is_said_apart(said: str, side: str | None) -> None:
    (claim,) = hear(said, kind="score")
    assert claim.side == side


# Taken back in words set apart, and corrected by the award that follows.
@pytest.mark.parametrize(
    ("said", "points", "expected"),
    [
        ("Ippon! No, no, excuse me, I was too fast.", False, [("ippon", "denied", ())]),
        ("Waza-ari! No? Okay, yuko.", False, [("waza-ari", "denied", ()), ("yuko", "given", ())]),
        (
            "Ippon? No, he's got his arm out flat, waza-ari.",
            False,
            [("ippon", "denied", ()), ("waza-ari", "given", ("instead",))],
        ),
        ("They've changed it to waza-ari.", False, [("waza-ari", "given", ("instead",))]),
        ("He waves the ippon off.", False, [("ippon", "denied", ())]),
        (
            "Waza-ari! They look at it. It's wiped out.",
            False,
            [("waza-ari", "given", ()), ("waza-ari", "denied", ())],
        ),
        ("It's wiped out.", False, [("none", "denied", ())]),
        # Asked, not told.
        ("Ippon! Is it?", False, [("ippon", "supposed", ())]),
        ("Ippon, surely?", False, [("ippon", "supposed", ())]),
        # What was shown comes down, and what takes its place is said a statement later.
        (
            "Waza-ari! Hang about, it's coming down. Yuko.",
            False,
            [("waza-ari", "given", ()), ("yuko", "given", ("instead",))],
        ),
        ("They're making it smaller. Yuko. It's only a yuko.", False, [("yuko", "given", ("instead",))]),
        ("It comes down to the last minute. Yuko.", False, [("yuko", "given", ())]),
        ("It's become a yuko.", False, [("yuko", "given", ("instead",))]),
        # Whose it was is taken back, and it is called anew.
        (
            "Waza-ari, blue. I beg your pardon. Waza-ari, red.",
            False,
            [("waza-ari", "denied", ()), ("waza-ari", "given", ())],
        ),
        # In general, and of one's own bouts.
        ("For a waza-ari you need ten seconds.", False, [("waza-ari", "supposed", ())]),
        ("Now any of them will do, a yuko, whatever.", False, [("yuko", "supposed", ())]),
        ("I was a yuko up in my first final.", False, []),
        ("Waza-ari, no doubt about it.", False, [("waza-ari", "given", ())]),
        ("Four! No, two.", True, [("points", "denied", ()), ("points", "given", ("instead",))]),
        ("That's two, no question.", True, [("points", "given", ())]),
    ],
)
def test_taken_back_and_corrected(
    said: str, points: bool, expected: list[tuple[str, str, tuple[str, ...]]]
) -> None:
    claims = hear(said, kind="score", points=points)
    assert [(claim.concept, claim.status, claim.attributes) for claim in claims] == expected


# Points told over: added up, or as they grew; a count aloud and awards as they fall are neither.
@pytest.mark.parametrize(
    ("said", "parts", "total"),
    [
        ("Nine four. So two, two, four, one, nine, yes.", [2, 2, 4, 1], 9),
        ("So two and two and one makes five.", [2, 2, 1], 5),
        ("Tarik two and one, three.", [2, 1], 3),
        ("That's one, three, five. Five nil.", [], 5),
        ("Two! Two! Four!", None, None),
        ("One, two, three, four.", None, None),
    ],
)
def test_points_told_over(said: str, parts: list[int] | None, total: int | None) -> None:
    claims = hear(said)
    over = [claim.points for claim in claims if claim.kind == "score" and claim.status == "recalled"]
    totals = [
        tally.points
        for claim in claims
        if claim.kind == "stated_score" and claim.status == "stated" and len(claim.tallies) == 1
        for tally in claim.tallies.values()
    ]
    assert over == (parts or [])
    assert totals == ([] if total is None else [total])


# An arm up gives something while the bout is on; when it is over it raises the winner's.
@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("Out he goes, both feet, the arm's up for blue.", "score"),
        ("The hand goes up for blue.", "score"),
        ("There's the gong, it's over. The arm goes up for blue.", "result"),
    ],
)
def test_an_arm_goes_up(said: str, kind: str) -> None:
    claims = [claim for claim in hear(said) if claim.kind in ("score", "result")]
    assert [(claim.kind, claim.side, claim.points) for claim in claims] == [(kind, "blue", None)]


# Nouns that are attacks on the legs as well, and steps counted.
@pytest.mark.parametrize(
    ("said", "points"),
    [
        ("Low, both hands at the legs, a double, and he sprawls.", []),
        ("Look, the single, he comes up the back of it.", []),
        ("So it's only a single.", [1]),
        ("One step, two, three steps.", []),
        ("A point besides.", [1]),
        ("Red gets the activity point too.", [1]),
    ],
)
def test_numbers_that_are_none(said: str, points: list[int]) -> None:
    assert [claim.points for claim in hear(said, kind="score")] == points


# Called by name and number, and put up, held up, put down as.
@pytest.mark.parametrize(
    ("said", "points", "side"),
    [
        ("Blue, two.", 2, "blue"),
        ("Red! Four!", 4, "red"),
        ("They've put two up.", 2, None),
        ("Four on the fingers.", 4, None),
        ("That'll go down as four.", 4, None),
        ("Four it is.", 4, None),
        ("Two's the number.", 2, None),
    ],
)
def test_points_shown(said: str, points: int, side: str | None) -> None:
    (claim,) = hear(said, kind="score")
    assert (claim.points, claim.side, claim.status) == (points, side, "given")


def _heard(said: str) -> list[tuple[int | None, str]]:
    return [(one.points, one.status) for one in hear(said, kind="score")]


# Given, wanted, refused, taken off, in other people's words.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("They said two.", [(2, "given")]),
        ("He went for the big one and got one.", [(1, "given")]),
        ("Tarik wanted four.", [(4, "supposed")]),
        ("They've taken two off him.", [(2, "denied")]),
        ("The jury gave nothing.", [(0, "denied")]),
        ("Nowt for that.", [(0, "denied")]),
        ("Not a sausage for it.", [(0, "denied")]),
        ("They gave him nothing for that.", [(0, "denied")]),
        ("Zero on the board.", [(0, "denied")]),
        ("He lands on his front, nothing!", [(0, "denied")]),
        ("The light's gone on for blue.", [(None, "given")]),
        ("On the back, that makes four.", [(4, "given")]),
        ("Orsan takes the lead with a two.", [(2, "given")]),
        ("She should have had four.", [(4, "supposed")]),
        # Captions without marks go on with another number.
        ("red gets two more fifteen left", [(2, "given")]),
        # Told over: so many at once are none of them new.
        ("Two, four, one, two, one.", [(points, "recalled") for points in (2, 4, 1, 2, 1)]),
        ("One, two, two, one. That's six for Orsan.", [(points, "recalled") for points in (1, 2, 2, 1)]),
    ],
)  # fmt: skip
def test_scores_in_other_words(said: str, expected: list[tuple[int | None, str]]) -> None:
    assert _heard(said) == expected


# What costs nothing, and what only sounds like no score or a score taken back.
@pytest.mark.parametrize(
    "said",
    [
        "A first telling, it costs him nothing.", "There's no point rushing it.",
        "No points for being pretty.", "It's going, it's going, it's gone!",
        "She takes it back with both hands.", "Take the two and be happy.", "If you've got four in the bank.",
        "There's nothing for blue to push against.", "I see no point in that.",
        "He is on his feet, nothing to worry about.",
    ],
)  # fmt: skip
def test_no_refusal(said: str) -> None:
    assert _heard(said) == []


# A table of what landings are worth gives nothing; one row alone is a call, and so are calls to somebody.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Side standing, four. Belly standing, two. Fall, and it's a step less.", ["supposed", "supposed"]),
        ("so side standing four belly standing two and you fall you drop one step", ["supposed", "supposed"]),
        ("The side is four, the belly is two.", ["supposed", "supposed"]),
        ("Onto the side, standing, four!", ["given"]),
        ("Side standing. Four for red. Belly standing. Two for blue.", ["given", "given"]),
    ],
)
def test_what_landings_are_worth(said: str, expected: list[str]) -> None:
    assert [claim.status for claim in hear(said, kind="score")] == expected
