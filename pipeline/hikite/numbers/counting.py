"""The tables: entries sorted into lines and summed."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable

from hikite.archive import Archive
from hikite.numbers.asking import Ask
from hikite.numbers.bouts import comebacks, first_scores
from hikite.numbers.kinship import Kinship
from hikite.numbers.rates import wilson
from hikite.numbers.tables import Line, Table
from hikite.numbers.tries import Try, scores, tries

Place = tuple[tuple[str, ...], tuple[str, ...]]
"""Keys and labels of a line."""
Places = Callable[[Try], Iterable[Place]]


def count(archive: Archive, ask: Ask) -> Table:
    """The table that was asked for, from one state of the archive; QueryError where a name means nothing."""
    with archive.looking():
        if ask.by == "first":
            return first_scores(archive, ask)
        if ask.by == "comeback":
            return comebacks(archive, ask)
        kinship = Kinship(archive)
        if ask.by == "path":
            return _paths(archive, ask, kinship)
        if ask.by == "scores":
            return _Sums(ask, _minute, "lines of the score", ("minute",)).of(scores(archive, ask))
        return _Sums(ask, _places(ask, kinship), "tries", (ask.by,)).of(tries(archive, ask))


def sureness(one: Try, ask: Ask) -> float:
    """How sure an entry is in what the table needs of it: that it was, how it went, whose, under what rules.

    The several confidences are taken for independent.
    """
    sure = one.confidence * one.status_confidence
    if ask.by in ("athlete", "grip", "path") or ask.who is not None:
        sure *= one.side_confidence
    if ask.by == "rules" or ask.rules is not None:
        sure *= one.ruleset_confidence
    return sure


def _places(ask: Ask, kinship: Kinship) -> Places:
    ways: dict[str, Places] = {
        "technique": lambda one: [((kinship.one(one.concept),), (kinship.label(one.concept),))],
        "family": lambda one: [((each,), (kinship.label(each),)) for each in kinship.families(one.concept)],
        "athlete": lambda one: [((str(one.person),), (one.name or "",))] if one.person else [],
        "grip": lambda one: [((grip,), (kinship.label(grip),)) for grip in _grips(one)],
        "rules": lambda one: [((one.ruleset,), (one.ruleset,))],
        "minute": _minute,
    }
    return ways[ask.by]


def _minute(one: Try) -> list[Place]:
    at = one.minute
    return [((str(at[0]),), (at[1],))] if at else []


def _grips(one: Try) -> list[str]:
    return [grip for grip in one.grips.split("|") if grip]


class _Line:
    """One line as it is summed."""

    def __init__(self) -> None:
        self.labels: Counter[tuple[str, ...]] = Counter()
        self.rests_on = 0
        self.tries = self.completed = self.scored = self.points = 0.0

    def add(self, one: Try, labels: tuple[str, ...], weight: float) -> None:
        self.labels[labels] += 1
        self.rests_on += 1
        self.tries += weight
        self.completed += weight * one.completed
        self.scored += weight * one.scored
        self.points += weight * (one.points or 0)

    def line(self, keys: tuple[str, ...], only_scores: bool) -> Line:
        # Of several names for the same the one that is said most.
        labels = min(self.labels, key=lambda each: (-self.labels[each], each))
        if only_scores:
            counts = {"scores": self.scored, "points": self.points}
            return Line(keys=keys, labels=labels, rests_on=self.rests_on, counts=counts, rates={})
        return Line(
            keys=keys, labels=labels, rests_on=self.rests_on,
            counts={
                "tries": self.tries, "completed": self.completed, "scored": self.scored,
                "points": self.points,
            },
            rates={
                "completed": wilson(self.completed, self.tries), "scored": wilson(self.scored, self.tries)
            },
        )  # fmt: skip


class _Sums:
    """One table as it is summed."""

    def __init__(self, ask: Ask, places: Places, unit: str, names: tuple[str, ...]) -> None:
        self.ask, self.places, self.unit, self.names = ask, places, unit, names
        self.lines: dict[tuple[str, ...], _Line] = defaultdict(_Line)
        self.rests_on = self.left_out = self.placeless = 0
        self.bouts: set[int] = set()
        self.recordings: set[int] = set()

    def of(self, entries: Iterable[Try]) -> Table:
        """The table of these entries."""
        for one in entries:
            self._add(one, sureness(one, self.ask))
        lines = [
            line.line(keys, self.ask.by == "scores")
            for keys, line in self.lines.items()
            if line.rests_on >= self.ask.least
        ]
        return Table(
            ask=self.ask, unit=self.unit, names=self.names, lines=tuple(sorted(lines, key=self._order)),
            rests_on=self.rests_on, left_out=self.left_out, placeless=self.placeless,
            bouts=len(self.bouts), recordings=len(self.recordings),
            overlapping=self.ask.by in ("family", "grip", "path"),
        )  # fmt: skip

    def _add(self, one: Try, sure: float) -> None:
        if sure < self.ask.sure:
            self.left_out += 1
            return
        self.rests_on += 1
        self.bouts.add(one.bout)
        self.recordings.add(one.recording)
        places = list(self.places(one))
        self.placeless += not places
        for keys, labels in places:
            self.lines[keys].add(one, labels, sure if self.ask.weighted else 1.0)

    def _order(self, line: Line) -> tuple[float, tuple[str, ...]]:
        """Minutes as they pass, all else by how much there is of it."""
        if self.ask.by in ("minute", "scores"):
            return float(line.keys[0]), line.keys
        return -line.counts["tries"], line.keys


def _paths(archive: Archive, ask: Ask, kinship: Kinship) -> Table:
    """Grip, attack and what it brought; the share is of all tries of that attack from that grip."""

    def places(one: Try) -> list[Place]:
        attack, label = kinship.one(one.concept), kinship.label(one.concept)
        brought = _brought(one)
        return [((grip, attack, brought), (kinship.label(grip), label, brought)) for grip in _grips(one)]

    whole = ask.model_copy(update={"least": 1})
    table = _Sums(whole, places, "tries", ("grip", "attack", "score")).of(tries(archive, ask))
    of: dict[tuple[str, ...], float] = defaultdict(float)
    names: dict[str, Counter[str]] = defaultdict(Counter)
    for line in table.lines:
        of[line.keys[:2]] += line.counts["tries"]
        names[line.keys[1]][line.labels[1]] += line.rests_on

    def shared(line: Line) -> Line:
        tried, whole = line.counts["tries"], of[line.keys[:2]]
        label = names[line.keys[1]].most_common(1)[0][0]
        return Line(
            keys=line.keys, labels=(line.labels[0], label, line.labels[2]), rests_on=line.rests_on,
            counts={"tries": tried, "of": whole}, rates={"share": wilson(tried, whole)},
        )  # fmt: skip

    lines = [shared(line) for line in table.lines if line.rests_on >= ask.least]
    lines.sort(key=lambda line: (-line.counts["of"], line.keys[:2], -line.counts["tries"], line.keys))
    return table.model_copy(update={"ask": ask, "lines": tuple(lines)})


def _brought(one: Try) -> str:
    if one.score_class is not None:
        return one.score_class
    return "nothing" if one.points is None else str(one.points)
