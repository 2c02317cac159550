"""Every code block of the documentation runs.

A ``console`` block is a session: each ``$ hikite …`` line is run from the project's top folder and must print
what stands below it; a line ``…`` stands for any number of lines left out. A ``python`` block is executed, a
``toml`` and a ``json`` block must parse.
"""

import json
import os
import re
import shlex
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
PAGES = [
    TOP / "README.md",
    TOP / "DEVELOPERS.md",
    TOP / "samples/README.md",
    *sorted((TOP / "docs").glob("*.md")),
]
BLOCK = re.compile(r"^```(\w+)[^\n]*\n(.*?)^```", re.MULTILINE | re.DOTALL)


def blocks(kind: str) -> Iterator[object]:
    for page in PAGES:
        if page.exists():
            for number, found in enumerate(BLOCK.finditer(page.read_text("utf-8"))):
                if found.group(1) == kind:
                    yield pytest.param(found.group(2), id=f"{page.name}-{number}")


def sessions(block: str) -> Iterator[tuple[str, list[str]]]:
    command, shown = "", []
    for line in block.splitlines():
        if line.startswith("$ "):
            if command:
                yield command, shown
            command, shown = line[2:], []
        else:
            shown.append(line.rstrip())
    if command:
        yield command, shown


def run(command: str) -> list[str]:
    words = shlex.split(command)
    assert words[0] == "hikite", f"only hikite is run from the docs, not {words[0]}"
    told = subprocess.run(
        [sys.executable, "-c", "from hikite.cli import run; run()", *words[1:]],
        cwd=TOP,
        env={**os.environ, "NO_COLOR": "1", "COLUMNS": "100"},
        capture_output=True,
        text=True,
        timeout=120,
    )
    return [line.rstrip() for line in (told.stdout + told.stderr).strip("\n").splitlines()]


def matches(shown: list[str], printed: list[str]) -> bool:
    """Whether the shown lines are the printed ones, ``…`` standing for any run of lines."""
    if not shown:
        return not printed
    if shown[0] == "…":
        return any(matches(shown[1:], printed[at:]) for at in range(len(printed) + 1))
    return bool(printed) and shown[0] == printed[0] and matches(shown[1:], printed[1:])


@pytest.mark.parametrize("block", list(blocks("console")))
def test_sessions_print_what_they_show(block: str) -> None:
    for command, shown in sessions(block):
        printed = run(command)
        while shown and not shown[-1]:
            shown.pop()
        assert matches(shown, printed), f"$ {command}\n" + "\n".join(printed)


@pytest.mark.parametrize("block", list(blocks("python")))
def test_python_blocks_run(block: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(TOP)
    exec(compile(block, "docs", "exec"), {"__name__": "docs"})


@pytest.mark.parametrize("block", list(blocks("toml")))
def test_toml_blocks_parse(block: str) -> None:
    assert tomllib.loads(block)


@pytest.mark.parametrize("block", list(blocks("json")))
def test_json_blocks_parse(block: str) -> None:
    assert json.loads(block) is not None


def test_the_documentation_has_sessions() -> None:
    """The tests above must have had something to run."""
    assert len(list(blocks("console"))) >= 3
    assert len(list(blocks("python"))) >= 1
