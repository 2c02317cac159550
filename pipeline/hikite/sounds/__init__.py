"""How words sound to a recogniser that expects English: one sign a sound."""

from hikite.sounds.ears import Ear, load_ear
from hikite.sounds.spellings import squash

__all__ = ["Ear", "load_ear", "squash"]
