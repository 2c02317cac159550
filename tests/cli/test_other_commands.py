"""The commands beside the main one, and the command as installed."""

import json
import os
import subprocess
import sys

import pytest

from hikite import __version__


def test_help_and_version(hikite):
    for words in (("--help",), ("-h",), ("read", "--help")):
        ran = hikite(*words)
        assert ran.code == 0
        assert "Exit codes" in ran.out
    assert hikite("--version").out == f"hikite {__version__}\n"


# --help must stay quick: nothing heavy may be imported for it.
def test_help_imports_nothing_heavy():
    code = (
        "import sys; sys.argv = ['hikite', '--help']\n"
        "from hikite.cli import run\n"
        "try: run()\n"
        "except SystemExit: pass\n"
        "heavy = {'numpy', 'pydantic', 'spacy', 'rapidfuzz', 'rich'} & set(sys.modules)\n"
        "sys.exit(', '.join(heavy) or 0)"
    )
    told = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, env=_env(), timeout=60
    )
    assert told.returncode == 0, told.stderr


def _env() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)}


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_is_offered(shell):
    env = {**_env(), "_HIKITE_COMPLETE": f"source_{shell}"}
    code = "import sys; sys.argv = ['hikite']; from hikite.cli import run; run()"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, env=env, timeout=60)
    assert "hikite" in told.stdout.lower()
    assert told.returncode == 0


# By id, by bare number and by time: from the words to the number.
@pytest.mark.parametrize("event", ["3:04", "b1.1", "1"])
def test_explain(hikite, samples, event):
    ran = hikite("explain", samples / "final-79kg.vtt", event)
    assert ran.code == 0
    assert "how sure" in ran.out
    assert "cue " in ran.out
    assert "referee" in ran.out


def test_explain_a_score_down_to_its_rule(hikite, samples):
    record = json.loads(hikite(samples / "final-79kg.vtt", "--to", "json").out)
    score = next(e for e in record["bouts"][0]["entries"] if e["counts"] and e["row"])
    ran = hikite("explain", samples / "final-79kg.vtt", score["id"])
    assert f"rule {score['row']}" in ran.out
    assert score["quotes"][0]["words"] in " ".join(ran.out.split())


def test_term(hikite):
    ran = hikite("term", "ooch", "ee", "matter")
    assert ran.code == 0
    for part in (
        "uchi-mata",
        "by sound",
        "内股",
        "подхват изнутри",
        "heard as",
        "sounds like",
        "no instruction",
    ):
        assert part in ran.out


# What injures is looked up with its caution.
@pytest.mark.parametrize(("words", "cautioned"), [("heel hook", True), ("uchi-mata", False)])
def test_term_caution(hikite, words, cautioned):
    assert ("qualified coach" in hikite("term", words).out) == cautioned


def test_term_unknown(hikite):
    ran = hikite("term", "the", "weather", "is", "nice")
    assert (ran.code, ran.out) == (1, "")
    assert "nothing in the lexicon" in ran.err


def test_hints(hikite):
    names = hikite("hints", "--rules", "judo.2025", "--count", "20").out.splitlines()
    assert len(names) == 20
    assert "uchi mata" in names


def test_rules(hikite):
    assert "judo.2025" in hikite("rules").out
    ran = hikite("rules", "sambo.sport.2020")
    assert ran.code == 0
    for part in ("SM-01", "published", "PENZA", "The rule book in force and the referee decide"):
        assert part in ran.out


@pytest.mark.parametrize(("words", "title"), [((), "Entry"), (("--document",), "BoutRecord")])
def test_schema(hikite, words, title):
    assert json.loads(hikite("schema", *words).out)["title"] == title


def test_evaluate_keeps_and_compares(hikite, samples, tmp_path):
    gold, kept = samples / "milo.gold.json", tmp_path / "run.json"
    first = hikite("evaluate", gold, "--save", kept)
    assert first.code == 0
    assert "1 recordings" in first.out
    again = hikite("evaluate", gold, "--against", kept)
    assert again.code == 0
    assert len(again.out) > len(first.out)


def test_evaluate_errors_are_one_line(hikite, tmp_path, samples):
    (tmp_path / "kept.json").write_text("{}")
    for words in ((tmp_path,), (samples / "milo.gold.json", "--against", tmp_path / "kept.json")):
        ran = hikite("evaluate", *words)
        assert (ran.code, ran.out, len(ran.err.splitlines())) == (1, "", 1)
