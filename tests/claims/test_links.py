"""How claims hang together. All names and places are invented."""

import pytest

from hearings import claims


def techniques(said: str) -> list[int]:
    return [n for n, one in enumerate(claims(said)) if one.kind == "technique"]


@pytest.mark.parametrize(
    "said",
    [
        "Veldrik, inside trip into the shoulder throw.",
        "Veldrik fakes the inside trip, then the shoulder throw.",
        "Veldrik feints the inside trip for the shoulder throw.",
    ],
)
def test_set_up(said: str) -> None:
    heard, (one, two) = claims(said), techniques(said)
    assert heard[two].after == one
    assert heard[two].counters is None


@pytest.mark.parametrize(
    "said",
    [
        "Veldrik goes for the hip throw, countered with a suplex by Ambrose.",
        "Hip throw from Veldrik, and Ambrose, on the counter, takes him over with the shoulder throw.",
    ],
)
def test_counter(said: str) -> None:
    heard, (one, two) = claims(said), techniques(said)
    assert heard[two].counters == one
    assert heard[two].side != heard[one].side


def test_off_a_grip() -> None:
    heard = claims("Veldrik takes the belt, and off the belt grip, the shoulder throw.")
    throw = next(one for one in heard if one.kind == "technique")
    assert throw.after is not None
    assert heard[throw.after].kind == "grip"


def test_nothing_hangs_on_what_is_far() -> None:
    heard = claims(
        "Veldrik tries the hip throw.", "They are stood up.", "The crowd waits.", "Shoulder throw by Ambrose."
    )
    assert all(one.after is None and one.counters is None for one in heard)


def test_the_same_again() -> None:
    heard = claims("Veldrik tries the hip throw. And the same again.")
    assert [one.concept for one in heard if one.kind == "technique"] == [heard[0].concept] * 2
