"""About how many events a condition leaves, from counts that were taken when the archive was last filled."""

from hikite.archive.searches.compiling import Compiled, Term
from hikite.archive.stores import Archive

_MANY = 20_000
_POINTS = 0.05
"""A rough share: points are not counted."""
_COUNTED = {
    "what": "concept", "status": "status", "told": "status", "nation": "nation", "holding": "grip",
    "side": "side", "standing": "standing",
}  # fmt: skip


class Tallies:
    """The counts of one archive, asked for as they are needed."""

    def __init__(self, archive: Archive) -> None:
        self._archive = archive
        self.all = self._sum("all", ("",))

    def rows(self, terms: Compiled, *about: str) -> float:
        """About how many events meet the terms that stand for these conditions."""
        return self.all * self.share(terms, *about)

    def share(self, terms: Compiled, *about: str) -> float:
        """About which share of all events does."""
        share = 1.0
        for term in terms.of(*about):
            share *= self._share(term)
        return share * self._of_clock(terms.of("clock")) if "clock" in about else share

    def of_people(self, many: int) -> float:
        """About how many events are of so many people."""
        return self.all / (self._one("SELECT max(id) FROM people") or 1) * many

    def of_recordings(self, count: int) -> float:
        """About how many events so many recordings have."""
        return self.all / (self._one("SELECT max(id) FROM recordings") or 1) * count

    def of_statements(self, phrases: str) -> float:
        """In how many statements something was said; counted, but not on and on."""
        return self._one(
            f"SELECT count(*) FROM (SELECT 1 FROM talk_words WHERE talk_words MATCH ? LIMIT {_MANY})", phrases
        )

    def _share(self, term: Term) -> float:
        if term.about in _COUNTED:
            values = tuple(str(value).strip("|") for value in term.values)
            return min(self._sum(_COUNTED[term.about], values) / (self.all or 1), 1.0)
        if term.about == "scored":
            scored = self._sum("scored", ("",)) / (self.all or 1)
            return scored if term.values[0] else 1 - scored
        if term.about == "attempt":
            return self._sum("again", ("",)) / (self.all or 1)
        return _POINTS if term.about == "points" else 1.0

    def _of_clock(self, bounds: tuple[Term, ...]) -> float:
        """The share between the bounds; the clock is counted in whole half minutes."""
        if not bounds:
            return 1.0
        low, high = 0, 1 << 20
        for term in bounds:
            seconds = int(term.values[0])
            low, high = (seconds, high) if ">=" in term.sql else (low, seconds)
        between = "about = 'clock' AND CAST(value AS INTEGER) BETWEEN ? AND ?"
        query = f"SELECT total(events) FROM tallies WHERE {between}"
        # Half of what the first and the last bucket hold lies outside, about.
        found = self._archive.db.execute(query, (low - 15, high - 15)).fetchone()[0]
        return min(float(found) / (self.all or 1), 1.0)

    def _sum(self, about: str, values: tuple[str, ...]) -> int:
        marks = ", ".join("?" * len(values))
        query = f"SELECT total(events) FROM tallies WHERE about = ? AND value IN ({marks})"
        return int(self._archive.db.execute(query, (about, *values)).fetchone()[0])

    def _one(self, query: str, *values: str) -> int:
        return int(self._archive.db.execute(query, values).fetchone()[0] or 0)
