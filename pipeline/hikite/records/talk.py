"""What was said, as one stream of tokens cut into utterances."""

from functools import cached_property
from typing import TypedDict

from pydantic import BaseModel


class Token(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """A lower-case piece of a word: ``uchi-mata`` is two, ``he's`` is ``he`` and ``'s``, ``six-nil`` two.

    ``cue`` indexes the transcript's cues; ``start`` and ``stop`` are character offsets in that cue's text.
    ``glued`` says that no space stood in front (a hyphen may have). ``capital`` is the written case,
    ``after`` the punctuation that followed the piece (``""``, ``","``, ``"."``, ``"?"``, ``"-"`` …).
    """

    text: str
    cue: int
    start: int
    stop: int
    start_ms: int
    end_ms: int
    glued: bool = False
    capital: bool = False
    after: str = ""


class Utterance(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """Tokens ``first`` to ``stop`` (exclusive) of the talk, said by one speaker as one statement."""

    first: int
    stop: int
    speaker: str | None = None
    cut: str = ""


class Span(TypedDict):
    """Tokens ``first`` to ``stop`` (exclusive) with their times, as the fields of what is read from them."""

    first: int
    stop: int
    start_ms: int
    end_ms: int


class Talk(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """The whole recording's tokens and the statements they form, in time order without gaps.

    ``halts`` are the tokens before which talk without punctuation rather halts, guessed from its words: where
    somebody writing it down would have set a comma or more.
    """

    tokens: tuple[Token, ...]
    utterances: tuple[Utterance, ...]
    halts: tuple[int, ...] = ()

    @cached_property
    def texts(self) -> list[str]:
        """The normalised words, one a token; most stages read nothing else of the tokens."""
        return [token.text for token in self.tokens]

    @cached_property
    def marks(self) -> list[str]:
        """What follows each token as written, mostly nothing."""
        return [token.after for token in self.tokens]

    @cached_property
    def capitals(self) -> list[int]:
        """The tokens written with a capital."""
        return [index for index, token in enumerate(self.tokens) if token.capital]

    def words(self, first: int, stop: int) -> str:
        """The normalised words of a token range, joined by spaces."""
        return " ".join(self.texts[first:stop])

    def span(self, first: int, stop: int) -> Span:
        """The place and times of a token range that is not empty."""
        start_ms, end_ms = self.tokens[first].start_ms, self.tokens[stop - 1].end_ms
        return Span(first=first, stop=stop, start_ms=start_ms, end_ms=end_ms)

    def part(self, first: int, stop: int) -> "Talk":
        """Tokens ``first`` to ``stop`` as a talk of their own, counted from 0; statements are cut to fit."""
        utterances = (
            one.model_copy(
                update={"first": max(one.first, first) - first, "stop": min(one.stop, stop) - first}
            )
            for one in self.utterances
            if one.first < stop and one.stop > first
        )
        halts = tuple([at - first for at in self.halts if first < at < stop])
        return Talk(tokens=self.tokens[first:stop], utterances=tuple(utterances), halts=halts)
