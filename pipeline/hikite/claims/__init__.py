"""What the speaker claims: who did what, how it was meant, what it was worth."""

from hikite.claims.hearing import hear

__all__ = ["hear"]
