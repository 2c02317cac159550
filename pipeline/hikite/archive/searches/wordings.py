"""The words of an expression, read from left to right."""

import re
from collections.abc import Callable
from datetime import date
from typing import NamedTuple

from hikite.archive.errors import QueryError

_TOKEN = re.compile(r'"([^"]*)"|“([^”]*)”|([^\s"“”]+)')
_LONGEST = 8
"""No name is looked for in more words than this."""


class Token(NamedTuple):
    """A word or a quotation; ``column`` counts from 1."""

    text: str
    column: int
    quoted: bool


class Words:
    """What is left of an expression.

    ``reserved`` words end a name, unless ``knows`` knows one that goes on with them: `arm under`.
    """

    def __init__(self, text: str, reserved: frozenset[str], knows: Callable[[str], bool]) -> None:
        if text.count('"') % 2 or text.count("“") != text.count("”"):
            raise QueryError("a quotation is not closed", column=max(text.rfind('"'), text.rfind("“")) + 1)
        self._reserved, self._knows = reserved, knows
        self._tokens = tuple(filter(lambda token: token.text, map(_token, _TOKEN.finditer(text))))
        self._at, self._end = 0, len(text) + 1

    @property
    def column(self) -> int:
        """Where the next word stands, or the end."""
        return self._tokens[self._at].column if self.left else self._end

    @property
    def left(self) -> bool:
        """Whether there is a next word."""
        return self._at < len(self._tokens)

    def opens(self, words: frozenset[str] | tuple[str, ...]) -> bool:
        """Whether the next word is one of these, and no quotation."""
        here = self._tokens[self._at] if self.left else None
        return here is not None and not here.quoted and here.text in words

    def counts(self) -> bool:
        """Whether the word after the next is a number."""
        after = self._tokens[self._at + 1 : self._at + 2]
        return any(token.text.isdigit() and not token.quoted for token in after)

    def take(self, *words: str) -> str | None:
        """The next word if it is one of these."""
        return self.word("") if self.opens(words) else None

    def word(self, what: str) -> str:
        """The next word, whatever it is."""
        if not self.left:
            raise QueryError(f"{what} is wanted here", column=self._end)
        self._at += 1
        return self._tokens[self._at - 1].text

    def one_of(self, words: frozenset[str], what: str) -> str:
        """The next word, which must be one of these."""
        column, word = self.column, self.word(f"a {what}")
        if word not in words:
            raise QueryError(f"no {what} {word!r}; there are {', '.join(sorted(words))}", column=column)
        return word

    def name(self, what: str) -> str:
        """One quotation, the longest name known from here, or the words to the next reserved one."""
        if self.left and self._tokens[self._at].quoted:
            return self.word(what)
        words = self._known() or self._free()
        if not words:
            raise QueryError(f"{what} is wanted here", column=self.column)
        self._at += len(words)
        return " ".join(words)

    def names(self, what: str) -> tuple[str, ...]:
        """Names with ``or`` between them."""
        names = [self.name(what)]
        while self.take("or"):
            names.append(self.name(what))
        return tuple(names)

    def number(self, what: str = "a number", unit: str = "") -> int:
        """A whole number, perhaps with a unit."""
        column, word = self.column, self.word(what)
        plain = word.removesuffix(unit) if unit else word
        if unit:
            self.take(unit)
        if not (plain.isascii() and plain.isdigit()):
            raise QueryError(f"{what} is wanted here, not {word!r}", column=column)
        return int(plain)

    def clock(self) -> int:
        """A time on the clock, in seconds."""
        column, word = self.column, self.word("a time on the clock")
        found = re.fullmatch(r"(\d{1,3}):([0-5]\d)", word)
        if found is None:
            raise QueryError(f"a time on the clock is like 1:30, not {word!r}", column=column)
        return int(found[1]) * 60 + int(found[2])

    def day(self) -> str:
        """A day, ISO 8601."""
        column, word = self.column, self.word("a day")
        try:
            return date.fromisoformat(word).isoformat()
        except ValueError:
            raise QueryError(f"a day is like 2026-05-09, not {word!r}", column=column) from None

    def _known(self) -> list[str]:
        run = []
        for token in self._tokens[self._at : self._at + _LONGEST]:
            if token.quoted:
                break
            run.append(token.text)
        if self.opens(tuple(self._reserved)):
            return []
        # Not one that ends with such a word: `throw by red` is no throw-by.
        lengths = (
            n
            for n in range(len(run), 1, -1)
            if self._reserved & set(run[:n]) and run[n - 1] not in self._reserved
        )
        return next((run[:n] for n in lengths if self._knows(" ".join(run[:n]))), [])

    def _free(self) -> list[str]:
        words = []
        for token in self._tokens[self._at :]:
            if token.quoted or token.text in self._reserved:
                break
            words.append(token.text)
        return words


def _token(found: re.Match[str]) -> Token:
    text = next(part for part in found.groups() if part is not None)
    quoted = found[3] is None
    return Token(text if quoted else text.rstrip(","), found.start() + 1, quoted)
