"""How a number or call is meant, as far as the words right beside it tell."""

from hikite.claims.said.gaps import HARD
from hikite.claims.said.reading import Reading
from hikite.records import Status

_SUPPOSED_WITHIN = 14
# So near it is still led to where talk halts right before it: "if it stays, six four".
_LED_WITHIN = 4
_DENIED_WITHIN = 3
_ASKED = "?"


def status_at(reading: Reading, first: int, stop: int, plain: Status) -> Status:
    """``denied`` right after a denying word ("not four", but not "not pretty but four"), ``supposed`` after
    an "if" or "needs" in the same statement and where what is given is asked ("ippon?"); otherwise the plain
    status. What is stated right behind a halt of talk without marks stands by itself, unless words lead to it
    ("one more makes it eleven three")."""
    if plain == "given" and reading.talk.tokens[stop - 1].after.startswith(_ASKED):
        return "supposed"
    led = reading.ending("total_before", first)
    within = _LED_WITHIN if plain == "stated" and first in reading.halts and not led else _SUPPOSED_WITHIN
    denials, supposings = reading.denials, reading.supposings
    index = first
    while index > 0 and first - index < within:
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
