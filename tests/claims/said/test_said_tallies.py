"""Stated scores and leads: whose number is whose where the words tell, speaking order where they do not."""

import pytest
from saying import hear

from hikite.records import Tally


def points(red: int | None, blue: int | None) -> dict[str, Tally]:
    said = {"red": red, "blue": blue}
    return {side: Tally(points=value) for side, value in said.items() if value is not None}


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # In speaking order.
        ("Seven three.", points(7, 3)),
        ("6-1 now.", points(6, 1)),
        ("It's two nothing.", points(2, 0)),
        ("Six four then, and they circle.", points(6, 4)),
        ("Nil-two at the break.", points(0, 2)),
        ("So that's five points to three.", points(5, 3)),
        # A comma parts awards, unless the score is announced.
        ("The score, for the record: three, two.", points(3, 2)),
        # Of three numbers in a row the last two are the score.
        ("Four eight six, what a turn.", points(8, 6)),
        ("Which makes it eight six with half a minute left.", points(8, 6)),
        # A name that opens the next clause owns no number.
        ("Two-one, red turns in again.", points(2, 1)),
    ],
)
def test_two_numbers_in_speaking_order(said: str, expected: dict[str, Tally]) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert (claim.tallies, claim.ordered) == (expected, False)


# A mark parts awards; but numbers that the score stated last has grown into are the score.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Seven four. He presses on, seven, five, and they circle.", [points(7, 4), points(7, 5)]),
        ("Two-nil, red. A turn there, two, one to red.", [points(2, 0), points(2, 1)]),
        # Shrunken, or grown by more than may be, it is none.
        ("Seven four. He presses on, three, one, and they circle.", [points(7, 4)]),
        # Awards: the same twice, and one before the score.
        ("Two-nil, red. A turn there, four, four, big throw.", [points(2, 0)]),
        ("Two-nil, red. A turn there, two, four all now.", [points(2, 0), points(4, 4)]),
        # Counts, down and up.
        ("Six two. The bell, three, two, one, and done.", [points(6, 2)]),
        ("Two-nil, red. He holds on, five, ten, he bridges.", [points(2, 0)]),
        ("Ten fifteen and she holds.", []),
    ],
)
def test_two_numbers_that_a_mark_parts(said: str, expected: list[dict[str, Tally]]) -> None:
    assert [claim.tallies for claim in hear(said, kind="stated_score")] == expected


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # The one named leads.
        ("Red leads seven to two.", points(7, 2)),
        ("Two-seven to Tarik.", points(2, 7)),
        ("Six-four, Dunhollow.", points(4, 6)),
        ("Nine five in favour of Orsan.", points(9, 5)),
        # So many words say that it is a score, pauses or not.
        ("Eleven, eight, in favour of Tarik.", points(8, 11)),
        ("Seven to five, Dunhollow in the lead.", points(5, 7)),
        ("Four nil to Velmark with a minute left.", points(4, 0)),
        # The one named is behind.
        ("Nil-two, Velmark behind.", points(0, 2)),
        ("Tarik trails six two.", points(6, 2)),
        # Each number beside its name.
        ("Orsan two, Tarik nothing.", points(2, 0)),
        ("Blue three, red five.", points(5, 3)),
        # Both alike.
        ("It's four all.", points(4, 4)),
        ("Two apiece.", points(2, 2)),
        ("We're level at seven.", points(7, 7)),
        ("Still nothing each.", points(0, 0)),
        ("Nil-nil.", points(0, 0)),
    ],
)
def test_numbers_by_side(said: str, expected: dict[str, Tally]) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert (claim.tallies, claim.ordered) == (expected, True)


@pytest.mark.parametrize(
    ("said", "margin", "side", "attributes"),
    [
        ("Orsan up by five.", 5, "red", ()),
        ("Red leads by three.", 3, "red", ()),
        ("Tarik trails by four.", 4, "red", ()),
        ("Blue's two down.", 2, "red", ()),
        # Who it is comes from before; how he stands is said here.
        ("He's six points up now.", 6, None, ("ahead",)),
        ("Two points down with ten to go.", 2, None, ("behind",)),
        ("Ten clear.", 10, None, ("ahead",)),
        ("It's a one-point game.", 1, None, ("ahead",)),
        ("All square.", 0, None, ()),
        ("It's level.", 0, None, ()),
    ],
)
def test_leads(said: str, margin: int, side: str | None, attributes: tuple[str, ...]) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert (claim.margin, claim.side, claim.attributes) == (margin, side, attributes)


@pytest.mark.parametrize(
    ("said", "total", "ordered"),
    [
        # One side's total, said alone after it scored; no award is that high.
        ("Turns him! Twelve!", 12, False),
        ("That's nine, that is.", 9, False),
        ("And that makes five.", 5, False),
        ("Blue moves on to eight.", 8, True),
    ],
)
def test_one_sides_total(said: str, total: int, ordered: bool) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert [tally.points for tally in claim.tallies.values()] == [total]
    assert claim.ordered is ordered


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("One waza-ari each.", {"red": Tally(waza_ari=1), "blue": Tally(waza_ari=1)}),
        ("One shido apiece.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("Two shidos on blue.", {"blue": Tally(shido=2)}),
        ("Two to one in cards.", {"red": Tally(shido=2), "blue": Tally(shido=1)}),
        ("Shidos two to one.", {"red": Tally(shido=2), "blue": Tally(shido=1)}),
        ("Two small ones to one.", {"red": Tally(yuko=2), "blue": Tally(yuko=1)}),
        # What one carries is no new penalty, what each is told to have no new award.
        ("The lone penalty against Tarik.", {"blue": Tally(shido=1)}),
        ("Orsan carrying one shido.", {"red": Tally(shido=1)}),
        ("One shido on either side.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("A waza-ari for blue, a yuko for red.", {"blue": Tally(waza_ari=1), "red": Tally(yuko=1)}),
        # Listed with penalties, and with whose they are.
        (
            "Waza-ari and two cards, against two yuko and one card.",
            {"red": Tally(waza_ari=1, yuko=0, shido=2), "blue": Tally(waza_ari=0, yuko=2, shido=1)},
        ),
        (
            "Tarik's waza-ari over two yuko.",
            {"blue": Tally(waza_ari=1, yuko=0), "red": Tally(waza_ari=0, yuko=2)},
        ),
        (
            "Blue first: a yuko, against a waza-ari and a yuko.",
            {"blue": Tally(waza_ari=0, yuko=1), "red": Tally(waza_ari=1, yuko=1)},
        ),
        ("Shidos one and two.", {"red": Tally(shido=1), "blue": Tally(shido=2)}),
        ("Orsan leads by a waza-ari.", {"red": Tally(waza_ari=1)}),
        (
            "Blue a waza-ari, red a yuko.",
            {"blue": Tally(waza_ari=1, yuko=0), "red": Tally(waza_ari=0, yuko=1)},
        ),
        # What one has by now.
        ("So blue has a shido and is behind.", {"blue": Tally(shido=1)}),
        ("Orsan's already got a shido.", {"red": Tally(shido=1)}),
        ("Blue's on two shidos.", {"blue": Tally(shido=2)}),
        ("She has the waza-ari.", {"red": Tally(waza_ari=1)}),
        ("Orsan's behind, two to one.", {"red": Tally(waza_ari=1), "blue": Tally(waza_ari=2)}),
        ("Red's got one yuko and Tarik's got zip.", {"red": Tally(yuko=1), "blue": Tally(yuko=0)}),
        (
            "Red got two yukos, blue two yukos.",
            {"red": Tally(waza_ari=0, yuko=2), "blue": Tally(waza_ari=0, yuko=2)},
        ),
        ("Nil apiece.", {"red": Tally(waza_ari=0), "blue": Tally(waza_ari=0)}),
        (
            "It's a yuko against a waza-ari and a yuko.",
            {"red": Tally(waza_ari=0, yuko=1), "blue": Tally(waza_ari=1, yuko=1)},
        ),
        (
            "So we have waza-ari and yuko for the blue, and one yuko for red.",
            {"blue": Tally(waza_ari=1, yuko=1), "red": Tally(waza_ari=0, yuko=1)},
        ),
        (
            "So it is equal, waza-ari and yuko, waza-ari and yuko.",
            {"red": Tally(waza_ari=1, yuko=1), "blue": Tally(waza_ari=1, yuko=1)},
        ),
    ],
)
def test_judo(said: str, expected: dict[str, Tally]) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert claim.tallies == expected


# A slip and its correction are both heard; which one stands is for the ledger.
def test_correction() -> None:
    claims = hear("Eight-three. No, forgive me, seven-three.", kind="stated_score")
    assert [claim.tallies["red"].points for claim in claims] == [8, 7]


@pytest.mark.parametrize(
    "said",
    [
        "Seven to one kilos heavier, they say.",
        "Two on one, and he drags the arm.",
        "He's a four all day long.",
        "Both men down, four.",
        "Mat one, bout two hundred.",
        "It is two three minute rounds.",
        "Level changes from both.",
        "She put one up the inside.",
        "One and one is ippon.",
        "Fifteen, come on.",
        "I've seen the staff five-a-side.",
    ],
)
def test_no_stated_score(said: str) -> None:
    assert hear(said, kind="stated_score") == []


# A lead that was is no score that is.
@pytest.mark.parametrize(
    "said", ["He was four down!", "Orsan had been six behind.", "He came back from five down."]
)
def test_a_lead_told_over(said: str) -> None:
    assert [claim.status for claim in hear(said, kind="stated_score")] == ["recalled"]


# Numbers alone leave open what judo counts.
@pytest.mark.parametrize(
    ("said", "unsaid"),
    [("One all.", True), ("Nil-nil.", True), ("One waza-ari each.", False), ("A shido each.", None)],
)
def test_what_is_counted_may_go_unsaid(said: str, unsaid: bool | None) -> None:
    claims = hear(said, kind="stated_score", points=False)
    assert ["class unsaid" in claim.attributes for claim in claims] == ([] if unsaid is None else [unsaid])


# Who wins leads, though the words of the win are told apart.
@pytest.mark.parametrize("said", ["Red wins it eight three.", "Orsan takes the decision, eight three."])
def test_the_winners_score(said: str) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert (claim.tallies, claim.ordered) == (points(8, 3), True)


# A number in front of a listed score counts it.
def test_listed_scores_are_counted() -> None:
    (claim,) = hear("A waza-ari over two yuko.", kind="stated_score", points=False)
    assert [(one.waza_ari, one.yuko) for one in claim.tallies.values()] == [(1, 0), (0, 2)]


def test_steps_are_no_score() -> None:
    assert hear("Red steps, one two, one two, and chops at the ankle.", kind="stated_score") == []


def test_each_number_before_its_name() -> None:
    (claim,) = hear("Count with me, six red, five blue.", kind="stated_score")
    assert (claim.tallies, claim.ordered) == (points(6, 5), True)


# A pause parts the numbers of a score said alone: neither two alike nor a count; above every award it is one.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Two, four.", [points(2, 4)]),
        ("One, three. Back to the middle.", [points(1, 3)]),
        ("Seven, three, and on they go.", [points(7, 3)]),
        ("Six, four to red, then.", [points(6, 4)]),
        ("Two, two.", []),
        ("He is holding her down. Eleven, twelve... and she's out.", []),
        ("Two, and she's rolling again, four.", []),
    ],
)
def test_numbers_parted_by_a_pause(said: str, expected: list[dict[str, Tally]]) -> None:
    assert [claim.tallies for claim in hear(said, kind="stated_score")] == expected


# Both sides' judo scores and cards in few words; a colour before a number is no person.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("A waza-ari all.", {"red": Tally(waza_ari=1), "blue": Tally(waza_ari=1)}),
        ("Two yuko red, one yuko blue.", {"red": Tally(yuko=2), "blue": Tally(yuko=1)}),
        ("Yuko, red two, blue one.", {"red": Tally(yuko=2), "blue": Tally(yuko=1)}),
        ("Blue two shido, red one.", {"red": Tally(shido=1), "blue": Tally(shido=2)}),
        ("Shido one and one.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("One each on the cards.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("Level with one penalty apiece.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("Each of them has a single yellow.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
        ("A shido each now.", {"red": Tally(shido=1), "blue": Tally(shido=1)}),
    ],
)
def test_judo_in_few_words(said: str, expected: dict[str, Tally]) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert claim.tallies == expected


# What one side has, above every award; points against points; alike on both sides.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Red has seven.", points(7, None)),
        ("Seven on the board for red.", points(7, None)),
        ("Six points against four.", points(6, 4)),
        ("We're at six a side.", points(6, 6)),
    ],
)
def test_points_had(said: str, expected: dict[str, Tally]) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert claim.tallies == expected


def test_so_few_points_had_may_be_an_award() -> None:
    assert [claim.kind for claim in hear("Red has two.")] == ["score"]


# "Yuko to nothing" whose leader is named behind it.
def test_a_judo_lead_with_its_leader() -> None:
    (claim,) = hear("A yuko to nothing, Tarik.", kind="stated_score", points=False)
    assert [tally.yuko for tally in claim.tallies.values()] == [1, 0]


# Penalties may be what parts them, and what somebody has of something else is no score.
@pytest.mark.parametrize(
    ("said", "margin"),
    [("A one shido difference.", 1), ("Orsan leads by a single shido.", 1), ("There's a one card lead.", 1)],
)
def test_penalties_part_them(said: str, margin: int) -> None:
    (claim,) = hear(said, kind="stated_score", points=False)
    assert (claim.margin, claim.of) == (margin, "shido")


@pytest.mark.parametrize(
    "said", ["She is on two warnings now.", "He's on one foot.", "Their feet are locked together."]
)
def test_no_total(said: str) -> None:
    assert hear(said, kind="stated_score") == []


# No score for so long is how the board stands.
@pytest.mark.parametrize(
    "said", ["No score in four minutes.", "No score at the break.", "No score after two minutes."]
)
def test_blank_for_so_long(said: str) -> None:
    (claim,) = hear(said, kind="stated_score")
    assert [tally.points for tally in claim.tallies.values()] == [0, 0]


# "One each" counts what was just told: penalties are no points.
@pytest.mark.parametrize(
    "said", ["Warning to both. One each.", "He cautions the pair of them, a caution, one apiece."]
)
def test_one_each_of_penalties(said: str) -> None:
    assert hear(said, kind="stated_score") == []
    assert hear(said, kind="penalty")[-1].status == "recalled"


def test_one_each_of_shidos() -> None:
    (claim,) = hear("Shido for blue as well. One each.", kind="stated_score", points=False)
    assert [tally.shido for tally in claim.tallies.values()] == [1, 1]


# A sum after points told, an award after none; the total of somebody is no total victory.
@pytest.mark.parametrize(
    ("said", "total"),
    [("Two to red. One on top, that makes three.", [3]), ("On the back, that makes four.", [])],
)
def test_that_makes(said: str, total: list[int]) -> None:
    told = [one for one in hear(said, kind="stated_score") for one in one.tallies.values()]
    assert [one.points for one in told] == total


def test_total_of_somebody() -> None:
    assert hear("The total for blue is seven.", kind="result") == []
    assert [one.concept for one in hear("Total for blue!", kind="result")] == ["total-victory"]


# What is looked or picked up is nobody's lead.
@pytest.mark.parametrize("said", ["I had to look that one up.", "She looked one up for me."])
def test_nobody_is_up(said: str) -> None:
    assert hear(said, kind="stated_score") == []


# A recogniser writes a score as one figure, or one of its numbers as the word that sounds like it: where it
# has grown out of the last one by what was told in between.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Three zip. And that is it, 20, two points for the pin. 50. He goes on.", [(3, 0), (5, 0)]),
        ("Five nothing. He lands belly down, two for blue. 52. And up.", [(5, 0), (5, 2)]),
        ("Four to zero. It's two, two for blue. So it's for two now.", [(4, 0), (4, 2)]),
        ("Four two. So one point goes to blue. For three, and he waits.", [(4, 2), (4, 3)]),
        ("Six two. One point to blue, so 63, minute and a half left.", [(6, 2), (6, 3)]),
        ("Two nil. That's 2 to blue. Still to all, lads.", [(2, 0), (2, 2)]),
        ("21 to red. That's two for the hold. He was too close 41 red, brought up.", [(2, 1), (4, 1)]),
        # By more than was told, of something else, or out of nothing.
        ("Five nothing. He waits. 52. And up.", [(5, 0)]),
        ("Five nothing. Two for blue. 52 seconds left.", [(5, 0)]),
        ("Three two. He goes for three now.", [(3, 2)]),
        ("Two for blue. So it's for two now.", []),
    ],
)
def test_scores_half_heard(said: str, expected: list[tuple[int, int]]) -> None:
    stated = hear(said, kind="stated_score")
    assert [tuple(tally.points for tally in claim.tallies.values()) for claim in stated] == expected


# What goes up by one is a count, unless the score can have grown so.
@pytest.mark.parametrize(
    ("said", "expected"),
    [
        ("Six two. He has the arm and the clock's running, five six, he bridges.", [(6, 2)]),
        ("Five four. Two for blue, five six, he bridges.", [(5, 4), (5, 6)]),
    ],
)
def test_numbers_going_up(said: str, expected: list[tuple[int, int]]) -> None:
    stated = hear(said, kind="stated_score")
    assert [tuple(tally.points for tally in claim.tallies.values()) for claim in stated] == expected


# Counts of a hold, of the clock and of the rules are no scores, however they are written.
@pytest.mark.parametrize(
    "said",
    [
        "Not so high, 10 ten, and he bridges.",
        "Up again, 12 11, and he runs at him.",
        "It would be more. 10 11, he bridges.",
        "Second one is a point, third is two fourth you're gone.",
        "That's 20 two points for it.",
    ],
)
def test_counts_are_no_score(said: str) -> None:
    assert [claim for claim in hear(said, kind="stated_score") if len(claim.tallies) > 1] == []
