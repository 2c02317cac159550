"""The named rates at which commentary errs, from ``noise.toml`` beside this file."""

import tomllib
from functools import lru_cache
from importlib.resources import files
from math import exp
from typing import NamedTuple

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.ledger.deeds import Pair


class Temper(NamedTuple):
    """How told odds become those found right: raised to ``exponent``, then times e to the ``lift``."""

    exponent: float = 1.0
    lift: float = 0.0

    def __call__(self, chance: float) -> float:
        """The probability with its odds so changed."""
        yes, no = float(max(chance, 0.0) ** self.exponent), float(max(1.0 - chance, 0.0) ** self.exponent)
        yes *= exp(self.lift)
        return yes / (yes + no)


class Noise(BaseModel, frozen=True, extra="forbid"):
    """Probabilities, but ``link``, ``worth``, ``sharp…`` and ``sure…`` are exponents, ``lift…`` log odds.

    The file explains each.
    """

    side: float
    sharp: float
    sharp_told: float
    given: float
    not_given: float
    value: float
    again: float
    silent: float
    stated: float
    total: float
    is_total: float
    margin: float
    swapped: float
    leader_first: float
    first_first: float
    strays: float
    link: float
    worth: float
    separate: float
    retracted: float
    revised: float
    revised_points: float
    retold: float
    mismatch: float
    result: float
    sure_final: float
    sure_line: float
    lift_final: float

    @property
    def final(self) -> Temper:
        """How sure the final score is, from what the lattice says."""
        return Temper(self.sure_final, self.lift_final)

    @property
    def line(self) -> Temper:
        """The same of a line of the score."""
        return Temper(self.sure_line)

    @property
    def habits(self) -> tuple[float, ...]:
        """P(each order in which a speaker may tell numbers): leader first, first side first, second first."""
        return self.leader_first, self.first_first, 1 - self.leader_first - self.first_first

    def doubted(self, sides: Pair, told: bool = False) -> Pair:
        """P(each side), allowing that the claim was sure and wrong; less where words name it."""
        wrong, sharp = self.side, self.sharp_told if told else self.sharp
        one, two = sides[0] ** sharp, sides[1] ** sharp
        return (1 - 2 * wrong) * one / (one + two) + wrong, (1 - 2 * wrong) * two / (one + two) + wrong

    def believed(self, said: float) -> float:
        """P(what is said to be given was), allowing for a wrong reading of how it was meant."""
        yes, no = said**self.sharp, (1 - said) ** self.sharp
        said = yes / (yes + no)
        return (1 - self.given) * said + self.not_given * (1 - said)


@lru_cache(maxsize=1)
def load_noise() -> Noise:
    """The shipped rates; LexiconError if the file is broken."""
    file = files("hikite.ledger") / "noise.toml"
    try:
        return Noise.model_validate(tomllib.loads(file.read_text("utf-8")))
    except (tomllib.TOMLDecodeError, ValidationError) as error:
        raise LexiconError(str(error), file=str(file)) from None
