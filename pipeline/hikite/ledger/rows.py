"""Which row of the rule set a line of the score rests on."""

from hikite.ledger.deeds import Deed
from hikite.ledger.rulebooks import Gives, Ladder, Ruleset
from hikite.ledger.scorings import Scoring
from hikite.ledger.worths import Scales


def ladder_of(rules: Ruleset, concept: str) -> Ladder:
    """The penalty ladder of a concept, which the rule set must have."""
    return next(ladder for ladder in rules.ladders if ladder.concept == concept)


def rung_row(rules: Ruleset, penalty: str, rung: int) -> str:
    """The row of a ladder's rung; its last where there are no more."""
    steps = ladder_of(rules, penalty).steps
    return steps[min(rung, len(steps) - 1)].id


def concept_and_row(scales: Scales, scoring: Scoring, deed: Deed | None) -> tuple[str, str | None]:
    """The concept a score is for, and the row it rests on, if one gives so much."""
    if scoring.penalty:
        return scoring.penalty, rung_row(scales.rules, scoring.penalty, scoring.rung)
    if deed is None:
        plain = "points" if isinstance(scoring.value, int) else scoring.value
        return plain, scales.row_of(scoring.value)
    if deed.kind == "hold":
        return deed.concept, _hold_row(scales, deed, scoring.value)
    if deed.kind == "penalty":
        return deed.concept, _activity_row(scales, deed, scoring.value)
    worth = scales.technique(deed.concept, deed.landing, deed.fell)
    return deed.concept, worth.rows.get(scoring.value) or scales.row_of(scoring.value)


def _hold_row(scales: Scales, deed: Deed, value: Gives) -> str | None:
    """The row of a hold so long, or of some hold that gives so much."""
    gives, row = scales.hold(deed.seconds)
    if gives == value:
        return row
    return next((hold.id for hold in scales.rules.holds if hold.gives == value), None)


def _activity_row(scales: Scales, deed: Deed, value: Gives) -> str | None:
    """The row of the point for an activity time without a score, or of some action that gives so much."""
    named = next((award.id for award in scales.rules.awards if award.name == "activity"), None)
    return named if deed.concept == "passivity" and named else scales.row_of(value)
