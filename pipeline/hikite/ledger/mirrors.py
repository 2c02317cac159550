"""Competitors learnt from the talk, each perhaps taken for the other: what score and rules say to that."""

from collections.abc import Callable

from hikite.ledger.keeping import evidence, rules_of
from hikite.ledger.rulesets import Rulesets
from hikite.records import Competitor, Sheet, Testimony

SURE = 3.0
"""Log odds that the names learnt from a talk are not exchanged: of the labelled training bouts, one in 28."""


def righted(testimony: Testimony, again: Callable[[Sheet], Testimony], rulesets: Rulesets) -> Testimony:
    """The testimony, or the one with its competitors exchanged where what is said fits so much better.

    ``again`` hears the talk with a sheet. Whatever the names are tied to, the colours said outright, the
    scores stated and the result settle whose they are.
    """
    sheet = testimony.sheet
    named = [one for one in sheet.competitors if one.name or one.nation]
    if len(sheet.competitors) != 2 or not named or testimony.casts:
        return testimony
    ruled = sheet.model_copy(update={"ruleset": sheet.ruleset or rules_of(testimony, rulesets)})
    told = evidence(testimony.model_copy(update={"sheet": ruled}), rulesets)
    # what is said fits no bout better than surely
    if told > -SURE:
        return testimony
    other = again(ruled.model_copy(update={"competitors": exchanged(sheet.competitors)}))
    if evidence(other, rulesets) - told <= SURE:
        return testimony
    return other.model_copy(update={"sheet": other.sheet.model_copy(update={"ruleset": sheet.ruleset})})


def exchanged(competitors: tuple[Competitor, ...]) -> tuple[Competitor, ...]:
    """The two competitors, each on the other's side, in the order of the sides."""
    one, two = competitors
    return two.model_copy(update={"side": one.side}), one.model_copy(update={"side": two.side})
