"""What parts the words of a talk: nothing, a soft mark, or a statement's end."""

from collections.abc import Collection, Iterable, Sequence

from hikite.records import Talk

NONE, SOFT, HARD = 0, 1, 2
_HARD_MARKS = frozenset(".?!…")
_JOINING = frozenset(("", "-", "‐", "‑"))
# Between the halves of a score a dash stands where speech has nothing.
_DASHES = frozenset("–-‐‑")
# In talk written without marks a silence parts words as a comma would. Such talk has fewer marks than one in
# so many words.
_PAUSE_MS = 280
_WORDS_PER_MARK = 40


def gaps_of(talk: Talk) -> list[int]:
    """What stands before each token, and after the last; borders of statements count as ends."""
    gaps = [HARD]
    tokens = talk.tokens
    ends = sum([mark in _HARD_MARKS for mark in talk.marks if mark])
    unmarked = ends * _WORDS_PER_MARK < len(tokens)
    for index, mark in enumerate(talk.marks, 1):
        last = index == len(tokens)
        if not mark or mark in _DASHES or (not last and tokens[index].glued):
            paused = unmarked and not last and tokens[index].start_ms - tokens[index - 1].end_ms >= _PAUSE_MS
            gaps.append(SOFT if paused else NONE)
        else:
            gaps.append(HARD if mark in _HARD_MARKS else SOFT)
    for utterance in talk.utterances:
        gaps[utterance.first] = gaps[utterance.stop] = HARD
    return gaps


def joined(talk: Talk, gaps: Sequence[int]) -> list[bool]:
    """Whether nothing but a space or a hyphen stands before each token."""
    return [False, *(not gap and mark in _JOINING for gap, mark in zip(gaps[1:], talk.marks, strict=True))]


def parted(gaps: Sequence[int], at: Iterable[int]) -> list[int]:
    """The gaps, at least a soft mark before each of these tokens."""
    softer = list(gaps)
    for index in at:
        softer[index] = max(softer[index], SOFT)
    return softer


def barriers(talk: Talk, gaps: Sequence[int], joiners: Collection[str]) -> Sequence[int]:
    """The gaps as a phrase meets them: it may go on where nothing but an "and" or "but" ends a statement.

    "Fifteen and he's out" is one phrase however the talk was cut before its "and".
    """
    tokens = talk.tokens
    guessed = {
        one.first
        for one in talk.utterances
        if one.first and not tokens[one.first - 1].after and tokens[one.first].text in joiners
    }
    return [SOFT if at in guessed else gap for at, gap in enumerate(gaps)]
