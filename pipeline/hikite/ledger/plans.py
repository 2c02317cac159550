"""What fixes the states a bout can be in: what is counted, how far, and what ends it for sure."""

from typing import NamedTuple

from hikite.ledger.rulebooks import Gives, Ruleset

TOP = "ippon"


class Rung(NamedTuple):
    """What one step of a ladder gives and whether the athlete is out."""

    gives: Gives
    out: bool


class Rail(NamedTuple):
    """A penalty ladder as the grid needs it, cut to the number of penalties that matter."""

    concept: str
    shared: bool
    replaces: bool
    counted: bool
    rungs: tuple[Rung, ...]

    @property
    def puts_out(self) -> bool:
        """Whether its last step puts the athlete out."""
        return self.rungs[-1].out


class Plan(NamedTuple):
    """What fixes a grid: the classes and their caps, the ladders, the ends that are sure."""

    points: int
    classes: tuple[tuple[str, int], ...]
    rails: tuple[Rail, ...]
    lead: int | None
    full: tuple[tuple[str, int], ...]

    def rail(self, concept: Gives) -> Rail | None:
        """The ladder of a penalty, where it matters here."""
        return next((rail for rail in self.rails if rail.concept == concept), None)

    @property
    def counted(self) -> tuple[Rail, ...]:
        """The ladders whose penalties the scoreboard shows."""
        return tuple(rail for rail in self.rails if rail.counted)


def plan(
    rules: Ruleset, points: int, classes: dict[str, int], penalties: dict[str, int], lead: int | None
) -> Plan:
    """The plan of a grid for ``rules`` with room for so many points, scores by class and penalties."""
    rails = []
    for ladder in rules.ladders:
        room = penalties.get(ladder.concept, 0)
        matters = ladder.counted or any(step.gives or step.out for step in ladder.steps)
        if room and matters and len(ladder.steps) > 1:
            rungs = tuple(Rung(step.gives, step.out) for step in ladder.steps)
            if ladder.shared:
                rungs = tuple(rung for rung in rungs if rung.gives)
            rails.append(Rail(ladder.concept, ladder.shared, ladder.replaces, ladder.counted, rungs[:room]))
    counts = ("points",) if rules.by_points else rules.classes
    full = tuple((end.score, end.count) for end in rules.ends if end.score in counts and not end.golden)
    capped = tuple((name, classes.get(name, 1)) for name in rules.classes if name != TOP)
    return Plan(points if rules.by_points else 0, capped, tuple(rails), lead, full)
