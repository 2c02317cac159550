"""Spoken numbers in a stream of words: cardinals, digits, words for nothing, and "a pair"."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from text_to_num import text2num

from hikite.claims.said.wording import Numbers

_LONGEST = 7
# So many numbers said side by side go up and come back where somebody's steps are counted.
_STEPS = 4
# Right after a number an ordinal from here on is one misheard: "eight-sixth". "One second" is not, nor is one
# that others lead to so few words before: "second is one, third is two, fourth".
_NO_SECOND, _LISTED = 4, 6
# A recogniser writes one number in figures and words: "40 eight". So high are its tens, so low its ones.
_TENS, _ONES = range(20, 100, 10), range(1, 10)


class Number(NamedTuple):
    """Tokens ``first`` to ``stop`` (exclusive) say ``value``; ``form`` is how: word, digits, zero or noun."""

    first: int
    stop: int
    value: int
    form: str


def find_numbers(words: Sequence[str], joined: Sequence[bool], numbers: Numbers) -> tuple[Number, ...]:
    """Every number said, longest reading first, none overlapping.

    ``joined[i]`` says that nothing but a space or a hyphen stands before word ``i``: "twenty, one" is two
    numbers. "two ten" and "six nil" are two as well; what they mean is for others to say.
    """
    return _found(tuple(words), tuple(joined), numbers)


# A talk is read for its names, and again for what is said in it.
@lru_cache(maxsize=2)
def _found(words: tuple[str, ...], joined: tuple[bool, ...], numbers: Numbers) -> tuple[Number, ...]:
    table, nouns = _tables(numbers)
    found: list[Number] = []
    index, end = 0, len(words)
    while index < end:
        number = None
        word = words[index]
        if word in table or word.isdigit():
            number = _read_at(words, joined, index, numbers)
        if number is None and word in nouns:
            number = _noun_at(words, index, numbers)
        if number is None and word in numbers.heard and _only_a_number(words, joined, index, numbers):
            number = Number(index, index + 1, numbers.heard[word], "word")
        if number is not None:
            found.append(number)
            index = number.stop
            ordinal = numbers.ordinals.get(words[index], 0) if index < end and joined[index] else 0
            if ordinal >= _NO_SECOND and numbers.ordinals.keys().isdisjoint(words[index - _LISTED : index]):
                found.append(Number(index, index + 1, numbers.ordinals[words[index]], "word"))
                index += 1
        else:
            index += 1
    return tuple(_without_steps(found))


def _without_steps(found: Sequence[Number]) -> list[Number]:
    """The numbers but those of "one, two, one, two", which count steps and nothing of the bout."""
    steps: set[int] = set()
    for at in range(len(found) - _STEPS + 1):
        row = found[at : at + _STEPS]
        low, high, *again = [number.value for number in row]
        beside = all(one.stop == two.first for one, two in pairwise(row))
        if beside and high == low + 1 and again == [low, high]:
            steps.update(number.first for number in row)
    return [number for number in found if number.first not in steps]


@lru_cache
def _tables_of(words: tuple[str, ...], nouns: tuple[str, ...]) -> tuple[frozenset[str], frozenset[str]]:
    return frozenset(words), frozenset(noun.split()[0] for noun in nouns)


def _tables(numbers: Numbers) -> tuple[frozenset[str], frozenset[str]]:
    return _tables_of(numbers.words + numbers.zeros, tuple(numbers.nouns))


def _read_at(words: Sequence[str], joined: Sequence[bool], index: int, numbers: Numbers) -> Number | None:
    word = words[index]
    if word.isdigit():
        ending = index + 1 < len(words) and joined[index + 1] and words[index + 1] in numbers.endings
        said = Number(index, index + 1 + ending, int(word), "digits") if len(word) <= 4 else None
        return _with_ones(words, joined, said, numbers)
    if word in numbers.zeros:
        return Number(index, index + 1, 0, "zero")
    stop = index + 1
    while stop < len(words) and stop - index < _LONGEST and joined[stop]:
        if words[stop] not in numbers.words and words[stop] not in numbers.joins:
            break
        stop += 1
    while stop > index:
        value = _cardinal(tuple(words[index:stop]), numbers.language)
        if value is not None:
            return _with_ones(words, joined, Number(index, stop, value, "word"), numbers)
        stop -= 1
    return None


def _with_ones(
    words: Sequence[str], joined: Sequence[bool], tens: Number | None, numbers: Numbers
) -> Number | None:
    """The number with its ones, where tens and ones are written one as a word, the other in figures; "20, two
    points" is two numbers, since nobody gets twenty-two."""
    if tens is None or tens.value not in _TENS:
        return tens
    stop = tens.stop
    if stop == len(words) or not joined[stop] or words[stop].isdigit() == words[tens.first].isdigit():
        return tens
    if stop + 1 < len(words) and words[stop + 1] in numbers.counted:
        return tens
    ones = int(words[stop]) if words[stop].isdigit() else _cardinal((words[stop],), numbers.language)
    if ones is None or ones not in _ONES:
        return tens
    return Number(tens.first, stop + 1, tens.value + ones, "digits")


def _only_a_number(words: Sequence[str], joined: Sequence[bool], index: int, numbers: Numbers) -> bool:
    """Whether a word that sounds like a number stands where only one can."""
    after = index + 1
    if after == len(words) or not joined[after]:
        leads = joined[index] and words[index - 1] not in numbers.heard_last_never
        return words[index] in numbers.heard_last and leads
    before = numbers.heard_before[words[index]]
    return any(" ".join(words[after : after + size]) in before for size in (1, 2))


def _noun_at(words: Sequence[str], index: int, numbers: Numbers) -> Number | None:
    """A noun that is a number ("a pair", "half a dozen"), longest first; it needs a determiner of its own."""
    for size in (3, 2, 1):
        value = numbers.nouns.get(" ".join(words[index : index + size]))
        if value is None or index + size > len(words):
            continue
        if size > 1 or (index and words[index - 1] in numbers.determiners):
            return Number(index, index + size, value, "noun")
    return None


@lru_cache(maxsize=4096)
def _cardinal(words: tuple[str, ...], language: str) -> int | None:
    """The words as one whole number, or None; the library reads digit strings as sums, we do not."""
    try:
        return int(text2num(" ".join(words), language))
    except ValueError:
        return None
