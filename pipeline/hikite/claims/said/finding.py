"""All finders in order, each leaving alone the words an earlier one has used."""

from hikite.claims.references import Reference
from hikite.claims.said.addressed import addressed
from hikite.claims.said.clocks import find_clocks
from hikite.claims.said.confidences import confident
from hikite.claims.said.countdowns import find_countdowns
from hikite.claims.said.elsewhere import set_apart
from hikite.claims.said.holds import find_holds
from hikite.claims.said.penalties import find_penalties
from hikite.claims.said.phrasebooks import load_phrasebook
from hikite.claims.said.places import find_places
from hikite.claims.said.reading import read
from hikite.claims.said.results import find_results
from hikite.claims.said.scores import find_scores
from hikite.claims.said.stoppages import find_stoppages
from hikite.claims.said.sums import find_sums
from hikite.claims.said.tallies import find_tallies
from hikite.claims.said.totals import find_totals
from hikite.records import Claim, Mention, Talk
from hikite.records.spans import tokens_of
from hikite.terms.speech import load_speech

# A count over a hold is no clock, "two ten" no score, "six four" no two awards: the surer reading goes first.
_FINDERS = (
    find_sums,
    find_holds,
    find_clocks,
    find_results,
    find_tallies,
    find_countdowns,
    find_totals,
    find_penalties,
    find_scores,
    find_stoppages,
    find_places,
)


def find_said(
    talk: Talk,
    mentions: tuple[Mention, ...],
    actors: tuple[Reference, ...],
    sides: tuple[str, str] = ("red", "blue"),
    *,
    language: str = "en",
    points: bool | None = None,
    duration_s: int | None = None,
) -> tuple[Claim, ...]:
    """Draft claims of everything numeric or procedural, in order of first token.

    ``points`` says whether the sport counts points (None: as heard); ``duration_s`` turns "halfway" into
    seconds. ``side`` is set only where the words right there settle it.
    """
    speech = load_speech(language)
    people = (*actors, *addressed(talk, actors, speech.actors))
    joiners, phrases = speech.statements.joiners, load_phrasebook(language)
    reading = read(talk, mentions, people, phrases, sides, points, duration_s, joiners)
    claims: list[Claim] = []
    taken: frozenset[int] = frozenset()
    for find in _FINDERS:
        found = find(reading, taken)
        claims.extend(found)
        taken |= tokens_of(found)
    told = sorted(claims, key=lambda claim: (claim.first, claim.stop))
    return tuple(confident(claim) for claim in set_apart(reading, told))
