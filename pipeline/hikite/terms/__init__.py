"""The words of the trade: concepts, the names they go by in each language, and what they share."""

from hikite.terms.loading import load_terms
from hikite.terms.words import Name, Terms

__all__ = ["Name", "Terms", "load_terms"]
