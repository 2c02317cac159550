"""Why an entry says what it says: a tree from the words to the number."""

from pydantic import BaseModel

from hikite.ledger.rulebooks import Award, Duration, End, Fact, Hold, Ruleset, Step, Throw, Tie
from hikite.outputs.entries import BoutRecord, Entry
from hikite.outputs.labels import Labels
from hikite.outputs.phrases import clock_words, percent, score_words, stamp, value_words
from hikite.process import Lexicon
from hikite.records import Bout, Claim, Event, Otherwise, Reason, Recording

_MEANS = {
    "published": "published",
    "inference": "inferred from the sources",
    "memory": "from memory, without a source",
    "contradicted": "contradicted by another source",
}


class Node(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One line of the tree and what it follows from."""

    says: str
    because: tuple["Node", ...] = ()


def derive(recording: Recording, record: BoutRecord, lexicon: Lexicon, id_: str) -> Node | None:
    """The derivation of the entry with this id, nothing where there is none."""
    for bout, told in zip(recording.ledger.bouts, record.bouts, strict=True):
        for event, entry in zip(bout.events, told.entries, strict=True):
            if entry.id == id_:
                return _Derivation(recording, bout, event, entry, lexicon).tree()
    return None


class _Derivation:
    """One event with all that it rests on."""

    def __init__(
        self, recording: Recording, bout: Bout, event: Event, entry: Entry, lexicon: Lexicon
    ) -> None:
        self.recording, self.bout, self.event, self.entry = recording, bout, event, entry
        self.labels = Labels(lexicon.terms, lexicon.language)
        self.rules = lexicon.rulesets.rulesets.get(bout.ruleset)

    def tree(self) -> Node:
        entry = self.entry
        value = value_words(entry) if entry.counts else ""
        who = " ".join(part for part in (entry.side, entry.competitor) if part)
        what = ", ".join(part for part in (entry.label, entry.status, value) if part)
        head = f"{entry.id}  {stamp(entry.start_ms)}  {who + ': ' if who else ''}{what}"
        branches = [self._sure(), *self._claims(), self._rule(), self._clock(), self._score()]
        return Node(says=head, because=tuple(branch for branch in branches if branch is not None))

    def _sure(self) -> Node:
        entry = self.entry
        parts = [f"as entered {percent(entry.confidence)}"]
        if entry.side:
            parts.append(f"side {percent(entry.side_confidence)}")
        if entry.counts and self.event.value_confidence < 1.0:
            parts.append(f"value {percent(self.event.value_confidence)}")
        if not entry.counts:
            parts.append(f"meant so {percent(entry.status_confidence)}")
        own = [reason for reason in entry.reasons if not self._of_a_claim(reason)]
        because = tuple(map(_kept_for, own))
        if self.event.otherwise:
            others = ", ".join(f"{_other(one)} {percent(one.probability)}" for one in self.event.otherwise)
            because = (*because, Node(says=f"else: {others}"))
        return Node(says="how sure: " + ", ".join(parts), because=because)

    def _of_a_claim(self, reason: Reason) -> bool:
        claims = self.recording.testimony.claims
        return any(reason in claims[number].reasons for number in self.event.claims)

    def _claims(self) -> list[Node]:
        if not self.event.claims:
            return [Node(says="no words: nobody spoke of it")]
        return [
            self._claim(self.recording.testimony.claims[number], place)
            for place, number in enumerate(self.event.claims)
        ]

    def _claim(self, claim: Claim, place: int) -> Node:
        quote = self.entry.quotes[place]
        cues = ", ".join(f"cue {span.cue}, characters {span.start}–{span.stop}" for span in quote.spans)
        speaker = f", {quote.speaker}" if quote.speaker else ""
        heard = f"“{quote.words}” in “{quote.statement}” ({stamp(claim.start_ms)}, {cues}{speaker})"
        told = f"{claim.kind.replace('_', ' ')}: {self.labels.of(claim.concept)}, {claim.status}"
        nodes = [Node(says=f"names {self._named(claim)}")]
        if claim.side:
            nodes.append(Node(says=f"who: {_odds(claim.sides) or claim.side}"))
        if len(claim.statuses) > 1:
            nodes.append(Node(says=f"how meant: {_odds(claim.statuses)}"))
        nodes += map(_reason, claim.reasons)
        return Node(says=f"{heard} → {told}", because=tuple(nodes))

    def _named(self, claim: Claim) -> str:
        named = f"{claim.concept} {percent(claim.confidence)}"
        others = [f"{one.concept} {percent(one.probability)}" for one in claim.alternatives]
        return f"{named}; else {', '.join(others)}" if others else named

    def _rule(self) -> Node | None:
        row = self.rules.row(self.entry.row) if self.rules and self.entry.row else None
        if self.rules is None or row is None:
            return None
        source = f"; source: {row.source}" if row.source else ""
        says = row_words(self.rules, row.id)
        return Node(says=f"rule {row.id} of {self.rules.name}: {says} ({_MEANS[row.mark]}{source})")

    def _clock(self) -> Node | None:
        clock = self.entry.clock
        if clock is None:
            return None
        bounds = f"between {stamp(round(clock.high_s * 1000))} and {stamp(round(clock.low_s * 1000))}"
        return Node(says=f"match clock {clock_words(clock) or 'hardly known'}, {bounds}")

    def _score(self) -> Node | None:
        if not self.entry.score_after:
            return None
        sides, sure = self.bout.sides, self.event.score_confidence
        shown = score_words(self.entry.score_after, sides)
        chance = "" if sure is None else f" ({percent(sure)})"
        return Node(says=f"score after it, {' – '.join(sides)}: {shown}{chance}")


def _other(one: Otherwise) -> str:
    """What a line of the score may have been instead, in words."""
    if one.side is None:
        return "nothing"
    return f"{one.side} {one.score_class or one.points or 'penalised'}"


def row_words(rules: Ruleset, id_: str) -> str:
    """What a row of a rule set says, in words; the id where there is no such row."""
    row = rules.row(id_)
    if isinstance(row, Throw):
        fell = {True: ", the thrower going down", False: ", the thrower staying up", None: ""}[row.fell]
        start = "from the ground " if row.start == "ground" else ""
        return f"a throw {start}onto {' or '.join(row.landing)}{fell} gives {_worth(row.gives)}"
    if isinstance(row, Hold):
        golden = " in golden score" if row.golden else ""
        return f"a hold of {row.seconds} s gives {_worth(row.gives)}{golden}"
    if isinstance(row, Award):
        return f"{row.name} gives {_worth(row.gives)}"
    if isinstance(row, Step):
        ladder = next(ladder for ladder in rules.ladders if row in ladder.steps)
        rung = f"{ladder.concept} {ladder.steps.index(row) + 1}"
        return f"{rung}: out" if row.out else f"{rung}: {_worth(row.gives)} to the opponent"
    if isinstance(row, End):
        at = f" at {row.count} {row.score}" if row.score else f" at a lead of {row.lead}" if row.lead else ""
        return f"{'golden score' if row.golden else 'the bout'} ends by {row.by}{at}"
    if isinstance(row, Tie):
        return f"equal scores are settled by {row.by}"
    if isinstance(row, Duration):
        periods = f", in {row.periods} periods" if row.periods > 1 else ""
        return f"{row.who}: {row.seconds} s{periods}"
    return row.says if isinstance(row, Fact) else id_


def _worth(gives: int | str) -> str:
    if isinstance(gives, int):
        return f"{gives} point{'' if gives == 1 else 's'}" if gives else "nothing"
    return gives


def _odds(chances: dict[str, float]) -> str:
    ranked = sorted(chances.items(), key=lambda item: -item[1])
    return ", ".join(f"{name or 'nobody'} {percent(chance)}" for name, chance in ranked if chance >= 0.01)


def _kept_for(reason: Reason) -> Node:
    """A reason of the ledger's own, which carries a probability."""
    sure = f" ({percent(reason.weight)})" if 0 < reason.weight <= 1 else ""
    return Node(says=f"{reason.name}{sure}")


def _reason(reason: Reason) -> Node:
    words = f" “{reason.words}”" if reason.words else ""
    weight = f" {reason.weight:+.2f}" if reason.weight else ""
    return Node(says=f"{reason.name}{words}{weight}")
