"""What a format is."""

from collections.abc import Callable
from typing import NamedTuple

from hikite.outputs.entries import BoutRecord
from hikite.process import Lexicon
from hikite.records import Recording


class Format(NamedTuple):
    """One way to write a recording.

    ``name`` is what ``--to`` takes and ``suffix`` ends the file's name. ``head`` stands once before any
    number of recordings; ``joins`` says that several may follow each other in one file.
    """

    name: str
    suffix: str
    about: str
    joins: bool
    body: Callable[[Recording, BoutRecord, Lexicon], str]
    head: str = ""
