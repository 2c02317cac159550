"""Random legal bouts under a rule set, and talk about them that leaves out, errs and repeats."""

import random
from typing import Any, NamedTuple

from hikite.ledger.rulebooks import Gives, Ruleset
from hikite.records import Claim, Sheet, Tally, Testimony

THROWS = {"sambo": "o-goshi", "judo": "uchi-mata"}
WRESTLED: dict[Gives, tuple[str, ...]] = {
    1: ("reversal", "step-out"),
    2: ("double-leg", "gut-wrench", "go-behind"),
    4: ("headlock-throw", "lateral-drop"),
    5: ("suplex",),
}
STEP_MS = 12_000


class Act(NamedTuple):
    """One score: who got what; ``fault`` is the ladder when it follows from a penalty of the other side."""

    side: int
    value: Gives
    fault: str | None = None


class Played(NamedTuple):
    """A bout as it went, with the scoreboard after every act (points, or scores by class and shido)."""

    acts: tuple[Act, ...]
    boards: tuple[tuple[dict[str, int], dict[str, int]], ...]

    @property
    def final(self) -> tuple[dict[str, int], dict[str, int]]:
        """The scoreboard at the end."""
        return self.boards[-1] if self.boards else ({}, {})


class Rates(NamedTuple):
    """How the talk errs: scoring statements missing, wrong or repeated, and how often the score is stated."""

    missing: float = 0.2
    wrong: float = 0.05
    repeated: float = 0.05
    misstated: float = 0.03
    stated_every: int = 5


def play(rules: Ruleset, chance: random.Random, most: int = 9) -> Played:
    """A random bout in which every act is one the rules allow, ended where they end it."""
    acts: list[Act] = []
    boards: list[tuple[dict[str, int], dict[str, int]]] = []
    state: tuple[dict[str, int], dict[str, int]] = ({}, {})
    faults = [0, 0]
    lead = next(
        (end.lead for end in rules.ends if end.lead and end.mark == "published" and not end.until), None
    )
    ladder = next((ladder for ladder in rules.ladders if len(ladder.steps) > 1 and not ladder.shared), None)
    for _ in range(chance.randint(2, most)):
        side = chance.randrange(2)
        if ladder is not None and chance.random() < 0.15 and faults[1 - side] < len(ladder.steps) - 1:
            step = ladder.steps[faults[1 - side]]
            faults[1 - side] += 1
            act = (
                Act(1 - side, ladder.concept, ladder.concept)
                if ladder.counted
                else Act(side, step.gives, ladder.concept)
            )
        else:
            act = Act(side, _value(rules, chance, state[side]))
        state = _after(state, act)
        acts.append(act)
        boards.append(state)
        if _over(rules, state, lead):
            break
    return Played(tuple(acts), tuple(boards))


def _value(rules: Ruleset, chance: random.Random, has: dict[str, int]) -> Gives:
    if rules.by_points:
        given = {throw.gives for throw in rules.throws} | {award.gives for award in rules.awards}
        return chance.choice(sorted(value for value in given if isinstance(value, int) and value))
    return chance.choices(rules.classes, [1 if name == "ippon" else 5 for name in rules.classes])[0]


def _after(state: tuple[dict[str, int], dict[str, int]], act: Act) -> tuple[dict[str, int], dict[str, int]]:
    both = (dict(state[0]), dict(state[1]))
    name, amount = (
        ("points", act.value) if isinstance(act.value, int) else (str(act.value).replace("-", "_"), 1)
    )
    both[act.side][name] = both[act.side].get(name, 0) + amount
    return both


def _over(rules: Ruleset, state: tuple[dict[str, int], dict[str, int]], lead: int | None) -> bool:
    if rules.by_points:
        return lead is not None and abs(state[0].get("points", 0) - state[1].get("points", 0)) >= lead
    for end in rules.ends:
        if end.score in rules.classes and not end.golden:
            field = str(end.score).replace("-", "_")
            if any(side.get(field, 0) >= end.count for side in state):
                return True
    return False


def talk(rules: Ruleset, played: Played, chance: random.Random, rates: Rates) -> Testimony:
    """What an erring speaker says of a bout, as claims; the final score is stated at the end."""
    teller = _Teller(rules, chance, rates)
    for number, act in enumerate(played.acts):
        teller.act(act)
        if (number + 1) % rates.stated_every == 0:
            teller.state(played.boards[number])
    teller.end(played.final)
    return Testimony(claims=tuple(teller.claims), sheet=Sheet(ruleset=rules.key))


class _Teller:
    def __init__(self, rules: Ruleset, chance: random.Random, rates: Rates) -> None:
        self.rules, self.chance, self.rates = rules, chance, rates
        self.claims: list[Claim] = []
        self.at = 1000
        self.say(kind="stoppage", concept="start", status="stated")

    def say(self, **told: Any) -> None:
        """One claim now."""
        first = len(self.claims)
        self.claims.append(Claim(first=first, stop=first + 1, start_ms=self.at, end_ms=self.at + 800, **told))
        self.at += 1500

    def act(self, act: Act) -> None:
        """An act with its award, or without, or with a wrong one, or told twice."""
        self.at += STEP_MS
        side = act.side
        if act.fault and not isinstance(act.value, int):
            if self.chance.random() >= self.rates.missing:
                self.say(kind="penalty", concept=act.fault, status="given", **self._sides(side))
            return
        if act.fault:
            self.say(kind="penalty", concept=act.fault, status="given", **self._sides(1 - side))
        else:
            names = WRESTLED.get(act.value, ("lost-challenge",))
            concept = THROWS.get(self.rules.sport) or self.chance.choice(names)
            self.say(
                kind="technique",
                concept=concept,
                status="completed",
                statuses={"completed": 0.95, "attempted": 0.05},
                **self._sides(side),
            )
        if act.value == 0 or self.chance.random() < self.rates.missing:
            return
        self._award(act)
        if self.chance.random() < self.rates.repeated:
            self.at += STEP_MS
            self._award(act, recalled=True)

    def _award(self, act: Act, recalled: bool = False) -> None:
        side, value = act.side, act.value
        if self.chance.random() < self.rates.wrong:
            side = 1 - side
        worth = {"points": value} if isinstance(value, int) else {"score_class": value}
        status = "recalled" if recalled else "given"
        other = "given" if recalled else "recalled"
        self.say(
            kind="score", concept="points", status=status, statuses={status: 0.98, other: 0.02},
            **self._sides(side), **worth,
        )  # fmt: skip

    def _sides(self, side: int) -> dict[str, Any]:
        names = self.rules.sides
        return {
            "side": names[side],
            "sides": {names[side]: 1 - self.rates.wrong, names[1 - side]: self.rates.wrong},
        }

    def state(self, board: tuple[dict[str, int], dict[str, int]]) -> None:
        """The score as it stands, in full."""
        self.at += 2000
        if self.rules.by_points and self.chance.random() < self.rates.misstated:
            board = ({"points": board[0].get("points", 0) + 1}, board[1])
        fields = (
            ["points"]
            if self.rules.by_points
            else [c.replace("-", "_") for c in self.rules.classes] + ["shido"]
        )
        tallies = {
            name: Tally.model_validate({field: has.get(field, 0) for field in fields})
            for name, has in zip(self.rules.sides, board, strict=True)
        }
        self.say(kind="stated_score", concept="score", status="stated", tallies=tallies)

    def end(self, board: tuple[dict[str, int], dict[str, int]]) -> None:
        """Time, and the final score."""
        self.at += 5000
        winner = next((side for side in (0, 1) if board[side].get("ippon")), None)
        if winner is not None:
            self.say(kind="result", concept="ippon", status="given", **self._sides(winner))
        self.say(kind="stoppage", concept="end", status="stated")
        self.state(board)
