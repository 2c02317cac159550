"""How a number or call is meant, as far as the words right beside it tell."""

from hikite.claims.said.gaps import HARD
from hikite.claims.said.reading import Reading
from hikite.records import Status

_SUPPOSED_WITHIN = 14
_DENIED_WITHIN = 3
_ASKED = "?"


def status_at(reading: Reading, first: int, stop: int, plain: Status) -> Status:
    """``denied`` right after a denying word ("not four", but not "not pretty but four"), ``supposed`` after
    an "if" or "needs" in the same statement and where what is given is asked ("ippon?"); otherwise the plain
    status."""
    if plain == "given" and reading.talk.tokens[stop - 1].after.startswith(_ASKED):
        return "supposed"
    denials, supposings = reading.denials, reading.supposings
    index = first
    while index > 0 and first - index < _SUPPOSED_WITHIN:
        near = first - index < _DENIED_WITHIN
        apart = any(reading.gaps[index : first + 1]) or reading.joins(index, first)
        if near and index in denials and not apart:
            return "denied"
        if index in supposings:
            return "supposed"
        if reading.gaps[index] == HARD:
            break
        index -= 1
    return plain
