"""Words that point at a competitor."""

from typing import NamedTuple


class Reference(NamedTuple):
    """Tokens ``first`` to ``stop`` point at a competitor.

    ``side`` is empty where the words alone do not say which. ``how`` is ``name``, ``colour``, ``nation``,
    ``epithet``, ``ours``, ``subject``, ``object``, ``possessive``, ``opponent`` or ``both``.
    """

    first: int
    stop: int
    side: str
    how: str
