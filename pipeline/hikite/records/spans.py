"""What stands on tokens of a talk, and the tokens that several such things take up."""

from collections.abc import Iterable
from typing import Protocol


class Spanned(Protocol):
    """Whatever stands on tokens ``first`` to ``stop`` (exclusive): a mention, a claim, words met."""

    @property
    def first(self) -> int:
        """Where it begins."""

    @property
    def stop(self) -> int:
        """The token behind it."""


def tokens_of(several: Iterable[Spanned]) -> set[int]:
    """The tokens that any of them stands on."""
    return {index for one in several for index in range(one.first, one.stop)}
