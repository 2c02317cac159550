"""Why a hit is one: each condition with what meets it."""

from collections.abc import Iterator

from hikite.archive.searches.hits import Hit
from hikite.archive.searches.namings import Naming
from hikite.archive.searches.queries import Query
from hikite.outputs.phrases import percent

_STANDS = {1: "leading", 0: "level", -1: "behind"}


def why(hit: Hit, query: Query, namings: tuple[Naming, ...]) -> tuple[str, ...]:
    """One line for each condition that the hit meets, with the words or figures that meet it."""
    return tuple(_lines(hit, query, {one.asked: one for one in namings}))


def _lines(hit: Hit, query: Query, namings: dict[str, Naming]) -> Iterator[str]:
    for name in query.what:
        if hit.concept in namings[name].meant:
            yield f"{name}: {_heard(namings[name], hit.concept, hit.label)}, by “{hit.words}”"
    if query.status:
        yield f"{hit.status}: so it was meant, {percent(hit.status_confidence or 0.0)}"
    if query.side or query.by or query.against or query.nation or any(link.whose for link in query.links):
        against = f" against {hit.opponent}" if hit.opponent and query.against else ""
        whose = " ".join(part for part in (hit.side, hit.competitor) if part)
        yield f"{whose}{against}: whose it was, {percent(hit.side_confidence or 0.0)}"
    if query.holding:
        yield f"holding {', '.join(hit.grips)}: named within the half minute before, and not said to be lost"
    if query.standing or query.margin_least is not None or query.margin_most is not None:
        lead = f" by {abs(hit.lead)}" if hit.lead else ""
        before = f"the score before it was {hit.score_before}" if hit.score_before else "no score before it"
        yield f"{_STANDS.get(hit.standing or 0)}{lead}: {before}"
    if query.scored or query.points is not None or query.score_class:
        yield f"scored: {hit.score_class or points_words(hit.points)}"
    if hit.clock_best_s is not None and (query.clock_from_s is not None or query.clock_to_s is not None):
        bounds = f"between {_clock(hit.clock_high_s)} and {_clock(hit.clock_low_s)}"
        yield f"clock about {_clock(hit.clock_best_s)}: {bounds}"
    if query.attempt is not None:
        yield f"try {hit.attempt} of it by this side in the bout"
    if query.said:
        yield f"said: “{hit.statement}”"
    yield from beside(hit, query)


def beside(hit: Hit, query: Query) -> tuple[str, ...]:
    """The other events of a sequence, one line each: how far off, whose, what, by which words."""
    return tuple(
        f"{abs(hit.start_ms - partner.start_ms) / 1000:.1f} s {link.relation}"
        f" {f'{partner.side}: ' if partner.side else ''}{partner.label}, {partner.status},"
        f" by “{partner.words}”"
        for link, partner in zip(query.links, hit.partners, strict=False)
    )


def points_words(points: int | None) -> str:
    """`1 point`, `4 points`; nothing where none are told."""
    return "" if points is None else f"{points} point{'' if points == 1 else 's'}"


def _heard(naming: Naming, concept: str | None, label: str | None) -> str:
    if concept in naming.concepts:
        return str(label)
    return f"{label}, which is or counts as {' or '.join(naming.labels)}"


def _clock(seconds: float | None) -> str:
    minutes, rest = divmod(round(seconds or 0), 60)
    return f"{minutes}:{rest:02d}"
