"""Which words, rules and program a recording was read with, as short hashes: whether to read it again."""

import hashlib
from collections.abc import Iterator
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path

from pydantic import BaseModel

from hikite import __version__
from hikite.terms.places import lexicon_root

_STAGES = (
    "records", "transcripts", "utterances", "sounds", "terms", "mentions", "claims", "ledger", "process.py",
    "sheets.py", "outputs/records.py", "outputs/moments.py", "outputs/labels.py", "archive/derivations",
    "archive/parts.py", "archive/folding.py",
)  # fmt: skip


class Stamps(BaseModel, frozen=True, extra="forbid"):
    """What this program would read a recording with.

    ``tool`` is the version with a hash of the stages' own files; ``words`` hashes the lexicon without its
    rule sets. ``each`` hashes every rule set with the scoring habits it refers to, ``all_rules`` all of them:
    where no bout sheet names the rule set, any change may alter the choice.
    """

    tool: str
    words: str
    each: dict[str, str]
    all_rules: str

    def rules(self, ruleset: str | None) -> str:
        """The hash of what the bouts of a recording depend on, whose sheet names this rule set or none."""
        return self.all_rules if ruleset is None else self.each.get(ruleset, "")


def load_stamps(root: Traversable | None = None, aliases: tuple[Path, ...] = ()) -> Stamps:
    """The stamps of the installed program and of the lexicon under ``root``, the shipped one by default.

    ``aliases`` are files of corrected names that go with the words.
    """
    root = root or lexicon_root()
    rules = root / "rulesets"
    habits = _hash(rules / "actions")
    each = {
        file.name.removesuffix(".toml"): hashlib.sha256(file.read_bytes() + habits.encode()).hexdigest()[:16]
        for file in rules.iterdir()
        if file.name.endswith(".toml")
    }
    together = hashlib.sha256("".join(each[key] for key in sorted(each)).encode()).hexdigest()[:16]
    package = files("hikite")
    own = hashlib.sha256("".join(_hash(package / name) for name in _STAGES).encode()).hexdigest()[:12]
    return Stamps(
        tool=f"{__version__}+{own}",
        words=_with(_hash(root, skip=("rulesets", "examples.txt")), aliases),
        each=each,
        all_rules=together,
    )


def _with(words: str, aliases: tuple[Path, ...]) -> str:
    found = [file.read_bytes() for file in aliases if file.is_file()]
    return hashlib.sha256(words.encode() + b"\0".join(found)).hexdigest()[:16] if found else words


def _hash(folder: Traversable, skip: tuple[str, ...] = ()) -> str:
    if folder.is_file():
        return hashlib.sha256(folder.read_bytes()).hexdigest()[:16]
    whole = hashlib.sha256()
    for name, data in _contents(folder, "", skip):
        whole.update(f"{name}\0{len(data)}\0".encode())
        whole.update(data)
    return whole.hexdigest()[:16]


def _contents(folder: Traversable, above: str, skip: tuple[str, ...]) -> Iterator[tuple[str, bytes]]:
    for each in sorted(folder.iterdir(), key=lambda one: one.name):
        if each.name in skip or each.name == "__pycache__":
            continue
        if each.is_dir():
            yield from _contents(each, f"{above}{each.name}/", skip)
        else:
            yield above + each.name, each.read_bytes()
