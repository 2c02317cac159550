"""Words and lexicon forms read as sounds: a pronouncing dictionary first, spelling rules after it."""

import gzip
from collections.abc import Sequence
from functools import cache, cached_property

from hikite.sounds.spellings import load_spelling, squash
from hikite.terms.places import lexicon_root

_UNREAD = "-"
_LONGEST = 5
# Pieces cut from words ("he" + "'s") are as common as any word, and no list of words holds them.
_CLITIC = 12
# Names that the dictionary lists but nobody writes are what a recogniser makes of foreign words.
_MET = 3
# More words than these met in talk are garbage for the greater part, and none of them is worth its room.
_MOST = 1 << 16


class Letters:
    """A language's letter-to-sound rules, made ready for longest match."""

    def __init__(self, letters: dict[str, str]) -> None:
        self._sounds = letters

    def read(self, word: str) -> str:
        """The word's sounds, doubled ones single; a letter without a rule is silent."""
        bound, at, sounds = f"^{word}$", 0, ""
        while at < len(bound):
            for size in range(min(_LONGEST + 1, len(bound) - at), 0, -1):
                found = self._sounds.get(bound[at : at + size])
                if found is not None:
                    sounds += found
                    at += size
                    break
            else:
                at += 1
        return _single(sounds)


class Ear:
    """What a recogniser of one language hears: readings of its words, and how common they are."""

    def __init__(self, language: str) -> None:
        self._language = language
        self._known: dict[str, tuple[str, ...]] = {}
        self._levels: dict[str, int] = {}

    @cached_property
    def _table(self) -> tuple[dict[str, int], list[str], str]:
        file = lexicon_root() / self._language / "pronunciations.txt.gz"
        if not file.is_file():
            return {}, [], ""
        words, sounds, levels = gzip.decompress(file.read_bytes()).decode("ascii").split("\n")
        return {word: number for number, word in enumerate(words.split(" "))}, sounds.split(" "), levels

    def level(self, word: str) -> int:
        """How common the word is, 0 (never met) to about 15 ("the"), in half decades of its count."""
        level = self._levels.get(word)
        if level is None:
            if len(self._levels) > _MOST:
                self._levels.clear()
            level = self._levels[word] = self._level(word)
        return level

    def _level(self, word: str) -> int:
        numbers, _, levels = self._table
        if word in load_spelling(self._language).clitics:
            return _CLITIC
        number = numbers.get(word)
        return 0 if number is None else int(levels[number], 36)

    def listed(self, word: str) -> str | None:
        """The dictionary's reading of a word, if it lists one."""
        numbers, sounds, _ = self._table
        number = numbers.get(word)
        return None if number is None or sounds[number] == _UNREAD else sounds[number]

    def word(self, word: str) -> tuple[str, ...]:
        """How a written word may have sounded: by the dictionary, else by this spelling or a borrowed one."""
        known = self._known.get(word)
        if known is None:
            if len(self._known) > _MOST:
                self._known.clear()
            clitic = load_spelling(self._language).clitics.get(word)
            if clitic is not None:
                known = self._known[word] = (clitic,)
                return known
            listed = self.listed(word)
            spelt = () if listed is not None and self.level(word) >= _MET else self._spelt(word)
            known = (listed, *spelt[1:]) if listed is not None else spelt
            self._known[word] = known
        return known

    def words(self, words: Sequence[str]) -> tuple[str, ...]:
        """How words said on end may have sounded: one alone in every way, several by their first readings."""
        first, *more = [self.word(word) for word in words]
        return ("".join([one[0] for one in (first, *more)]),) if more else tuple(dict.fromkeys(first))

    def _spelt(self, word: str) -> tuple[str, ...]:
        borrowed = load_spelling(self._language).borrows
        return tuple(letters(language).read(word) for language in (self._language, *borrowed))

    def form(self, form: str, language: str) -> tuple[str, ...]:
        """How a name may sound: by its own language's spelling, with weak vowels slurred, or as read off."""
        words = [squash(word) for word in form.replace("-", " ").split()]
        read_off = "".join(self.word(word)[0] for word in words)
        spelling = load_spelling(language)
        if language == self._language or not spelling.letters:
            return (read_off,) if read_off else ()
        own = "".join(letters(language).read(word) for word in words)
        slurred = "".join(spelling.slurs.get(sound, sound) for sound in own)
        return tuple(dict.fromkeys(reading for reading in (own, slurred, read_off) if reading))


@cache
def letters(language: str) -> Letters:
    """The letter-to-sound rules of one language."""
    return Letters(dict(load_spelling(language).letters))


@cache
def load_ear(language: str) -> Ear:
    """The ear for one language; its dictionary is read at the first word."""
    return Ear(language)


def _single(sounds: str) -> str:
    return "".join(c for i, c in enumerate(sounds) if i == 0 or c != sounds[i - 1])
