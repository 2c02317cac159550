"""Which year's rules are fought under, as the talk says; common practice, no source."""

import pytest

from hikite.claims.eras import era_of
from hikite.terms.speech import load_speech
from talks import talk


@pytest.mark.parametrize(
    ("said", "year"),
    [
        ("It's the 2018 rules they fight by here, no yuko.", 2018),
        ("now it's the twenty eighteen rules so there's no yuko", 2018),
        ("They wrestle by the 2013 judo rules tonight.", 2013),
        # Of other days, of something else, or of two years.
        ("Under the old 2017 rules that was a koka.", None),
        ("By the 2018 rules that would have been ippon.", None),
        ("He was seventh in 2018. The rules are clear.", None),
        ("Under the 2018 rules here, under the 2025 rules there.", None),
    ],
)
def test_the_year_whose_rules_hold(said: str, year: int | None) -> None:
    assert era_of(talk(said), load_speech("en"), "en") == year
