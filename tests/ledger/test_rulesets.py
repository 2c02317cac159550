"""The rule-set files load strictly, and the right one is found."""

from datetime import date
from pathlib import Path

import pytest

from hearings import terms
from hikite.claims import hear
from hikite.errors import LexiconError
from hikite.ledger import load_rulesets
from hikite.ledger.keeping import rules_of
from hikite.mentions import find_mentions
from hikite.records import Sheet
from talks import talk

RULESETS = load_rulesets()


@pytest.mark.parametrize(
    ("day", "key", "held"),
    [
        # FIAS news of 18 Feb 2020: the rewrite
        (date(2019, 6, 1), "sambo.sport.legacy", True),
        (date(2020, 6, 1), "sambo.sport.legacy", False),
        (date(2020, 6, 1), "sambo.sport.2020", True),
        # IJF news of 17 Dec 2024: yuko back from Paris 2025
        (date(2024, 12, 1), "judo.2018", True),
        (date(2025, 3, 1), "judo.2018", False),
        (date(2025, 3, 1), "judo.2025", True),
    ],
)
def test_rule_sets_hold_from_and_to_their_dates(day: date, key: str, held: bool) -> None:
    assert (key in {rules.key for rules in RULESETS.in_force(day)}) is held


@pytest.mark.parametrize(
    ("heard", "day", "key"),
    [
        (("waza-ari", "shido", "white"), None, "judo.2018"),
        (("waza-ari", "yuko", "white"), None, "judo.2025"),
        (("waza-ari", "shido", "white"), date(2023, 5, 1), "judo.2018"),
        (("warning", "total-victory"), None, "sambo.sport.2020"),
        (("remark", "caution"), None, "sambo.sport.legacy"),
        (("takedown", "single-leg", "exposure"), None, "uww.fs"),
        (("par-terre", "gut-wrench", "reverse-lift", "period"), None, "uww.gr"),
    ],
)
def test_the_words_heard_tell_the_rules(heard: tuple[str, ...], day: date | None, key: str) -> None:
    odds = RULESETS.weigh(heard, day)
    assert next(iter(odds)) == key
    assert sum(odds.values()) == pytest.approx(1.0)


# No yuko from 2017 (from memory) to 2025 (IJF news of 17 Dec 2024): the year named tells more than a yuko
# heard, the bout's date more than both.
@pytest.mark.parametrize(
    ("said", "day", "key"),
    [
        ("Hajime. Waza-ari for white. A yuko for blue.", None, "judo.2025"),
        ("It's the 2018 rules here. Hajime. Waza-ari for white. A yuko for blue.", None, "judo.2018"),
        ("It's the 2018 rules here. Hajime. Waza-ari for white.", "2025-03-01", "judo.2025"),
    ],
)
def test_the_year_whose_rules_are_named(said: str, day: str | None, key: str) -> None:
    spoken = talk(said)
    heard = hear(spoken, find_mentions(spoken, terms()), terms(), Sheet(date=day))
    assert rules_of(heard, RULESETS) == key


# Nobody wears white in sambo (jackets red and blue, FIAS; judogi white and blue, IJF; both from memory):
# points misread from a recogniser's garble do not make it one.
def test_who_wears_white_fights_no_sambo() -> None:
    odds = RULESETS.weigh(("white", "blue", "points:1", "points:2", "start"))
    assert sum(chance for key, chance in odds.items() if key.startswith("judo")) > 0.9


def test_whoever_wears_red_wrestles_no_judo_whatever_the_speaker_calls_it() -> None:
    heard = ("red", "blue", "shido", "ippon", "osaekomi", "points:2", "points:4")
    assert "judo" in next(iter(RULESETS.weigh(heard)))
    assert next(iter(RULESETS.weigh(heard, worn=("blue", "red")))).startswith("sambo")


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ('key = "x"\nname = "X"\nsport = "s"\nactions = "a"\ncolour = 1\ndurations = []\nends = []\n', 5),
        (
            'key = "x"\nname = "X"\nsport = "s"\nactions = "a"\ndurations = []\nends = [\n'
            '  { id = "E1", by = "points", mark = "memory" },\n'
            '  { id = "E2", by = "points", mark = "memory", len = 8 },\n]\n',
            8,
        ),
        ('key = "x"\nname = = "X"\n', 2),
    ],
)
def test_an_unknown_key_is_an_error_with_its_line(tmp_path: Path, text: str, line: int) -> None:
    (tmp_path / "actions").mkdir()
    (tmp_path / "actions" / "a.toml").write_text("typical = {}\nactions = []\n", "utf-8")
    (tmp_path / "x.toml").write_text(text, "utf-8")
    with pytest.raises(LexiconError) as raised:
        load_rulesets(tmp_path)
    assert (raised.value.file, raised.value.line) == (str(tmp_path / "x.toml"), line)


def test_an_unknown_rule_set_is_named_with_those_there_are() -> None:
    with pytest.raises(LexiconError, match=r"uww\.fs"):
        RULESETS["no.such"]
