"""The marked sentences of ``lexicon/<lang>/examples.txt``: ``he hits [uchi mata](uchi-mata) again``."""

import re
from dataclasses import dataclass
from pathlib import Path

LEXICON = Path(__file__).parents[1] / "lexicon"
_MARK = re.compile(r"\[([^\[\]]+)\]\(([^()\s]+)\)")


@dataclass(frozen=True)
class Marked:
    """Characters ``start`` to ``stop`` of the plain sentence name the concept."""

    start: int
    stop: int
    concept: str


@dataclass(frozen=True)
class Example:
    """One sentence without its marks, the line it stands on, and what is marked; no mark: nothing to find."""

    language: str
    line: int
    text: str
    marks: tuple[Marked, ...]


def read_examples(language: str, root: Path = LEXICON) -> tuple[Example, ...]:
    """Every sentence of a language's file; ValueError with the line where a bracket is no mark."""
    lines = (root / language / "examples.txt").read_text("utf-8").splitlines()
    return tuple(
        _example(language, number, line.strip())
        for number, line in enumerate(lines, 1)
        if line.strip() and not line.startswith("#")
    )


def languages(root: Path = LEXICON) -> tuple[str, ...]:
    """The languages that have names, sorted."""
    return tuple(sorted(file.parent.name for file in root.glob("*/terms.toml")))


def _example(language: str, number: int, line: str) -> Example:
    text, marks, at = "", [], 0
    for found in _MARK.finditer(line):
        text += line[at : found.start()]
        marks.append(Marked(len(text), len(text) + len(found[1]), found[2]))
        text += found[1]
        at = found.end()
    text += line[at:]
    if set("[]") & set(text):
        raise ValueError(f"{language}/examples.txt:{number}: a bracket that is no [words](concept)")
    return Example(language, number, text, tuple(marks))
