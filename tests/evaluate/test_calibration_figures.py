"""Calibration figures against the formulas worked by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hikite.evaluate.calibrations import Guess, brier, calibration_error, chance_error, reliability


def guesses(*told: tuple[float, bool]) -> list[Guess]:
    return [Guess(about="x", probability=probability, right=right) for probability, right in told]


# Brier, Monthly Weather Review 78 (1950), two-class form: mean of (probability - outcome) squared
BRIER = [
    (((1.0, True), (0.0, False)), 0.0),
    (((1.0, False), (0.0, True)), 1.0),
    # (0.2^2 + 0.4^2 + 0.7^2) / 3 = (0.04 + 0.16 + 0.49) / 3
    (((0.8, True), (0.4, False), (0.3, True)), 0.69 / 3),
]


@pytest.mark.parametrize(("told", "score"), BRIER)
def test_brier(told, score):
    assert brier(guesses(*told)) == pytest.approx(score)


def test_calibration_error_of_two_bins():
    # sorted and halved: (0.1 wrong, 0.3 right) and (0.6 right, 0.9 right)
    # bin 1: told 0.2, right 0.5, gap 0.3; bin 2: told 0.75, right 1.0, gap 0.25; mean by count 0.275
    told = guesses((0.9, True), (0.1, False), (0.6, True), (0.3, True))
    assert calibration_error(told, bins=2) == pytest.approx(0.275)


def test_bins_are_of_equal_count():
    # 23 guesses in ten bins: three of 3 and seven of 2
    told = guesses(*((n / 23, n % 2 == 0) for n in range(23)))
    assert sorted(one.guesses for one in reliability(told)) == [2] * 7 + [3] * 3


def test_equal_confidences_share_their_outcome():
    # ten guesses of 0.7, seven right: well calibrated, whatever order they come in
    assert calibration_error(guesses(*((0.7, n < 7) for n in range(10)))) == pytest.approx(0.0)


# What just probabilities show by chance: the mean gap of a binomial share from its probability,
# E|X/n - p|, by hand: one guess of 0.5 is off by 0.5 either way, two by (0.5 + 0 + 0 + 0.5) / 4.
CHANCE = [
    (((1.0, True), (0.0, False)), 0.0),
    (((0.5, True),), 0.5),
    (((0.5, True), (0.5, True)), 0.25),
    # one guess of 0.9: 0.9 * 0.1 + 0.1 * 0.9
    (((0.9, False),), 0.18),
]


@pytest.mark.parametrize(("told", "error"), CHANCE)
def test_error_by_chance(told, error):
    assert chance_error(guesses(*told)) == pytest.approx(error, abs=0.03)


def test_no_guesses_no_error():
    assert (calibration_error([]), chance_error([]), brier([]), reliability([])) == (0.0, 0.0, 0.0, ())


@given(st.lists(st.tuples(st.floats(0, 1), st.booleans()), min_size=1), st.randoms())
def test_order_changes_nothing_and_errors_stay_in_bounds(told, chance):
    shuffled = list(told)
    chance.shuffle(shuffled)
    error = calibration_error(guesses(*told))
    assert error == pytest.approx(calibration_error(guesses(*shuffled)))
    assert 0 <= error <= 1 + 1e-9
    assert 0 <= brier(guesses(*told)) <= 1
