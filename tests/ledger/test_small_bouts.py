"""Small bouts through the whole path, as written and as a recogniser without marks would write them."""

import re
from pathlib import Path

import pytest
from small_bouts import AFTER_THE_BELL, ANOTHER_GONG, BOUTS, Small

from hikite.process import load_lexicon, process
from hikite.records import Bout, Competitor, Sheet
from hikite.transcripts import read

LEXICON = load_lexicon()
A_LETTER_S, PAUSE_S = 0.07, 3.0


def captions(small: Small, marks: bool) -> str:
    """The talk as WebVTT, a caption a line."""
    said, at = ["WEBVTT", ""], 0.0
    for line in small.text.split("\n"):
        text = line if marks else re.sub(r"\s+", " ", re.sub(r"[^\w\s']", " ", line)).strip().lower()
        end = at + max(2.0, len(line) * A_LETTER_S)
        said += [f"{stamp(at)} --> {stamp(end)}", text, ""]
        at = end + PAUSE_S
    return "\n".join(said)


def stamp(seconds: float) -> str:
    minutes, rest = divmod(seconds, 60)
    return f"00:{int(minutes):02d}:{rest:06.3f}"


def kept(small: Small, file: Path) -> tuple[tuple[str, str], tuple[Bout, ...]]:
    sides = ("white", "blue") if small.rules.startswith("judo") else ("red", "blue")
    competitors = tuple(
        Competitor(side=side, name=name) for side, name in zip(sides, small.names, strict=True)
    )
    return sides, process(
        read(file), LEXICON, Sheet(competitors=competitors, ruleset=small.rules)
    ).ledger.bouts


def exact(small: Small, file: Path) -> bool:
    sides, bouts = kept(small, file)
    told = [
        {name: count for name, count in bouts[0].final[side].model_dump().items() if count} for side in sides
    ]
    wanted = [{name: count for name, count in one.items() if count} for one in small.final]
    return len(bouts) == 1 and told == wanted


# One in ten may be lost: the talk is loose on purpose.
@pytest.mark.parametrize("marks", [True, False], ids=["written", "recognised"])
def test_the_final_score_of_small_bouts(tmp_path: Path, marks: bool) -> None:
    right = []
    for number, small in enumerate(BOUTS):
        file = tmp_path / f"{number}.vtt"
        file.write_text(captions(small, marks), "utf-8")
        right.append(exact(small, file))
    lost = [number for number, one in enumerate(right) if not one]
    assert len(lost) <= len(BOUTS) // 10, f"lost: {lost}"


# What is said of her habits after the bell is no submission: the bout was over. Common practice, no source.
@pytest.mark.parametrize("marks", [True, False], ids=["written", "recognised"])
def test_nobody_gives_up_once_it_is_over(tmp_path: Path, marks: bool) -> None:
    file = tmp_path / "over.vtt"
    file.write_text(captions(AFTER_THE_BELL, marks), "utf-8")
    assert exact(AFTER_THE_BELL, file)


# A clock still running takes a gong back (common practice, no source); total victory wins whatever the score
# (rule sets' rows SE-01).
def test_another_mats_gong_ends_nothing(tmp_path: Path) -> None:
    file = tmp_path / "gong.vtt"
    file.write_text(captions(ANOTHER_GONG, marks=True), "utf-8")
    (bout,) = kept(ANOTHER_GONG, file)[1]
    assert (bout.result.winner, bout.result.by) == ("blue", "total-victory")
