"""The named rates at which commentary errs, from ``noise.toml`` beside this file."""

import tomllib
from functools import lru_cache
from importlib.resources import files

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError


class Noise(BaseModel, frozen=True, extra="forbid"):
    """Probabilities (``link``, ``worth`` and ``sharp`` are exponents); the file explains each."""

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

    @property
    def habits(self) -> tuple[float, ...]:
        """P(each order in which a speaker may tell numbers): leader first, first side first, second first."""
        return self.leader_first, self.first_first, 1 - self.leader_first - self.first_first


def tempered(chance: float, exponent: float) -> float:
    """The probability with its odds raised to ``exponent``: above one surer, below one less sure."""
    yes, no = float(max(chance, 0.0) ** exponent), float(max(1.0 - chance, 0.0) ** exponent)
    return yes / (yes + no)


@lru_cache(maxsize=1)
def load_noise() -> Noise:
    """The shipped rates; LexiconError if the file is broken."""
    file = files("hikite.ledger") / "noise.toml"
    try:
        return Noise.model_validate(tomllib.loads(file.read_text("utf-8")))
    except (tomllib.TOMLDecodeError, ValidationError) as error:
        raise LexiconError(str(error), file=str(file)) from None
