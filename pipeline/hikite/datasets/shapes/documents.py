"""spaCy's own binary documents, some hundred a file: what ``spacy train`` takes a folder of."""

from collections import defaultdict
from pathlib import Path
from typing import TYPE_CHECKING

from hikite.datasets.examples import Example
from hikite.datasets.plans import PARTS, Part
from hikite.datasets.shapes.shape import Writer
from hikite.outputs.documents import Documents

if TYPE_CHECKING:
    from spacy.tokens import Doc

_A_FILE = 500
"""So many documents are held in memory."""


class DocumentsWriter(Writer):
    """``documents/train/00001.spacy`` and so on: entities, sentences, and the span group ``hikite``."""

    def __init__(self, folder: Path, language: str) -> None:
        super().__init__(folder, language)
        self._documents = Documents(language)
        self._held: dict[Part, list[Doc]] = defaultdict(list)
        self._files = dict.fromkeys(PARTS, 0)
        for part in PARTS:
            (folder / part).mkdir()

    def write(self, example: Example) -> None:
        """One document."""
        doc = self._documents.named(example.text, example.entries, example.recording.talk)
        doc.user_data["recording"] = example.kept.sha256
        self._held[example.part].append(doc)
        if len(self._held[example.part]) >= _A_FILE:
            self._put(example.part)

    def close(self) -> None:
        """What is held goes into a last file of its part; a part without recordings has none."""
        for part in PARTS:
            if self._held[part]:
                self._put(part)

    def _put(self, part: Part) -> None:
        from spacy.tokens import DocBin

        self._files[part] += 1
        attributes = ["ENT_IOB", "ENT_TYPE", "ENT_KB_ID", "SENT_START"]
        packed = DocBin(attrs=attributes, docs=self._held.pop(part), store_user_data=True)
        packed.to_disk(self.folder / part / f"{self._files[part]:05d}.spacy")
