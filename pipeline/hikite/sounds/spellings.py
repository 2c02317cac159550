"""The typed content of ``lexicon/<lang>/sounds.toml``, and spelling reduced to what counts."""

import tomllib
import unicodedata
from functools import cache

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.terms.places import lexicon_root


class Spelling(BaseModel, frozen=True, extra="forbid"):
    """One language's spelling: ``letters`` to sounds (longest first, ``^`` and ``$`` bind to a word's ends).

    ``endings`` are what a name takes off and puts on in running speech, and ``swaps`` are pieces written in
    two ways. ``borrows`` names the languages by whose spelling a recogniser of this one writes words that it
    does not know. ``slurs`` are sounds as they come out where no stress falls, by the
    sound as spelt; ``clitics`` are pieces cut from words, which do not sound as the names of their letters.
    """

    letters: dict[str, str]
    endings: tuple[tuple[str, str], ...] = ()
    swaps: tuple[tuple[str, str], ...] = ()
    borrows: tuple[str, ...] = ()
    slurs: dict[str, str] = {}
    clitics: dict[str, str] = {}


@cache
def load_spelling(language: str) -> Spelling:
    """The spelling of one language, an empty one where it has no file; LexiconError on a broken file."""
    file = lexicon_root() / language / "sounds.toml"
    if not file.is_file():
        return Spelling(letters={})
    try:
        return Spelling.model_validate(tomllib.loads(file.read_text("utf-8")))
    except (tomllib.TOMLDecodeError, ValidationError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem


def squash(text: str) -> str:
    """Letters and digits alone, case folded, accents dropped; kana keep their voicing marks."""
    text = text.casefold()
    if text.isascii():
        return text if text.isalnum() else "".join(filter(str.isalnum, text))
    split = unicodedata.normalize("NFKD", text)
    text = unicodedata.normalize("NFC", "".join(c for c in split if not "\u0300" <= c <= "\u036f"))
    return "".join(filter(str.isalnum, text))
