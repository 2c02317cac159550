"""Clock readings: left, gone, of which clock; and numbers of seconds that are none."""

import pytest
from saying import hear

Reading = tuple[int, bool, str | None]


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        # Minutes and seconds in full.
        ("Four minutes twelve on the clock.", [(252, False, None)]),
        ("Two minutes and eight seconds remaining.", [(128, False, None)]),
        ("Three minutes left in this one.", [(180, False, None)]),
        ("A minute and a half left.", [(90, False, None)]),
        ("Two and a half minutes to go.", [(150, False, None)]),
        ("Half a minute to go.", [(30, False, None)]),
        ("Thirty-five seconds.", [(35, False, None)]),
        ("Minute ten to go, blue needs something.", [(70, False, None)]),
        ("A minute fifty, plenty of time.", [(110, False, None)]),
        # Minute hand and seconds alone.
        ("Two ten on the clock.", [(130, False, None)]),
        ("One fifty-eight still on it.", [(118, False, None)]),
        ("Three oh five and nothing doing.", [(185, False, None)]),
        # As a speaker of another tongue says them.
        ("Clock is one zero four.", [(64, False, None)]),
        ("Minute and half gone.", [(90, True, None)]),
        ("Five second left.", [(5, False, None)]),
        ("There's 2:35 left.", [(155, False, None)]),
        ("3:04 on the board.", [(184, False, None)]),
        # A recogniser writes 3:40 as one figure; 180 seconds stay 180.
        ("340 left, red behind.", [(220, False, None)]),
        ("180 seconds, if you like a big number.", [(180, False, None)]),
        # One number with the words that make it a clock.
        ("Thirty to the bell.", [(30, False, None)]),
        ("Forty on the clock.", [(40, False, None)]),
        ("Twenty to go now.", [(20, False, None)]),
        ("Inside the last minute now.", [(60, False, None)]),
        # A number too high for a score or a count, standing alone.
        ("Stood up. Fifty-five. Off again.", [(55, False, None)]),
        # Gone, not left.
        ("A minute gone already.", [(60, True, None)]),
        ("Elapsed, two minutes twenty.", [(140, True, None)]),
        ("Forty seconds in, and they circle.", [(40, True, None)]),
        ("Forty seconds into golden score.", [(40, True, "golden-score")]),
        # Another clock than the bout's.
        ("Forty seconds left in the period.", [(40, False, "period")]),
        ("Thirty seconds to score, says the referee.", [(30, False, "activity")]),
        # The last seconds counted aloud.
        ("Three, two, one, and the gong.", [(3, False, None), (2, False, None), (1, False, None)]),
        # Halfway through five minutes.
        ("Halfway, and nobody has scored.", [(150, False, None)]),
        # A correction stands beside its slip.
        (
            "Three fifty-eight remaining, I correct that, three forty-eight.",
            [(238, False, None), (228, False, None)],
        ),
        # The number behind the minutes counts something else; a second warning takes no second.
        ("so five minutes eight points up and you go home", [(300, False, None)]),
        ("four minutes and twelve points is a clear victory", [(240, False, None)]),
        ("stop another one second warning for blue", []),
        # No clock: talk of other times.
        ("Twenty seconds ago he looked beaten.", []),
        ("He won that one with a hip throw inside ten seconds.", []),
        ("She pinned him inside thirty seconds this morning.", []),
        ("That kills eight seconds.", []),
        ("He's been six seconds back on his feet.", []),
        ("Foot sweeps on Tuesday, twenty minutes, both sides.", []),
        # Minutes and seconds in one figure, behind another number.
        ("two 155 to go and he waits", [(115, False, None)]),
        ("Minute and forty-five on clock.", [(105, False, None)]),
        ("He won it two minutes later.", []),
        # Which minute it was, then how many of something else.
        ("That was in the third minute, one for the album.", []),
        ("They walked a minute or two.", []),
        ("He's seventy-four kilos and thirty years old.", []),
        ("That was halfway through the warm-up.", []),
        # No clock: scores.
        ("It's 3:1 and they wait.", []),
        ("Six four then.", []),
        ("Ten six.", []),
        ("It's seven to two.", []),
    ],
)
def test_clock(said: str, expected: list[Reading]) -> None:
    claims = hear(said, kind="clock")
    assert [(claim.seconds, claim.elapsed, claim.of) for claim in claims] == expected


# The half of an unknown length is not a number of seconds.
def test_halfway_needs_the_bouts_length() -> None:
    assert hear("Halfway.", kind="clock", duration_s=None) == []


# Nothing in the talk at all is no error.
@pytest.mark.parametrize("said", ["", "Nobody moves.", "..."])
def test_talk_without_numbers(said: str) -> None:
    assert hear(said) == []


# Rounded or bounded, a reading is marked so.
@pytest.mark.parametrize(
    ("said", "about"),
    [("Under a minute left.", True), ("About thirty seconds to go.", True), ("Thirty seconds to go.", False)],
)
def test_a_rough_reading(said: str, about: bool) -> None:
    (claim,) = hear(said, kind="clock")
    assert ("about" in claim.attributes) == about


def test_into_the_last_minutes_is_what_is_left() -> None:
    (claim,) = hear("And we're into the last two minutes.", kind="clock")
    assert (claim.seconds, claim.elapsed) == (120, False)


WAITING = "They hold each other by the sleeves and walk round and round and round the middle. " * 2


def test_a_number_alone_when_the_clock_comes_to_it() -> None:
    claims = hear("Forty seconds left.", WAITING, "Twenty-seven... he shoots.", kind="clock")
    assert [claim.seconds for claim in claims] == [40, 27]


def test_a_number_alone_when_the_clock_is_far_from_it() -> None:
    assert [
        claim.seconds for claim in hear("Forty seconds left.", WAITING, "Twelve. He shoots.", kind="clock")
    ] == [40]


@pytest.mark.parametrize(
    ("said", "seconds", "elapsed"),
    [
        # Golden score counts up from nothing.
        ("So it's extra time.", 0, True),
        ("Clock's going up now.", 0, True),
        # On a watch stands what is left.
        ("Fifty on the watch.", 50, False),
        # Put right in the same breath, or in minutes and a half.
        ("No, wait, three fifty.", 230, False),
        ("Three and a half.", 210, False),
    ],
)
def test_clocks_in_other_words(said: str, seconds: int, elapsed: bool) -> None:
    (claim,) = hear(said, kind="clock")
    assert (claim.seconds, claim.elapsed) == (seconds, elapsed)


@pytest.mark.parametrize(
    ("said", "seconds", "elapsed"),
    [
        # A bound told alone, and parts of a minute.
        ("Just over a minute.", 60, False),
        ("A shade under a minute now.", 60, False),
        ("Quarter of a minute left.", 15, False),
        # Minutes and seconds before a word for what is still to come.
        ("Three ten to fight.", 190, False),
        ("Ninety to spend.", 90, False),
        ("Minute and twenty left.", 80, False),
        ("A minute to save this.", 60, False),
        ("We are in the last twenty seconds.", 20, False),
        ("Thirty seconds to find a throw.", 30, False),
        # How long before the end, and how long it took.
        ("He's pinned him, thirty-eight seconds early.", 38, False),
        ("Two seconds before the gong.", 2, False),
        ("All over in fifty seconds.", 50, True),
        ("Eighty seconds spent.", 80, True),
        ("Done in thirty seconds flat.", 30, True),
        ("Inside the opening half minute.", 30, True),
        ("They tick past the two minute mark.", 120, True),
        ("Fewer than forty now.", 40, False),
        ("Fifty-eight on the big board.", 58, False),
    ],
)
def test_clocks_from_either_end(said: str, seconds: int, elapsed: bool) -> None:
    (claim,) = hear(said, kind="clock")
    assert (claim.seconds, claim.elapsed) == (seconds, elapsed)


def test_activity_clock_by_its_name() -> None:
    (claim,) = hear("The thirty second clock is running.", kind="clock")
    assert (claim.seconds, claim.of) == (30, "activity")


def test_activity_clock_by_what_is_left_of_it() -> None:
    (claim,) = hear("Fifteen left of that activity clock.", kind="clock")
    assert (claim.seconds, claim.of) == (15, "activity")


# How long something else lasts, and a mark between a number and the word behind it.
@pytest.mark.parametrize(
    "said",
    [
        "He was one second short of a hold.", "Won it inside a minute.", "Sixteen seconds of mayhem.",
        "Twelve seconds on the ground and nothing to show.", "A thirty second burst.",
        "On mat three, second round.",
        "Seven in the morning, we set out.",
        "She needs a five to turn this round.",
        "Two seconds off the waza-ari.",
        "We stopped at three villages.",
        # A weight class.
        "One fifty pound final here.",
    ],
)  # fmt: skip
def test_no_clock(said: str) -> None:
    assert hear(said, kind="clock") == []
