"""Timed text to statements: tokens, and where one statement ends and the next begins."""

from hikite.utterances.cutting import cut
from hikite.utterances.tokens import spoken

__all__ = ["cut", "spoken"]
