"""Recordings kept in one file, and searched. What fills it is in ``keeping``: it loads the whole path."""

from hikite.archive.searches import Query, search
from hikite.archive.stores import Archive

__all__ = ["Archive", "Query", "search"]
