"""Moments of bouts found by what they were, who acted and how it stood."""

from hikite.archive.searches.queries import Query
from hikite.archive.searches.searching import search

__all__ = ["Query", "search"]
