"""How much of what a dataset holds, counted while it is written."""

from collections import Counter, defaultdict

from hikite.datasets.examples import Example
from hikite.datasets.plans import PARTS, Part


class Counts:
    """Sums by part, by kind and concept, and the versions that were met."""

    def __init__(self) -> None:
        self.sums: dict[Part, Counter[str]] = {part: Counter() for part in PARTS}
        self.kinds: dict[str, Counter[Part]] = defaultdict(Counter)
        self.concepts: dict[str, Counter[Part]] = defaultdict(Counter)
        self.versions: dict[str, Counter[str]] = {name: Counter() for name in ("tool", "lexicon", "rules")}
        self.formats: Counter[str] = Counter()
        self.titled = 0
        self.groups: set[int] = set()
        self.latest = ""

    def add(self, example: Example) -> None:
        """One more recording."""
        part, kept = example.part, example.kept
        self.sums[part].update(
            {
                "recordings": 1,
                "bouts": len(example.record.bouts),
                "milliseconds": kept.duration_ms,
                "words": len(example.recording.talk.tokens),
                "labels": len(example.entries),
                "checked": sum(entry.id in example.checked for entry in example.entries),
                "left out": sum(len(bout.entries) for bout in example.record.bouts) - len(example.entries),
            }
        )
        for entry in example.entries:
            self.kinds[entry.kind][part] += 1
            if not entry.generic and entry.kind in ("technique", "grip", "hold"):
                self.concepts[entry.concept][part] += 1
        for name, version in (("tool", kept.tool), ("lexicon", example.record.lexicon)):
            self.versions[name][version] += 1
        self.versions["rules"].update(bout.ruleset for bout in example.record.bouts)
        self.formats[kept.format] += 1
        self.titled += kept.title is not None
        self.groups.add(example.group)
        self.latest = max(self.latest, kept.kept_at)

    @property
    def empty(self) -> tuple[Part, ...]:
        """The parts without a recording."""
        return tuple(part for part in PARTS if not self.sums[part]["recordings"])
