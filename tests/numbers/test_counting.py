"""Counting: every number against a recount by hand or the slow way."""

from collections import Counter
from pathlib import Path

import pytest
from bout_rows import BLUE, RED, event, keep_bout, keep_words, line
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from commentaries import write
from hikite.archive import Archive
from hikite.archive.errors import QueryError
from hikite.archive.keeping import keep_files
from hikite.numbers import Ask, Table, count
from hikite.numbers.rates import wilson
from hikite.numbers.writing import as_csv
from hikite.process import load_lexicon

SAMPLES = Path(__file__).parents[2] / "samples"


@given(st.integers(1, 5000).flatmap(lambda of: st.tuples(st.integers(0, of), st.just(of))))
def test_intervals_are_wilsons(counted: tuple[int, int]) -> None:
    """SciPy's own, `scipy.stats.binomtest(...).proportion_ci(method="wilson")`."""
    many, of = counted
    theirs = binomtest(many, of).proportion_ci(confidence_level=0.95, method="wilson")
    ours = wilson(many, of)
    assert ours is not None
    assert (ours.low, ours.high) == pytest.approx((theirs.low, theirs.high), abs=1e-9)
    assert ours.low <= ours.share <= ours.high
    assert ours.share == many / of


def test_of_nothing_there_is_no_share() -> None:
    assert wilson(0, 0) is None


@pytest.fixture(scope="module")
def lexicon():
    return load_lexicon()


@pytest.fixture
def small(tmp_path: Path, lexicon):
    """Two bouts: red comes from two behind, blue from nowhere; judo with one waza-ari each way."""
    with Archive.open(tmp_path / "small.archive", write=True) as archive:
        keep_words(archive, lexicon)
        lapel = "|grip:lapel|"
        keep_bout(archive, "one", [
            event(1, "technique", "uchi-mata", "attempted", "red", grips=lapel, clock_best_s=290.0),
            event(2, "technique", "double-leg", "completed", "blue", gained=2, scored=True),
            line(3, "blue", 2, head=False),
            event(4, "technique", "uchi-mata", "completed", "red", grips=lapel, gained=4, scored=True,
                  clock_best_s=0.0, confidence=0.5),
            line(5, "red", 4, head=False, clock_best_s=0.0),
            event(6, "technique", "uchi-mata", "recalled", "red"),
            event(7, "technique", "uchi-mata", "failed", None, clock_best_s=20.0, golden=True),
        ], winner="red")  # fmt: skip
        keep_bout(archive, "two", [
            line(1, "blue", 1), line(2, "blue", 4), line(3, "red", 1),
            event(4, "technique", "morote-gari", "failed", "red", grips="|grip:lapel|grip:belt|"),
            event(5, "technique", "morote-gari", "failed", "red"),
        ], winner="blue", sure=0.6)  # fmt: skip
        keep_bout(archive, "three", [
            line(1, "red", score_class="waza-ari"), line(2, "blue", score_class="waza-ari"),
            event(3, "penalty", "shido", "given", "blue", counts=True, score_class="shido"),
            line(4, "blue", score_class="ippon"),
        ], winner="blue", ruleset="judo.2025")  # fmt: skip
        yield archive


def lines(table: Table, *names: str) -> dict[tuple[str, ...], tuple[float, ...]]:
    return {one.keys: tuple(one.counts[name] for name in names) for one in table.lines}


COLUMNS = ("tries", "completed", "scored", "points")
# Recaps are no tries; a wrestler's double leg and a judoka's morote-gari are one throw.
TABLES = [
    ("technique", {("uchi-mata",): (3, 1, 1, 4), ("double-leg",): (3, 1, 1, 2)}),
    ("grip", {("grip:lapel",): (3, 1, 1, 4), ("grip:belt",): (1, 0, 0, 0)}),
    ("rules", {("sambo.sport.2020",): (6, 2, 2, 6)}),
    ("minute", {("1",): (4, 1, 1, 2), ("5",): (1, 1, 1, 4), ("1000",): (1, 0, 0, 0)}),
]


@pytest.mark.parametrize(("by", "expected"), TABLES)
def test_tables(small: Archive, by: str, expected: dict[tuple[str, ...], tuple[float, ...]]) -> None:
    assert lines(count(small, Ask(by=by)), *COLUMNS) == expected


def test_of_two_names_the_one_said_most_is_shown(small: Archive) -> None:
    labels = {one.keys: one.labels[0] for one in count(small, Ask(by="technique")).lines}
    assert labels[("double-leg",)].startswith("morote-gari")


def test_athletes_families_and_who_is_nobody(small: Archive) -> None:
    table = count(small, Ask(by="athlete"))
    assert {one.labels[0]: one.counts["tries"] for one in table.lines} == {RED: 4, BLUE: 1}
    assert table.placeless == 1
    families = lines(count(small, Ask(by="family")), "tries")
    # Kodokan: uchi-mata is a foot technique, morote-gari a hand technique; both are throws.
    assert families["ashi-waza",] == (3,)
    assert families["te-waza",] == (3,)
    assert families["nage-waza",] == (6,)


def test_sure_and_weighted_say_so(small: Archive) -> None:
    sure = count(small, Ask(by="technique", sure=0.6))
    assert lines(sure, *COLUMNS)["uchi-mata",] == (2, 0, 0, 0)
    assert (sure.rests_on, sure.left_out) == (5, 1)
    assert "at least 60 % sure" in sure.basis
    weighted = count(small, Ask(by="technique", weighted=True))
    assert lines(weighted, *COLUMNS)["uchi-mata",] == (2.5, 0.5, 0.5, 2)
    assert weighted.lines[0].rests_on == 3
    assert "weighted by its confidence" in weighted.basis
    assert "6 tries of 2 bouts in 2 recordings" in count(small, Ask(by="technique")).basis


def test_paths_end_in_what_was_brought(small: Archive) -> None:
    table = count(small, Ask(by="path"))
    assert lines(table, "tries", "of") == {
        ("grip:lapel", "uchi-mata", "4"): (1, 2),
        ("grip:lapel", "uchi-mata", "nothing"): (1, 2),
        ("grip:lapel", "double-leg", "nothing"): (1, 1),
        ("grip:belt", "double-leg", "nothing"): (1, 1),
    }
    assert table.placeless == 3
    # What is left out of the lines still counts in what the shares are of.
    assert not count(small, Ask(by="path", least=2)).lines


def test_when_scores_fall(small: Archive) -> None:
    """A shido brings nobody points here."""
    assert lines(count(small, Ask(by="scores")), "scores", "points") == {("1",): (7, 8), ("5",): (1, 4)}


def test_who_scores_first(small: Archive) -> None:
    table = count(small, Ask(by="first"))
    assert lines(table, "bouts", "won") == {
        ("all",): (3, 1), ("judo.2025",): (1, 0), ("sambo.sport.2020",): (2, 1)
    }  # fmt: skip
    assert lines(count(small, Ask(by="first", sure=0.7)), "bouts", "won")["all",] == (2, 0)
    assert lines(count(small, Ask(by="first", weighted=True)), "won")["all",] == pytest.approx((0.6,))
    assert lines(count(small, Ask(by="first", who="Destrow")), "bouts")["all",] == (1,)


def test_comebacks(small: Archive) -> None:
    """One: red was 2 behind and won, blue ended 2 behind. Two: red, 5 behind, lost. Three: both were."""
    table = count(small, Ask(by="comeback"))
    assert lines(table, "sides", "won") == {
        ("behind",): (5, 2), ("1",): (3, 1), ("2",): (3, 1), ("3",): (1, 0), ("4",): (1, 0), ("5",): (1, 0)
    }  # fmt: skip
    # Somebody who never scored is found as well.
    assert lines(count(small, Ask(by="comeback", who="Ilmar Destrow")), "sides")["behind",] == (3,)


def test_conditions(small: Archive) -> None:
    assert count(small, Ask(by="technique", what="te waza")).rests_on == 3
    assert count(small, Ask(by="technique", who="pennaluk")).rests_on == 1
    assert count(small, Ask(by="technique", who="nobody")).rests_on == 0
    assert count(small, Ask(by="scores", rules="judo.2025")).rests_on == 3
    assert count(small, Ask(by="technique", until="2026-05-08")).rests_on == 0
    assert count(small, Ask(by="technique", since="2026-05-09")).rests_on == 6
    with pytest.raises(QueryError):
        count(small, Ask(by="technique", what="xqzzw"))


def test_a_table_without_lines_is_a_table(small: Archive) -> None:
    assert as_csv(count(small, Ask(by="technique", who="nobody"))).count("\n") == 1


@pytest.fixture(scope="module")
def read(tmp_path_factory):
    """Recordings that went the whole path."""
    folder = tmp_path_factory.mktemp("counted")
    write(folder / "talk", 6, lines=45)
    with Archive.open(folder / "bouts.archive", write=True) as archive:
        keep_files(archive, (folder / "talk", SAMPLES))
        yield archive


def test_a_read_archive_recounted(read: Archive) -> None:
    """The tables by athlete and grip against every event looked at one by one."""
    people = dict(read.db.execute("SELECT id, name FROM people"))
    tried, held = Counter[str](), Counter[str]()
    for one in read.events():
        said = one.status in ("attempted", "completed", "failed") and one.head
        brought = one.gained is not None or one.gained_class is not None
        talk = one.status in ("recalled", "supposed", "described", "denied")
        if one.kind not in ("technique", "hold") or talk or not (said or brought):
            continue
        if one.person:
            tried[people[one.person]] += 1
        held.update(one.grips)
    assert sum(tried.values()) > 100
    athletes = count(read, Ask(by="athlete"))
    assert Counter({one.labels[0]: int(one.counts["tries"]) for one in athletes.lines}) == tried
    grips = count(read, Ask(by="grip"))
    assert Counter({one.keys[0]: int(one.counts["tries"]) for one in grips.lines}) == held


def test_lines_of_a_whole_add_up(read: Archive) -> None:
    """By technique, rules and minute everything stands in one line and one only."""
    for by in ("technique", "rules", "minute"):
        for weighted in (False, True):
            table = count(read, Ask(by=by, weighted=weighted))
            assert sum(one.rests_on for one in table.lines) == table.rests_on
            assert table.placeless == 0
            for one in table.lines:
                assert 0 <= one.counts["scored"] <= one.counts["completed"] <= one.counts["tries"]
                assert one.counts["tries"] <= one.rests_on + 1e-9
