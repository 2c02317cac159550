"""What is known of a stream before anything is weighed, and which finds stand at the same place."""

from hikite.mentions.contexts import Neighbourhood
from hikite.mentions.covers import Found
from hikite.mentions.soundings import Soundings
from hikite.mentions.streams import Stream
from hikite.sounds import squash


class Views:
    """One stream and all that is known of it before anything is weighed."""

    def __init__(self, stream: Stream, near: Neighbourhood, spelt: list[Found], windows: Soundings) -> None:
        self.stream, self.near, self.spelt, self.windows = stream, near, spelt, windows
        self.places = places(spelt)


def places(finds: list[Found]) -> dict[str, list[tuple[int, int]]]:
    """Where each concept is found."""
    found: dict[str, list[tuple[int, int]]] = {}
    for find in finds:
        for candidate in find.candidates:
            found.setdefault(candidate.concept, []).append((find.first, find.stop))
    return found


def letters(find: Found) -> int:
    """How many letters the name has that a find is taken for."""
    return len(squash(find.candidates[0].form))


def stands(find: Found, places: dict[str, list[tuple[int, int]]], whole: bool = False) -> bool:
    """Whether the concept of a find is at one of these places, some of its words or all of them."""
    if whole:
        return any(
            first <= find.first and find.stop <= stop
            for first, stop in places.get(find.candidates[0].concept, ())
        )
    return any(
        first < find.stop and find.first < stop for first, stop in places.get(find.candidates[0].concept, ())
    )
