"""Kappa against published worked examples, F1 against its definition, both on decisions in an archive."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hikite.archive.anchors import anchor_of
from hikite.archive.decisions import Anchor, Change, decide
from hikite.archive.errors import ArchiveError
from hikite.datasets.agreements import agreement_of, f1, kappa


def pairs(both_yes, yes_no, no_yes, both_no):
    cells = (
        (("yes", "yes"), both_yes),
        (("yes", "no"), yes_no),
        (("no", "yes"), no_yes),
        (("no", "no"), both_no),
    )
    return [pair for pair, count in cells for _ in range(count)]


# A. J. Viera, J. M. Garrett, Understanding interobserver agreement: the kappa statistic, Family Medicine 37
# (2005), 360-363, table 1: 15, 5, 10, 70 of 100; observed .85, expected .65, kappa .57 (quoted from memory).
# 20, 5, 10, 15 of 50: observed .7, expected .5, kappa .4 (the usual example of textbooks, no source).
@pytest.mark.parametrize(
    ("cells", "expected"),
    [((15, 5, 10, 70), 0.5714), ((20, 5, 10, 15), 0.4), ((10, 0, 0, 10), 1.0), ((0, 10, 10, 0), -1.0)],
)
def test_kappa_of_published_tables(cells, expected):
    assert kappa(pairs(*cells)) == pytest.approx(expected, abs=5e-5)


def test_kappa_where_there_is_none():
    assert kappa([]) is None
    assert kappa([("yes", "yes")] * 5) is None


# More than two verdicts. J. Cohen, Weighted kappa, Psychological Bulletin 70 (1968), 213-220, table 1: shares
# of 200, unweighted kappa .492 (table and value as quoted in the examples of cohen.kappa in the R package
# psych). SAS/STAT User's Guide, The FREQ Procedure, Agreement Study: the skin conditions; the table from
# there, its kappa .3449 from memory.
@pytest.mark.parametrize(
    ("table", "expected"),
    [
        (((88, 14, 18), (10, 40, 10), (2, 6, 12)), 0.492),
        (((10, 4, 1, 0), (5, 10, 12, 2), (2, 4, 12, 5), (0, 2, 6, 13)), 0.3449),
    ],
)
def test_kappa_of_published_tables_with_more_verdicts(table, expected):
    judged = [
        ("abcd"[row], "abcd"[column])
        for row, counts in enumerate(table)
        for column, count in enumerate(counts)
        for _ in range(count)
    ]
    assert kappa(judged) == pytest.approx(expected, abs=5e-4)


# Whose verdict comes first is no matter, nor what the verdicts are called; it is 1 only where all agree.
@given(st.lists(st.tuples(*[st.sampled_from("abcd")] * 2), min_size=1, max_size=60))
def test_kappa_is_even_handed(judged):
    found = kappa(judged)
    turned = kappa([(other, one) for one, other in judged])
    renamed = kappa([(one.swapcase(), other.swapcase()) for one, other in judged])
    if found is None:
        assert (turned, renamed) == (None, None)
    else:
        assert (turned, renamed) == (pytest.approx(found), pytest.approx(found))
        assert (found == pytest.approx(1)) == all(one == other for one, other in judged)


# P = 2/3, R = 2/4: F1 = 2PR/(P+R) = 4/7 (C. J. van Rijsbergen, Information Retrieval, 1979, weights equal).
@pytest.mark.parametrize(
    ("ones", "others", "expected"),
    [("abc", "bcde", 4 / 7), ("abc", "abc", 1.0), ("abc", "de", 0.0), ("", "a", 0.0), ("", "", None)],
)
def test_f1(ones, others, expected):
    assert f1(ones, others) == (None if expected is None else pytest.approx(expected))
    assert f1(others, ones) == f1(ones, others)


def throws(archive):
    return [event for event in archive.events() if event.kind == "technique" and not event.counts]


def test_two_reviewers(own):
    first, second, third, fourth, *_ = [event.id for event in throws(own) if event.side]
    for event, ones, others in (
        (first, ("accept", None), ("accept", None)),
        (second, ("accept", None), ("correct", Change(concept="o-goshi"))),
        (third, ("reject", None), ("reject", None)),
        (fourth, ("accept", None), None),
    ):
        decide(own, "Odrun", ones[0], anchor_of(own, event), ones[1])
        if others:
            decide(own, "Perin", others[0], anchor_of(own, event), others[1])
    told = agreement_of(own, "Odrun", "Perin")
    facets = {facet.name: facet for facet in told.facets}
    assert (facets["verdict"].judged, facets["verdict"].same) == (3, pytest.approx(2 / 3))
    # By hand: observed 2/3; Odrun 2 accept 1 reject, Perin 1 accept 1 correct 1 reject: expected (2 + 1)/9.
    assert facets["verdict"].kappa == pytest.approx((2 / 3 - 1 / 3) / (1 - 1 / 3))
    assert (facets["concept"].judged, facets["concept"].same) == (2, 0.5)
    assert facets["status"].same == facets["side"].same == 1.0
    # Two stand with each, one of them the same.
    assert told.spans_f1 == told.whole_f1 == pytest.approx(2 * 1 / (2 + 2))


# What one adds and the other does not is a miss; what both add at nearly the same time is one thing.
def test_additions(own):
    sha = own.recording(1).sha256
    added = Change(kind="technique", concept="o-goshi", side="red")
    for reviewer, times in (("Odrun", (61_000, 90_000)), ("Perin", (62_900,))):
        for at_ms in times:
            decide(own, reviewer, "add", Anchor(sha256=sha, at_ms=at_ms), added)
    decide(own, "Perin", "add", Anchor(sha256=sha, at_ms=90_500), added.model_copy(update={"side": "blue"}))
    told = agreement_of(own, "Odrun", "Perin")
    assert (told.spans_f1, told.whole_f1) == (1.0, 0.5)


def test_nobody_to_compare(own):
    decide(own, "Odrun", "accept", anchor_of(own, throws(own)[0].id))
    with pytest.raises(ArchiveError, match="Perin"):
        agreement_of(own, "Odrun", "Perin")
