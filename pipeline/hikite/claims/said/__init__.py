"""Numbers and procedure as said: awards, scores, clocks, penalties, holds, calls, results, places."""

from hikite.claims.said.finding import find_said

__all__ = ["find_said"]
