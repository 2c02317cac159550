"""Caption and recogniser files to timed words, and back."""

from hikite.transcripts.reading import read
from hikite.transcripts.writing import write

__all__ = ["read", "write"]
