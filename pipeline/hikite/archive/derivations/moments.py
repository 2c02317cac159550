"""Which entries tell of one moment: the action opens it, its landing and its points belong to it."""

from typing import NamedTuple

from hikite.outputs.entries import BoutEntries, Entry
from hikite.outputs.moments import Same, moments_of

_ACTIONS = frozenset({"technique", "hold", "grip", "penalty"})


class Part(NamedTuple):
    """What an entry is in its moment; ``opens`` is the place of the entry that opens it, counted from 0."""

    head: bool
    opens: int
    gained: int | None = None
    gained_class: str | None = None
    landing: str | None = None


def parts_of(bout: BoutEntries, same: Same) -> tuple[Part, ...]:
    """One part for each entry of the bout, in its order."""
    place = {entry.id: at for at, entry in enumerate(bout.entries)}
    parts: dict[int, Part] = {}
    for moment in moments_of(bout, everything=True, same=same):
        group = [bout.entries[place[id_]] for id_ in moment.entries]
        opens = place[group[0].id]
        score = next((entry for entry in group if entry.kind == "score" and entry.counts), None)
        landing = next((entry.concept for entry in group if entry.kind == "landing"), None)
        scorer = _scorer(group, score, same)
        for entry in group:
            gains = score is not None and entry is scorer
            parts[place[entry.id]] = Part(
                head=entry is group[0] or _apart(entry, group[0], same),
                opens=opens,
                gained=score.points if score and gains else None,
                gained_class=score.score_class if score and gains else None,
                landing=landing if entry is scorer or (scorer is None and entry is group[0]) else None,
            )
    return tuple(parts.get(at, Part(True, at)) for at in range(len(bout.entries)))


def _scorer(group: list[Entry], score: Entry | None, same: Same) -> Entry | None:
    """The action that brought the score: the one the score names, else the first."""
    actions = [entry for entry in group if entry.kind in _ACTIONS]
    if score is None or not actions:
        return None
    return next((entry for entry in actions if same(entry.concept, score.concept)), actions[0])


def _apart(entry: Entry, head: Entry, same: Same) -> bool:
    """Whether an action of the moment is another than the one that opens it."""
    return entry.kind in _ACTIONS and (entry.kind != head.kind or not same(entry.concept, head.concept))
