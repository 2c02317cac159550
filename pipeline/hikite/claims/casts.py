"""Who fights in each bout of a recording with several, learnt bout by bout."""

from itertools import pairwise

from hikite.claims.actors import find_actors
from hikite.claims.references import Reference
from hikite.records import Cast, Claim, Sheet, Talk
from hikite.terms.speech import Speech

# A bout lasts at least this long before its end: what ends sooner was talk of another.
_SHORTEST_MS = 30_000


def openings(talk: Talk, said: tuple[Claim, ...]) -> tuple[int, ...]:
    """The first tokens of the bouts after the first: where talk goes on after an end, if a start follows."""
    found: list[int] = []
    over, began_ms = 0, 0
    for claim in said:
        ends = claim.kind == "result" and claim.status == "given"
        ends = ends or (claim.kind == "stoppage" and claim.concept == "end" and claim.of is None)
        if ends and claim.start_ms - began_ms >= _SHORTEST_MS:
            over = claim.stop
        starts = claim.kind == "stoppage" and claim.concept == "start" and claim.of is None
        if starts and over:
            after = (one.first for one in talk.utterances if one.first >= over)
            found.append(next(after, claim.first))
            over, began_ms = 0, claim.start_ms
    return tuple(found)


def casts_of(
    talk: Talk, cuts: tuple[int, ...], sheet: Sheet, speech: Speech, terms: set[int], language: str
) -> tuple[tuple[Reference, ...], tuple[Cast, ...]]:
    """Every reference of the talk and each bout's competitors, each bout's names learnt from its own talk.

    Where the same people fight on, it is the same bout: what seemed its end was taken back.
    """
    found: list[tuple[int, tuple[Reference, ...], Sheet]] = []
    for first, stop in pairwise((0, *cuts, len(talk.tokens))):
        part = _part(talk, first, stop, sheet, speech, terms, language)
        if found and not _others(found[-1][2], part[1]):
            first = found.pop()[0]
            part = _part(talk, first, stop, sheet, speech, terms, language)
        found.append((first, *part))
    references = (one for _, part, _ in found for one in part)
    casts = tuple(Cast(first=first, competitors=learnt.competitors) for first, _, learnt in found)
    return tuple(references), casts if len(casts) > 1 else ()


def _part(
    talk: Talk, first: int, stop: int, sheet: Sheet, speech: Speech, terms: set[int], language: str
) -> tuple[tuple[Reference, ...], Sheet]:
    """The references between two tokens of the talk, and what is learnt there."""
    here = {index - first for index in terms if first <= index < stop}
    found, learnt = find_actors(talk.part(first, stop), sheet, speech, here, language)
    return tuple(one._replace(first=one.first + first, stop=one.stop + first) for one in found), learnt


def _others(before: Sheet, now: Sheet) -> bool:
    """Whether those who fight now are named and are not those who fought before."""
    one, two = (
        {word for each in sheet.competitors if each.name for word in each.name.split()}
        for sheet in (before, now)
    )
    return bool(two) and one.isdisjoint(two)
