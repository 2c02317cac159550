"""Names that begin within what else may stand there: nobody "goes for the arm" who goes for the arm drag."""

from collections.abc import Iterable

from hikite.mentions.covers import Found
from hikite.mentions.streams import Stream

_GAP = "~"


def without_beheaded(finds: list[Found], stream: Stream, small: frozenset[str]) -> list[Found]:
    """The finds without those that take the head of a longer name; ``small`` words precede whole ones."""
    names = (find for find in finds if _is_name(find))
    begun = _by_first(name for name in names if name.first and stream.words[name.first - 1] in small)
    return [find for find in finds if not _beheads(find, begun)]


def _by_first(finds: Iterable[Found]) -> dict[int, list[Found]]:
    begun: dict[int, list[Found]] = {}
    for find in finds:
        begun.setdefault(find.first, []).append(find)
    return begun


def _is_name(find: Found) -> bool:
    """Whether it is a name of several words, as written."""
    best = find.candidates[0]
    named = best.how == "exact" and not find.weak and not find.told and _GAP not in best.form
    return named and find.stop - find.first > 1


def _beheads(find: Found, begun: dict[int, list[Found]]) -> bool:
    """Whether a find ends within a name that begins inside it, or fills its own gap with all of one."""
    best = find.candidates[0]
    for at in range(find.first + 1, find.stop):
        for name in begun.get(at, ()):
            if name.candidates[0].concept == best.concept:
                continue
            if name.stop > find.stop or (name.stop == find.stop and _GAP in best.form):
                return True
    return False


def without_swollen(finds: list[Found], written: list[Found]) -> list[Found]:
    """The finds without those that are a name as written and a word more than it has: of "uchi mata red" red
    is no part."""
    begun = _by_first(name for name in written if not name.weak)
    return [find for find in finds if not _swells(find, begun)]


def _swells(find: Found, begun: dict[int, list[Found]]) -> bool:
    best = find.candidates[0]
    size = len(best.form.split())
    return any(
        name.stop <= find.stop
        and size <= name.stop - name.first < find.stop - find.first
        and name.candidates[0].concept == best.concept
        for at in range(find.first, find.stop)
        for name in begun.get(at, ())
    )
