"""Which grips a side holds when it acts, from what was said of grips before."""

from hikite.outputs.entries import Entry

LASTS_MS = 30_000
"""So long a grip is taken to be held after it was named, if nothing ends it: speakers name a grip when it is
taken and seldom when it is lost. Common practice, no source."""
_TAKEN = frozenset({"taken", "completed", "stated", "running"})
_ENDS = frozenset({"start", "restart", "stop", "end"})


class Grips:
    """The grips of a bout; ``statements`` are the entries' statements by place."""

    def __init__(self, entries: tuple[Entry, ...], statements: list[int | None]) -> None:
        self._entries, self._statements = entries, statements

    def held(self, at: int) -> tuple[str, ...]:
        """What the side of the entry at this place holds then, the latest grip first.

        A grip named later in the same statement is one: "throws him, and from the belt grip".
        """
        entry, said = self._entries[at], self._statements[at]
        if entry.side is None or entry.kind == "grip":
            return ()
        held: list[str] = []
        lost: set[str] = set()
        for place in self._around(at):
            other = self._entries[place]
            if (
                other.kind == "stoppage"
                and other.concept in _ENDS
                and place < at
                and other.status == "stated"
            ):
                break
            if other.kind != "grip" or other.side != entry.side:
                continue
            same = said is not None and self._statements[place] == said
            if place > at and not same:
                continue
            if other.status == "broken":
                if other.generic:
                    break
                lost.add(other.concept)
            elif other.status in _TAKEN and other.concept not in lost:
                held.append(other.concept)
        return tuple(dict.fromkeys(held))

    def _around(self, at: int) -> list[int]:
        """Places near enough: those of the same statement that follow, then backwards in time."""
        after = at + 1
        while after < len(self._entries) and self._statements[after] == self._statements[at] is not None:
            after += 1
        before = at
        since = self._entries[at].start_ms - LASTS_MS
        while before > 0 and self._entries[before - 1].start_ms >= since:
            before -= 1
        return [*range(at + 1, after), *range(at - 1, before - 1, -1)]
