"""How fast captions and recogniser output become words; run with ``pytest --benchmark-enable``."""

import json

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from hikite.transcripts import read
from hikite.transcripts.stamps import clock

SAID = "Haldreth peels it, circles, and now he's got number {0} on the Valdorran's left arm again."
CUES, WORDS = 2000, 16


def captions(voice: str) -> bytes:
    blocks = (
        f"{clock(n * 3000)} --> {clock(n * 3000 + 3000)}\n{voice}{SAID.format(n)}\n" for n in range(CUES)
    )
    return ("WEBVTT\n\n" + "\n".join(blocks)).encode()


def segments() -> bytes:
    return json.dumps(
        [
            {
                "start": n * 3,
                "end": n * 3 + 3,
                "text": SAID.format(n),
                "words": [
                    {
                        "word": f" {word}",
                        "start": n * 3 + at / 5,
                        "end": n * 3 + at / 5 + 0.2,
                        "probability": 0.9,
                    }
                    for at, word in enumerate(SAID.format(n).split())
                ],
            }
            for n in range(CUES)
        ]
    ).encode()


@pytest.mark.parametrize(
    "data", [captions(""), captions("<v A>"), segments()], ids=["webvtt", "webvtt-voices", "asr-json"]
)
def test_words_a_second(benchmark: BenchmarkFixture, data: bytes) -> None:
    transcript = benchmark(read, data)
    assert sum(len(cue.words) for cue in transcript.cues) == CUES * WORDS
    if benchmark.stats:
        benchmark.extra_info["words a second"] = round(CUES * WORDS / benchmark.stats["min"])
