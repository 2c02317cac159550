"""Where the lexicon lies: in the wheel beside the code, in a checkout at the top."""

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path


def lexicon_root() -> Traversable:
    """The lexicon folder of the installed package or of the checkout."""
    packaged = files("hikite") / "lexicon"
    return packaged if packaged.is_dir() else Path(__file__).parents[3] / "lexicon"
