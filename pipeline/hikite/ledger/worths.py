"""What an action is worth under a rule set: values with their probabilities and the rows they rest on."""

from functools import lru_cache
from typing import NamedTuple

from hikite.ledger.rulebooks import TOTAL, Action, Actions, Gives, Hold, Ruleset


class Worth(NamedTuple):
    """``scores`` is P(it scored, said to be completed and no award said); ``values`` sum to one.

    ``clean`` is P(it ended the bout), when both landing and the thrower's fall were told.
    """

    scores: float
    values: dict[Gives, float]
    rows: dict[Gives, str]
    clean: float = 0.0


TOLD = (0.75, 0.95)
"""P(a throw scored as the rules say | its landing, or that and whether the thrower fell, was told)."""
NOTHING = Worth(0.0, {}, {})


class Scales:
    """The rule set and the scoring habits, ready to weigh actions; answers are kept."""

    def __init__(self, rules: Ruleset, actions: Actions) -> None:
        self.rules, self.actions = rules, actions
        self._action = {concept: action for action in actions.actions for concept in action.concepts}
        self._default = next((action for action in actions.actions if action.default), None)
        self._awards = {award.name: award for award in rules.awards}
        self._worths: dict[tuple[str, str | None, bool | None], Worth] = {}
        self.typical = self._typical()

    def technique(self, concept: str, landing: str | None = None, fell: bool | None = None) -> Worth:
        """What a completed technique is worth, by landing and whether the thrower went down."""
        asked = (concept, landing, fell)
        if asked not in self._worths:
            self._worths[asked] = self._weigh(concept, landing, fell)
        return self._worths[asked]

    def hold(self, seconds: int | None, golden: bool = False) -> tuple[Gives, str | None]:
        """What a hold that lasted so long gives, with its row; nothing when no length is known."""
        if seconds is None:
            return 0, None
        held = [hold for hold in self.rules.holds if hold.seconds <= seconds and (golden or not hold.golden)]
        best: Hold | None = max(held, key=lambda hold: hold.seconds, default=None)
        return (best.gives, best.id) if best else (0, None)

    def row_of(self, value: Gives) -> str | None:
        """Some row that gives this value, where the action is not known."""
        rows = [(row.gives, row.id) for row in self.rules.awards]
        rows += [(row.gives, row.id) for row in self.rules.throws] + [
            (row.gives, row.id) for row in self.rules.holds
        ]
        return next((id for gives, id in rows if gives == value), None)

    def _weigh(self, concept: str, landing: str | None, fell: bool | None) -> Worth:
        action: Action | None = self._action.get(concept, self._default)
        if action is None:
            return NOTHING
        values: dict[Gives, float] = {}
        rows: dict[Gives, str] = {}
        for share, weight in action.shares.items():
            for value, part, row in self._share(share, landing, fell):
                values[value] = values.get(value, 0.0) + weight * part
                rows.setdefault(value, row)
        total = sum(values.values())
        counted = {value: part for value, part in values.items() if value not in (0, TOTAL)}
        if not total or not counted:
            return NOTHING._replace(
                clean=float(values.get(TOTAL, 0) > 0 and landing is not None and fell is False)
            )
        left = sum(counted.values())
        told = (landing is not None) + (landing is not None and fell is not None)
        scores = action.scores
        if told and scores > 0.1:
            scores = max(scores, TOLD[told - 1])
        clean = values.get(TOTAL, 0.0) / total if told == 2 else 0.0
        return Worth(
            scores * left / total, {value: part / left for value, part in counted.items()}, rows, clean
        )

    def _share(self, share: str, landing: str | None, fell: bool | None) -> list[tuple[Gives, float, str]]:
        if share in self._awards:
            return [(self._awards[share].gives, 1.0, self._awards[share].id)]
        if share != "throw":
            value: Gives = int(share) if share.isdigit() else share
            legal = self.rules.by_points or value in self.rules.classes
            return [(value, 1.0, "")] if legal else []
        landings = {landing: 1.0} if landing else self.actions.landings
        falls = {True: self.actions.falls, False: 1 - self.actions.falls} if fell is None else {fell: 1.0}
        found = []
        for place, often in landings.items():
            for down, chance in falls.items():
                for throw in self.rules.throws:
                    if throw.start == "standing" and place in throw.landing and throw.fell in (None, down):
                        found.append((throw.gives, often * chance, throw.id))
                        break
        return found

    def _typical(self) -> dict[Gives, float]:
        known = {
            (int(value) if value.isdigit() else value): weight
            for value, weight in self.actions.typical.items()
        }
        given: set[Gives] = set(self.rules.classes)
        if self.rules.by_points:
            given = {throw.gives for throw in self.rules.throws} | {hold.gives for hold in self.rules.holds}
            given |= {award.gives for award in self.rules.awards}
        legal: dict[Gives, float] = {value: weight for value, weight in known.items() if value in given}
        total = sum(legal.values())
        return {value: weight / total for value, weight in legal.items()}


@lru_cache(maxsize=32)
def _kept(key: str) -> dict[int, Scales]:
    return {}


def scales(rules: Ruleset, actions: Actions) -> Scales:
    """The scales of a rule set, made once for each loaded copy of it."""
    kept = _kept(rules.key)
    if id(rules) not in kept:
        kept.clear()
        kept[id(rules)] = Scales(rules, actions)
    return kept[id(rules)]
