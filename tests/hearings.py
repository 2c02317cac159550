"""What is heard in a few lines, for tests of the judgement."""

from functools import cache

from hikite.claims import hear
from hikite.mentions import find_mentions
from hikite.records import Claim, Competitor, Sheet
from hikite.terms import Terms, load_terms
from talks import talk

SHEET = Sheet(
    ruleset="sambo.sport.2020",
    competitors=(
        Competitor(side="red", name="Orsan Veldrik", nation="Norvania"),
        Competitor(side="blue", name="Tarik Ambrose", nation="Kessia"),
    ),
)


@cache
def terms() -> Terms:
    return load_terms()


def claims(*lines: str) -> tuple[Claim, ...]:
    """Every claim heard in the lines."""
    said = talk(*lines)
    return hear(said, find_mentions(said, terms()), terms(), SHEET).claims


def first(kind: str, *lines: str) -> Claim:
    """The first claim of a kind."""
    return next(one for one in claims(*lines) if one.kind == kind)
