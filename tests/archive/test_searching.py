"""Searching: every condition means what it says, whichever way it is come to."""

import csv
import io
import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from archive_oracle import Oracle
from commentaries import GRIPS, NATIONS, THROWS, write
from hikite.archive import Archive, Query, search
from hikite.archive.errors import QueryError
from hikite.archive.keeping import keep_files
from hikite.archive.searches import candidates
from hikite.archive.searches.expressions import read_expression
from hikite.archive.searches.hitlists import as_addresses, as_captions, as_csv, as_json, by_recording
from hikite.archive.searches.hits import moment_link
from hikite.archive.searches.namings import naming
from hikite.archive.searches.queries import Conditions, Link
from hikite.transcripts import read

SAMPLES = Path(__file__).parents[2] / "samples"


@pytest.fixture(scope="module")
def archive(tmp_path_factory):
    folder = tmp_path_factory.mktemp("searched")
    write(folder / "talk", 14, lines=45)
    with Archive.open(folder / "bouts.archive", write=True) as opened:
        keep_files(opened, (folder / "talk", SAMPLES))
        yield opened


@pytest.fixture(scope="module")
def oracle(archive):
    return Oracle(archive)


def maybe(values):
    return st.none() | values


SIDES = st.sampled_from(("red", "blue", "white"))
STATUSES = st.sampled_from(("completed", "failed", "attempted", "taken", "given", "recalled", "running"))
STEPS = {
    "what": st.lists(st.sampled_from((*THROWS, "foot technique", "throw", "ashi-waza", "grip")), max_size=2),
    "kinds": st.lists(st.sampled_from(("technique", "grip", "score", "hold", "penalty")), max_size=2),
    "status": st.lists(STATUSES, max_size=2),
    "side": maybe(SIDES),
    "holding": st.lists(
        st.sampled_from(("belt grip", "sleeve and lapel", "collar tie", GRIPS[2])), max_size=1
    ),
    "scored": maybe(st.booleans()),
    "standing": maybe(st.sampled_from(("leading", "level", "behind"))),
    "told": st.booleans(),
    "sure": maybe(st.sampled_from((0.3, 0.8))),
}
RARER = {
    "by": maybe(st.sampled_from(("vosk", "Ilmar", "destrow ilmar"))),
    "against": maybe(st.sampled_from(("Pennaluk", "ke"))),
    "nation": maybe(st.sampled_from(NATIONS)),
    "points": maybe(st.sampled_from((1, 2, 4))),
    "margin_least": maybe(st.integers(0, 4)),
    "margin_most": maybe(st.integers(0, 4)),
    "clock_from_s": maybe(st.integers(0, 200)),
    "clock_to_s": maybe(st.integers(60, 300)),
    "golden": maybe(st.booleans()),
    "attempt": maybe(st.integers(1, 3)),
    "said": st.lists(
        st.sampled_from(("nothing there", "two points", "the", "Vosk", "over the chest")), max_size=1
    ),
}
BESIDES = {
    "ruleset": maybe(st.sampled_from(("sambo.sport.2020", "judo.2025"))),
    "event": maybe(st.sampled_from(("cup", "Saltmarsh", "lighthouses three"))),
    "since": maybe(st.just("2018-01-01")),
    "until": maybe(st.just("2024-06-30")),
}


def some(fields, most):
    """A few of the conditions, so that not everything is ruled out."""
    return st.lists(st.sampled_from(sorted(fields)), max_size=most, unique=True).flatmap(
        lambda names: st.fixed_dictionaries({name: fields[name] for name in names})
    )


def tupled(values):
    return {name: tuple(value) if isinstance(value, list) else value for name, value in values.items()}


steps = some(STEPS, 3).map(tupled).map(lambda values: Conditions(**values))
links = st.builds(
    Link,
    relation=st.sampled_from(("after", "before")),
    step=steps,
    within_s=maybe(st.sampled_from((4.0, 15.0))),
    whose=maybe(st.sampled_from(("same", "other"))),
)
queries = st.builds(
    lambda values, but_not, ties: Query(
        **tupled(values), but_not=tuple(but_not), links=tuple(ties), limit=10_000
    ),
    some(STEPS | RARER | BESIDES, 4),
    st.lists(
        steps.filter(lambda step: bool(step.model_dump(exclude_defaults=True, exclude={"told"}))), max_size=1
    ),
    st.lists(links, max_size=1),
)


@settings(max_examples=150)
@given(query=queries)
def test_finds_what_looking_at_every_event_finds(archive, oracle, query) -> None:
    if query.of_talk:
        return
    assert [hit.id for hit in search(archive, query).hits] == oracle.found(query)


@settings(max_examples=60)
@given(query=queries, most=st.sampled_from((0, 3, 40, 4_000)), way=st.integers(0, 30))
def test_in_a_large_archive_too(archive, oracle, query, most, way) -> None:
    """Whichever way is taken, and with hardly any room to gather hits, as if there were millions."""
    if query.of_talk or query.said:
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(candidates, "MOST", most)
        patch.setattr(candidates, "cheapest", lambda ways: ways[way % len(ways)])
        found = search(archive, query.model_copy(update={"limit": 7, "skip": 2}))
    expected = oracle.found(query)
    assert [hit.id for hit in found.hits] == expected[2:9]
    assert found.total == (len(expected) if len(expected) <= most else None)


# Names: any tradition, a family, several meanings, garbles; and what means nothing.
@pytest.mark.parametrize(
    ("asked", "how", "holds", "lacks"),
    [
        ("uchi-mata", "name", "uchi-mata", "o-goshi"),
        ("Inner Thigh", "name", "uchi-mata", "o-goshi"),
        ("подхват", "name", "podkhvat", "o-goshi"),
        ("foot technique", "name", "o-soto-gari", "seoi-nage"),
        ("ashi waza", "name", "foot-sweep", "seoi-nage"),
        ("ucchi motta", "by sound", "uchi-mata", "o-goshi"),
    ],
)
def test_names(archive, asked: str, how: str, holds: str, lacks: str) -> None:
    found = naming(archive, asked)
    assert found.how == how
    assert holds in found.meant
    assert lacks not in found.meant


@pytest.mark.parametrize("asked", ["zzkw", "!", ""])
def test_names_of_nothing(archive, asked: str) -> None:
    with pytest.raises(QueryError, match="no name"):
        search(archive, Query(what=(asked,)))


@pytest.mark.parametrize(
    ("query", "why"),
    [
        (Query(said=("…",)), "no word"),
        (Query(by="?"), "no name"),
        # Misspelt, whole or in part; nobody alike; a nation; a title.
        (Query(by="Vozk"), "nobody here is called 'Vozk'; did you mean .* Vosk"),
        (Query(side="red", but_not=(Conditions(against="Dextrow"),)), "did you mean .* Destrow"),
        (Query(against="Zzyzx"), "nobody here is called 'Zzyzx'$"),
        (Query(nation="Tallow Ile"), "nobody here fights for 'Tallow Ile'; did you mean Tallow Isle"),
        # A word begins where one in the title does: there are cups and a cupboard.
        (Query(event="up", side="red"), "no recording here has"),
        (Query(what=("thow",)), "did you mean throw"),
        (Query(side="red", but_not=(Conditions(),)), "nothing"),
        (Query(ruleset="judo.1066", side="red"), "there are"),
        (Query(event="-", side="red"), "no word"),
        (Query(since="2026-02-31", side="red"), "no day"),
    ],
)
def test_what_cannot_be_asked(archive, query: Query, why: str) -> None:
    with pytest.raises(QueryError, match=why):
        search(archive, query)


def test_words_alone_find_statements(archive) -> None:
    found = search(archive, Query(said=("nothing comes of it",), limit=10_000))
    texts = [text for (text,) in archive.db.execute("SELECT text FROM talk")]
    assert len(found.hits) == sum("nothing comes of it" in text for text in texts) > 0
    assert all(hit.entry is None and "nothing comes of it" in hit.statement for hit in found.hits)


@pytest.mark.parametrize(
    "words", ['" OR "', "x* NOT y", "a AND", "NEAR(a b)", "text:a", "'; DROP TABLE events --"]
)
def test_words_are_words_and_nothing_else(archive, words: str) -> None:
    search(archive, Query(said=(words,)))
    for asked in (Query(by=words), Query(nation=words), Query(event=words, side="red")):
        with pytest.raises(QueryError, match=r"here"):
            search(archive, asked)


# W3C Media Fragments URI 1.0 (basic), section 4.2.1: `#t=begin,end` in normal play time, end after begin;
# 4.1: name=value pairs joined by `&`. The lead of three seconds is ours.
@pytest.mark.parametrize(
    ("address", "start", "end", "link"),
    [
        ("https://example.org/bout.mp4", 10_000, 12_500, "https://example.org/bout.mp4#t=7,12.5"),
        ("https://example.org/b?id=7", 1_000, 2_000, "https://example.org/b?id=7#t=0,2"),
        ("a.webm#track=commentary", 63_123, 64_000, "a.webm#track=commentary&t=60.123,64"),
        ("a.webm#t=5", 5_000, 5_000, "a.webm#t=2,5.001"),
    ],
)
def test_addresses(address: str, start: int, end: int, link: str) -> None:
    assert moment_link(address, start, end) == link


def test_hits_as_files(archive) -> None:
    query = Query(what=("throw",), side="red", limit=10_000)
    found = search(archive, query)
    assert len(found.hits) > 3
    assert json.loads(as_json(found, query))["total"] == len(found.hits)
    rows = list(csv.DictReader(io.StringIO(as_csv(found), newline="")))
    assert [row["entry"] for row in rows] == [hit.entry for hit in found.hits]
    assert as_addresses(found).splitlines() == [hit.link for hit in found.hits]
    for hits in by_recording(found):
        # Our own reader, and in tests/transcripts that is held against webvtt-py.
        captions = read(as_captions(hits).encode())
        assert [cue.start_ms for cue in captions.cues] == sorted(hit.start_ms for hit in hits)
        assert not [m for m in captions.mendings if "overlap" not in m.problem]


# What is written, and the query it means.
@pytest.mark.parametrize(
    ("text", "query"),
    [
        ("uchi-mata", Query(what=("uchi-mata",))),
        ("inner thigh or hip throw by blue", Query(what=("inner thigh", "hip throw"), side="blue")),
        ("throw by Ilmar Destrow for Tallow Isle", Query(
            what=("throw",), by="Ilmar Destrow", nation="Tallow Isle")),
        ("completed or", None),
        ("throw completed failed", Query(what=("throw",), status=("completed", "failed"))),
        ("throw when behind by 2 or more", Query(what=("throw",), standing="behind", margin_least=2)),
        ("throw when behind by Destrow", Query(what=("throw",), standing="behind", by="Destrow")),
        ("when leading by 1 to 3", Query(standing="leading", margin_least=1, margin_most=3)),
        ("when level clock under 1:00", Query(standing="level", clock_to_s=60)),
        ("clock 0:30 to 1:30", Query(clock_from_s=30, clock_to_s=90)),
        ("clock golden scored", Query(golden=True, scored=True)),
        ("worth 4 try 2 sure 80%", Query(points=4, attempt=2, sure=0.8)),
        ("worth waza-ari under judo.2018", Query(score_class="waza-ari", ruleset="judo.2018")),
        ("said “over he goes” at Harbour Belt", Query(said=("over he goes",), event="Harbour Belt")),
        ("throw not foot sweep not by red", Query(
            what=("throw",), but_not=(Conditions(what=("foot sweep",)), Conditions(side="red")))),
        ("ura nage within 10 s after bear hug by same", Query(what=("ura nage",), links=(
            Link(relation="after", within_s=10, whose="same", step=Conditions(what=("bear hug",))),))),
        ("throw before hold within 2 min before end", Query(what=("throw",), links=(
            Link(relation="before", step=Conditions(what=("hold",))),
            Link(relation="before", within_s=120, step=Conditions(what=("end",)))))),
        ("on 2026-05-09, kind grip or hold", Query(
            since="2026-05-09", until="2026-05-09", kinds=("grip", "hold"))),
        # A known name may hold a word that opens a clause, but not end or begin with it.
        ("arm under the armpit by red", Query(what=("arm under the armpit",), side="red")),
        ("throw by red", Query(what=("throw",), side="red")),
        ('"throw by" by red', Query(what=("throw by",), side="red")),
    ],
)  # fmt: skip
def test_expressions(archive, text: str, query: Query | None) -> None:
    known = {"arm under the armpit", "throw by"}
    if query is None:
        with pytest.raises(QueryError):
            read_expression(text, known.__contains__)
    else:
        assert read_expression(text, known.__contains__) == query


# What is wrong, and the column it stands in, from 1.
@pytest.mark.parametrize(
    ("text", "column"),
    [
        ("", 1),
        ("uchi-mata by", 13),
        ("uchi-mata by red by blue", 18),
        ("throw clock 9", 13),
        ("throw within 10 s", 18),
        ("throw within 10 after hold", 14),
        ("throw after", 12),
        ("throw after hold since 2026-01-01", 13),
        ("throw not", 10),
        ("throw not since 2026-01-01", 7),
        ("throw when winning", 12),
        ("throw when behind by 1 to many", 27),
        ("throw try two", 11),
        ("throw sure 101", 12),
        ("throw since yesterday", 13),
        ("or throw", 1),
        ('say "that', 5),
        ("throw by same", 1),
        ("kind throw", 6),
    ],
)
def test_expressions_that_mean_nothing(text: str, column: int) -> None:
    with pytest.raises(QueryError) as refused:
        read_expression(text)
    assert refused.value.column == column


WORDS = (
    "throw",
    "by",
    "red",
    "not",
    "or",
    "after",
    "within",
    "10",
    "s",
    "when",
    "behind",
    "clock",
    "1:00",
    '"a',
)


@given(text=st.text(max_size=60) | st.lists(st.sampled_from(WORDS), max_size=12).map(" ".join))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        query = read_expression(text)
    except QueryError as error:
        query, refused = None, error
    assert query is not None or 1 <= (refused.column or 1) <= len(text) + 1
