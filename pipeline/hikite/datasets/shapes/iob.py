"""IOB: a token a line with its concept and its tag, an empty line between statements.

Columns as in the shared tasks of CoNLL (2002, 2003): the token first, the tag last, ``-DOCSTART-`` before
each recording. Where labels overlap the longest stands.
"""

from pathlib import Path

from hikite.datasets.examples import Example
from hikite.datasets.plans import PARTS
from hikite.datasets.shapes.shape import Writer
from hikite.outputs.documents import Documents


class IobWriter(Writer):
    """``iob/train.iob`` and so on."""

    def __init__(self, folder: Path, language: str) -> None:
        super().__init__(folder, language)
        self._documents = Documents(language)
        self._files = {
            part: (folder / f"{part}.iob").open("w", encoding="utf-8", newline="\n") for part in PARTS
        }

    def write(self, example: Example) -> None:
        """One recording's statements."""
        doc = self._documents.named(example.text, example.entries, example.recording.talk)
        lines = ["-DOCSTART- _ O", ""]
        for statement in doc.sents:
            for token in statement:
                if token.text.strip():
                    tag = f"{token.ent_iob_}-{token.ent_type_}" if token.ent_type_ else "O"
                    lines.append(f"{''.join(token.text.split())} {token.ent_kb_id_ or '_'} {tag}")
            lines.append("")
        self._files[example.part].write("\n".join(lines) + "\n")

    def close(self) -> None:
        """All was written."""
        for file in self._files.values():
            file.close()
