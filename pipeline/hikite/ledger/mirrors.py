"""Competitors learnt from the talk, each perhaps taken for the other: what score and rules say to that."""

from collections.abc import Callable

from hikite.ledger.keeping import Weighed, rules_of, weigh
from hikite.ledger.rulesets import Rulesets
from hikite.records import Competitor, Sheet, Testimony

SURE = 3.0
"""Log odds that the names learnt from a talk are not exchanged: of the labelled training bouts, one in 28."""


def righted(
    testimony: Testimony, again: Callable[[Sheet], Testimony], rulesets: Rulesets
) -> tuple[Testimony, tuple[Weighed, ...]]:
    """The testimony, or the one with its competitors exchanged where what is said fits so much better.

    ``again`` hears the talk with a sheet. Whatever the names are tied to, the colours said outright, the
    scores stated and the result settle whose they are. The bouts weighed for that come with it, for
    ``keep``; none where nothing had to be settled.
    """
    sheet = testimony.sheet
    named = [one for one in sheet.competitors if one.name or one.nation]
    if len(sheet.competitors) != 2 or not named or testimony.casts:
        return testimony, ()
    ruled = sheet.model_copy(update={"ruleset": sheet.ruleset or rules_of(testimony, rulesets)})
    weighed = weigh(testimony.model_copy(update={"sheet": ruled}), rulesets)
    # what is said fits no bout better than surely
    if _evidence(weighed) > -SURE:
        return testimony, weighed
    other = again(ruled.model_copy(update={"competitors": exchanged(sheet.competitors)}))
    otherwise = weigh(other, rulesets)
    if _evidence(otherwise) - _evidence(weighed) <= SURE:
        return testimony, weighed
    unruled = other.sheet.model_copy(update={"ruleset": sheet.ruleset})
    return other.model_copy(update={"sheet": unruled}), otherwise


def _evidence(weighed: tuple[Weighed, ...]) -> float:
    """log P(all that was claimed | the rules, who is on which side), over all bouts of a recording."""
    return sum(one.reckoning.solved.evidence for one in weighed)


def exchanged(competitors: tuple[Competitor, ...]) -> tuple[Competitor, ...]:
    """The two competitors, each on the other's side, in the order of the sides."""
    one, two = competitors
    return two.model_copy(update={"side": one.side}), one.model_copy(update={"side": two.side})
