"""Who fights in each bout of a recording with several, learnt bout by bout."""

from itertools import pairwise

from hikite.claims.actors import Reference, find_actors
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
    """Every reference of the talk and each bout's competitors, each bout's names learnt from its own talk."""
    references: list[Reference] = []
    casts: list[Cast] = []
    borders = (0, *cuts, len(talk.tokens))
    for first, stop in pairwise(borders):
        here = {index - first for index in terms if first <= index < stop}
        found, learnt = find_actors(talk.part(first, stop), sheet, speech, here, language)
        references += (one._replace(first=one.first + first, stop=one.stop + first) for one in found)
        casts.append(Cast(first=first, competitors=learnt.competitors))
    return tuple(references), tuple(casts)
