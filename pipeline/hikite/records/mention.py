"""Words that name something in the lexicon, each with ranked candidates."""

from typing import Literal

from pydantic import BaseModel

Kind = Literal[
    "technique", "grip", "hold", "position", "landing", "stoppage", "score", "penalty", "result", "principle"
]
How = Literal["exact", "near", "sound"]


class Candidate(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One concept the words may name, its probability, the lexicon form met and how it was met."""

    concept: str
    probability: float
    form: str
    how: How


class Mention(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Tokens ``first`` to ``stop`` (exclusive) naming a concept; candidates best first, never empty.

    ``generic`` marks a family word ("throw", "sweep"). ``attributes`` are words such as ``left``,
    ``high``, ``double``, ``drop``, ``far-leg`` that qualify it.
    """

    first: int
    stop: int
    kind: Kind
    candidates: tuple[Candidate, ...]
    generic: bool = False
    attributes: tuple[str, ...] = ()

    @property
    def concept(self) -> str:
        """The likeliest concept."""
        return self.candidates[0].concept
