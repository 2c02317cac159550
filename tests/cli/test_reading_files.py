"""The main command: files in, records out; what is wrong is one line, and the rest is done all the same."""

import csv
import io
import json
import os
import shutil

import pytest

from hikite.cli.commands import To, worded
from hikite.outputs import FORMATS

BROKEN = b"WEBVTT\n\n00:00:0x.000 --> 00:00:02.000\nred throws\n"


def test_every_format_can_be_asked_for():
    assert {to.value for to in To} == {"sheet", *(form.name for form in FORMATS)}


WORDS = [
    (["a.vtt"], ["read", "a.vtt"]),
    (["--to", "csv", "a.vtt"], ["read", "--to", "csv", "a.vtt"]),
    (["-"], ["read", "-"]),
    (["read", "rules"], ["read", "rules"]),
    (["term", "uchi"], ["term", "uchi"]),
    (["--version"], ["--version"]),
    ([], []),
]


@pytest.mark.parametrize(("typed", "meant"), WORDS)
def test_the_verb_may_be_left_out(typed, meant):
    assert worded(typed) == meant


# A coach reads: who fought, who won and how surely, what happened when, what was said of it.
def test_the_sheet_without_a_terminal(hikite, samples):
    ran = hikite(samples / "final-79kg.vtt")
    assert ran.code == 0
    for part in (
        "Three Lighthouses Cup",
        "Ilmar Destrow",
        "wins",
        "time   clock",
        "uchi-mata",
        "“",
        "qualified",
    ):
        assert part in ran.out
    assert "\x1b" not in ran.out
    assert max(map(len, ran.out.splitlines())) <= 100
    assert ran.err == ""


@pytest.mark.parametrize("width", ["40", "60", "80", "120"])
def test_the_sheet_fits_its_width(hikite, samples, width, monkeypatch):
    monkeypatch.setattr(os, "get_terminal_size", lambda *_: os.terminal_size((int(width), 40)))
    monkeypatch.setattr(shutil, "get_terminal_size", lambda *_: os.terminal_size((int(width), 40)))
    ran = hikite(samples / "semi-final-57kg.ttml")
    assert max(map(len, ran.out.splitlines())) <= int(width)
    assert "Karrick" in ran.out


# Signs in captions must not steer the terminal that shows them.
def test_the_sheet_prints_no_control_signs(hikite, tmp_path):
    file = tmp_path / "a.vtt"
    file.write_text("WEBVTT\n\n00:01.000 --> 00:02.000\nRed throws with uchi-mata \x1b[2J now\n", "utf-8")
    (tmp_path / "a.vtt.sheet.toml").write_text('title = "Cup \\u001b[2J"\n', "utf-8")
    assert "\x1b" not in hikite(file).out


def test_all_shows_more(hikite, samples):
    few, all_ = (hikite(samples / "final-79kg.vtt", *more).out for more in ((), ("--all",)))
    assert len(all_.splitlines()) > len(few.splitlines())
    assert "--all" in few
    assert "--all" not in all_


def test_standard_input(hikite, samples):
    from_file = hikite(samples / "milo.txt", "--to", "jsonl", "--sheet", samples / "milo.txt.sheet.toml")
    from_input = hikite(
        "-",
        "--to",
        "jsonl",
        "--sheet",
        samples / "milo.txt.sheet.toml",
        given=(samples / "milo.txt").read_bytes(),
    )
    rows, same = ([json.loads(row) for row in ran.out.splitlines()] for ran in (from_file, from_input))
    assert rows
    assert [row | {"recording": ""} for row in rows] == [row | {"recording": ""} for row in same]


def test_several_files_are_one_table(hikite, samples):
    ran = hikite(samples / "milo.txt", samples / "final-79kg.vtt", "--to", "csv")
    rows = list(csv.DictReader(io.StringIO(ran.out, newline="")))
    assert {row["recording"] for row in rows} == {"milo.txt", "final-79kg.vtt"}
    assert ran.out.count("schema_version") == 1


@pytest.mark.parametrize(
    ("to", "suffix", "start"), [("chapters", ".chapters.vtt", "WEBVTT\n"), ("csv", ".csv", "recording,bout,")]
)
def test_a_folder_gets_a_file_each(hikite, samples, tmp_path, to, suffix, start):
    names = ["milo.txt", "final-79kg.vtt"]
    ran = hikite(*(samples / name for name in names), "--to", to, "--out", f"{tmp_path}/new/")
    assert (ran.code, ran.out) == (0, "")
    assert sorted(os.listdir(tmp_path / "new")) == sorted(f"{name}{suffix}" for name in names)
    for name in names:
        assert (tmp_path / "new" / f"{name}{suffix}").read_text("utf-8").startswith(start)


def test_one_file_is_written_to_a_name(hikite, samples, tmp_path):
    ran = hikite(samples / "milo.txt", "--out", tmp_path / "sheet.txt")
    assert (ran.code, ran.out, os.listdir(tmp_path)) == (0, "", ["sheet.txt"])
    assert "Threadgold" in (tmp_path / "sheet.txt").read_text("utf-8")


# One bad file is one line on standard error; the good ones are done, and the exit code tells.
def test_a_bad_file_does_not_stop_the_others(hikite, samples, tmp_path):
    bad = tmp_path / "bad.vtt"
    bad.write_bytes(BROKEN)
    ran = hikite(bad, samples / "milo.txt", tmp_path / "none.vtt", "--to", "jsonl")
    assert ran.code == 1
    assert {json.loads(row)["recording"] for row in ran.out.splitlines()} == {"milo.txt"}
    lines = ran.err.splitlines()
    assert len(lines) == 2
    assert lines[0].startswith(f"{bad}:3: ")
    assert lines[1].startswith(f"{tmp_path / 'none.vtt'}: ")


def test_a_bad_file_leaves_the_old_output(hikite, tmp_path):
    bad, old = tmp_path / "bad.vtt", tmp_path / "out.jsonl"
    bad.write_bytes(BROKEN)
    old.write_text("old")
    assert hikite(bad, "--to", "jsonl", "--out", old).code == 1
    assert old.read_text() == "old"
    assert sorted(os.listdir(tmp_path)) == ["bad.vtt", "out.jsonl"]


def test_a_bad_sheet_is_named(hikite, samples, tmp_path):
    sheet = tmp_path / "s.toml"
    sheet.write_text('title = "x"\nwho = "y"\n')
    ran = hikite(samples / "milo.txt", "--sheet", sheet)
    assert (ran.code, ran.err) == (1, f"{sheet}:2: unknown key who\n")


def test_mended_captions_are_reported(hikite, tmp_path):
    file = tmp_path / "a.vtt"
    file.write_text("WEBVTT\n\n00:05.000 --> 00:03.000\nRed throws with uchi-mata\n", "utf-8")
    ran = hikite(file, "--to", "jsonl")
    assert ran.code == 0
    assert ran.err.startswith(f"{file}:3: ")


def test_a_place_that_cannot_be_written(hikite, samples, tmp_path):
    (tmp_path / "file").write_text("")
    ran = hikite(samples / "milo.txt", "--out", tmp_path / "file" / "below.txt")
    assert ran.code == 1
    assert len(ran.err.splitlines()) == 1


# (the words, part of the message); every one is a usage error and nothing is written
USAGE = [
    (("{s}/milo.txt", "--rules", "judo.1999"), "judo.2025"),
    (("{s}/milo.txt", "{s}/final-79kg.vtt", "--to", "json"), "--out FOLDER/"),
    (("{s}/milo.txt", "{s}/final-79kg.vtt", "--to", "json", "--out", "{t}/file"), "is a file"),
    (("{s}/milo.txt", "{s}/milo.txt", "--to", "json", "--out", "{t}/"), "two recordings"),
    (("{s}/milo.txt", "{s}/final-79kg.vtt", "--sheet", "x.toml"), "one recording"),
    (("{t}/file", "--out", "{t}/file"), "is read from"),
    (("-", "-"), "once"),
    (("{s}/milo.txt", "--least", "7"), "--least"),
    (("{s}/milo.txt", "--to", "sonnet"), "--to"),
    (("explain", "{s}/milo.txt", "b9.9"), "b1.1"),
    (("rules", "judo.1999"), "judo.2025"),
    (("hints", "--rules", "judo.1999"), "judo.2025"),
]


@pytest.mark.parametrize(("words", "told"), USAGE)
def test_usage_errors(hikite, samples, tmp_path, words, told):
    (tmp_path / "file").write_text("x")
    ran = hikite(*(word.format(s=samples, t=tmp_path) for word in words))
    assert ran.code == 2
    assert told in " ".join(ran.err.split())
    assert os.listdir(tmp_path) == ["file"]
    assert (tmp_path / "file").read_text() == "x"


def test_the_rule_set_asked_for_is_used(hikite, samples):
    ran = hikite(samples / "final-79kg.vtt", "--to", "json", "--rules", "sambo.sport.legacy")
    assert json.loads(ran.out)["bouts"][0]["ruleset"] == "sambo.sport.legacy"


def test_least_is_heeded(hikite, samples):
    ran = hikite(samples / "final-79kg.vtt", "--to", "jsonl", "--least", "0.9")
    rows = [json.loads(row) for row in ran.out.splitlines()]
    assert rows
    assert all(row["counts"] or row["confidence"] >= 0.9 for row in rows)


# A fault of the tool is told in one line too, and the next recording is read.
def test_a_fault_of_the_tool(hikite, samples, monkeypatch):
    def fails(*_):
        raise ZeroDivisionError("by hand")

    monkeypatch.setattr("hikite.cli.reading.process", fails)
    ran = hikite(samples / "milo.txt", samples / "final-79kg.vtt")
    assert (ran.code, ran.out) == (1, "")
    assert [line.count("ZeroDivisionError: by hand") for line in ran.err.splitlines()] == [1, 1]
