"""Reading the rule-set files, strictly, and finding the one a bout was fought under."""

import math
import re
import tomllib
from collections import Counter
from collections.abc import Iterable
from datetime import date
from functools import lru_cache
from importlib.resources.abc import Traversable
from typing import TypeVar

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.ledger.rulebooks import Actions, Ruleset
from hikite.terms.kept import kept
from hikite.terms.places import lexicon_root

Model = TypeVar("Model", bound=BaseModel)

OWN, ALIEN, MISSED, SUPERSEDED, UNWORN = 1.0, -2.0, -1.0, -0.7, -8.0
"""Log weights: a word of one's own, a foreign word, an expected word unsaid, rules no longer in force, a
competitor in a colour that nobody wears under them."""


class Rulesets(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """All rule sets by key, with the scoring habits (``actions``) they refer to by name."""

    rulesets: dict[str, Ruleset]
    actions: dict[str, Actions]

    def __getitem__(self, key: str) -> Ruleset:
        """The rule set with this key; LexiconError names the keys there are."""
        try:
            return self.rulesets[key]
        except KeyError:
            raise LexiconError(f"no rule set {key!r}; there are {', '.join(sorted(self.rulesets))}") from None

    def in_force(self, day: date) -> tuple[Ruleset, ...]:
        """The rule sets that held on ``day``."""
        return tuple(
            rules
            for rules in self.rulesets.values()
            if (rules.since is None or rules.since <= day) and (rules.until is None or day <= rules.until)
        )

    def weigh(
        self, vocabulary: Iterable[str], day: date | None = None, worn: tuple[str, ...] = ()
    ) -> dict[str, float]:
        """P(rule set | the concepts, scores and side names heard, the day if known), best first.

        ``worn`` are colours that were said; sides heard may stand for competitors whose colour nobody says.
        """
        heard = set(vocabulary)
        held = {rules.key for rules in self.in_force(day)} if day else None
        unusual, logs = self._unusual_sides(), {}
        for key, rules in self.rulesets.items():
            words = rules.vocabulary
            logs[key] = MISSED * len(set(words.expected) - heard) - words.rare
            logs[key] += OWN * len(heard.intersection(words.own))
            logs[key] += ALIEN * len(heard.intersection(words.alien))
            logs[key] += UNWORN * len((heard & unusual).union(worn).difference(rules.sides))
            if held is not None:
                logs[key] += 0.0 if key in held else 4 * ALIEN
            elif rules.until is not None:
                logs[key] += SUPERSEDED
        top = max(logs.values())
        odds = {key: math.exp(value - top) for key, value in logs.items()}
        total = sum(odds.values())
        return {key: odds[key] / total for key in sorted(odds, key=lambda key: (-odds[key], key))}

    def _unusual_sides(self) -> set[str]:
        """The colours worn under less than half of the rule sets: red and blue stand for unsaid ones too."""
        worn = Counter(side for rules in self.rulesets.values() for side in rules.sides)
        return {side for side, count in worn.items() if 2 * count < len(self.rulesets)}


def load_rulesets(root: Traversable | None = None) -> Rulesets:
    """Every rule set of the lexicon (``root`` is its folder); LexiconError names file and line."""
    return _packaged() if root is None else _load(root)


@lru_cache(maxsize=1)
def _packaged() -> Rulesets:
    return kept("rulesets", "", Rulesets, lambda: _load(lexicon_root() / "rulesets"), {})


def _load(root: Traversable) -> Rulesets:
    rulesets, actions = {}, {}
    for file in sorted((root / "actions").iterdir(), key=lambda file: file.name):
        if file.name.endswith(".toml"):
            actions[file.name.removesuffix(".toml")] = _read(file, Actions)
    for file in sorted(root.iterdir(), key=lambda file: file.name):
        if not file.name.endswith(".toml"):
            continue
        rules = _read(file, Ruleset)
        if rules.key != file.name.removesuffix(".toml"):
            raise LexiconError(f"key {rules.key!r} is not the file's name", file=str(file), line=1)
        if rules.actions not in actions:
            raise LexiconError(f"no actions file {rules.actions!r}", file=str(file), line=1)
        rulesets[rules.key] = rules
    return Rulesets(rulesets=rulesets, actions=actions)


def _read(file: Traversable, model: type[Model]) -> Model:
    text = file.read_text("utf-8")
    try:
        return model.model_validate(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        found = re.search(r"line (\d+)", str(error))
        raise LexiconError(str(error), file=str(file), line=int(found[1]) if found else None) from None
    except ValidationError as error:
        first = error.errors()[0]
        problem = f"{'.'.join(map(str, first['loc']))}: {first['msg']}"
        raise LexiconError(problem, file=str(file), line=_line_of(text, first["loc"])) from None


def _line_of(text: str, place: tuple[int | str, ...]) -> int:
    """The line of a TOML text that a pydantic location points at (from 1); list rows stand one to a line."""
    lines, at, names = text.splitlines(), 0, ""
    for step in place:
        if isinstance(step, str):
            names = f"{names}.{step}" if names else step
            here = re.compile(rf"\s*\[{{1,2}}{re.escape(names)}\]|(.*[\s{{,])?{re.escape(step)}\s*=")
            at = next((n for n in range(at, len(lines)) if here.match(lines[n])), at)
        else:
            row = re.compile(rf"\s*\[\[{re.escape(names)}\]\]|\s+\{{")
            rows = [n for n in range(at, len(lines)) if row.match(lines[n])]
            at = rows[step] if step < len(rows) else at
    return at + 1
