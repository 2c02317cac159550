"""Names that a recogniser wrote letter by letter, hearing no word in them: "t a r q", "m b a r a n d a s"."""

from collections.abc import Collection, Iterator, Sequence

from rapidfuzz import fuzz, process

# So many letters stand alone, with short words between that were letters too; so many tokens at most.
_FEWEST, _SHORT, _LONGEST = 3, 3, 12
# How like a name the letters are, 0 to 100, and how much less like the other side's. Set by hand.
_LIKE, _MARGIN = 62.0, 10.0


def lettered(
    words: Sequence[str], names: Sequence[tuple[str, str]], taken: Collection[int]
) -> Iterator[tuple[int, int, str]]:
    """Token ranges that spell a name of one side, with the side."""
    done = 0
    for first, stop in _runs(words, taken) if names else ():
        likeliest = max(_readings(words, first, stop, names), default=None)
        if likeliest is not None and likeliest[1] >= done:
            done = likeliest[2]
            yield likeliest[1:]


def _runs(words: Sequence[str], taken: Collection[int]) -> Iterator[tuple[int, int]]:
    """Where short words follow each other with letters enough among them."""
    first = 0
    for at in range(len(words) + 1):
        if at < len(words) and len(words[at]) <= _SHORT and words[at].isalpha() and at not in taken:
            continue
        if _letters(words[first:at]) >= _FEWEST:
            yield first, at
        first = at + 1


def _letters(words: Sequence[str]) -> int:
    """How many of the words are a letter."""
    return sum([len(word) == 1 for word in words])


def _readings(
    words: Sequence[str], first: int, stop: int, names: Sequence[tuple[str, str]]
) -> Iterator[tuple[float, int, int, str]]:
    """What within a run is like a name of one side alone: how like, where, and the side."""
    for begin in range(first, stop):
        for end in range(begin + _FEWEST, min(begin + _LONGEST, stop) + 1):
            said = words[begin:end]
            if 2 * _letters(said) <= len(said) or _letters(said) < _FEWEST:
                continue
            best = dict.fromkeys({side for _, side in names}, 0.0)
            for _, like, at in process.extract(
                "".join(said), [name for name, _ in names], scorer=fuzz.ratio, limit=None
            ):
                best[names[at][1]] = max(best[names[at][1]], like)
            side, *others = sorted(best, key=lambda side: -best[side])
            if best[side] >= _LIKE and all(best[side] - best[other] >= _MARGIN for other in others):
                yield best[side], begin, end, side
