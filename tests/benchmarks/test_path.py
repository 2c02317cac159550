"""How fast the whole path and its stages run: ``pytest tests/benchmarks --benchmark-enable``.

Nothing is asserted about time. A round is every sample read on one core, the lexicon loaded and its index
built beforehand; ``words`` in the extra information divides into the times. Machines differ: compare within
one run.
"""

from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from hikite.claims import hear
from hikite.ledger import keep
from hikite.mentions import find_mentions
from hikite.process import Lexicon, load_lexicon, process
from hikite.records import Sheet, Transcript
from hikite.transcripts import read
from hikite.utterances import cut

SAMPLES = sorted(
    path
    for path in (Path(__file__).parents[2] / "samples").iterdir()
    if path.suffix in (".vtt", ".srt", ".ttml", ".ctm", ".txt", ".json") and ".gold" not in path.name
)


@pytest.fixture(scope="module")
def lexicon() -> Lexicon:
    loaded = load_lexicon()
    process(read(SAMPLES[0]), loaded)
    return loaded


@pytest.fixture(scope="module")
def transcripts() -> list[Transcript]:
    return [read(path) for path in SAMPLES]


def words(transcripts: list[Transcript]) -> int:
    return sum(len(cue.words) for said in transcripts for cue in said.cues)


def test_whole_path(benchmark: BenchmarkFixture, lexicon: Lexicon, transcripts: list[Transcript]) -> None:
    benchmark.extra_info["words"] = words(transcripts)
    records = benchmark(lambda: [process(said, lexicon) for said in transcripts])
    assert len(records) == len(SAMPLES)


@pytest.mark.parametrize("stage", ["read", "cut", "mentions", "claims", "ledger"])
def test_stage(
    benchmark: BenchmarkFixture, lexicon: Lexicon, transcripts: list[Transcript], stage: str
) -> None:
    benchmark.extra_info["words"] = words(transcripts)
    talks = [cut(said) for said in transcripts]
    named = [(talk, find_mentions(talk, lexicon.terms)) for talk in talks]
    heard = [hear(talk, mentions, lexicon.terms, Sheet()) for talk, mentions in named]
    runs = {
        "read": lambda: [read(path) for path in SAMPLES],
        "cut": lambda: [cut(said) for said in transcripts],
        "mentions": lambda: [find_mentions(talk, lexicon.terms) for talk in talks],
        "claims": lambda: [hear(talk, mentions, lexicon.terms, Sheet()) for talk, mentions in named],
        "ledger": lambda: [keep(testimony, lexicon.rulesets) for testimony in heard],
    }
    assert len(benchmark(runs[stage])) == len(SAMPLES)
