"""What a shape's writer does."""

from abc import ABC, abstractmethod
from pathlib import Path

from hikite.datasets.examples import Example


class Writer(ABC):
    """Writes examples below a folder, one after another, so that any number fit."""

    def __init__(self, folder: Path, language: str) -> None:
        self.folder, self.language = folder, language
        folder.mkdir()

    @abstractmethod
    def write(self, example: Example) -> None:
        """Add one example to its part."""

    @abstractmethod
    def close(self) -> None:
        """All was written."""
