"""JSON Lines: one recording a line, its text and its labels by character offsets."""

import json
from pathlib import Path

from hikite.datasets.examples import Example
from hikite.datasets.plans import PARTS
from hikite.datasets.rows import recording_row, span_row
from hikite.datasets.shapes.shape import Writer


class LinesWriter(Writer):
    """``lines/train.jsonl`` and so on; characters are Unicode code points, counted from 0."""

    def __init__(self, folder: Path, language: str) -> None:
        super().__init__(folder, language)
        self._files = {
            part: (folder / f"{part}.jsonl").open("w", encoding="utf-8", newline="\n") for part in PARTS
        }

    def write(self, example: Example) -> None:
        """One line."""
        tokens = [
            [
                begin := example.text.begins[token.cue] + token.start,
                begin + token.stop - token.start,
                token.start_ms,
            ]
            for token in example.recording.talk.tokens
        ]
        line = {
            **recording_row(example).model_dump(mode="json"),
            "text": example.text.whole,
            "tokens": tokens,
            "spans": [
                span_row(example, entry).model_dump(mode="json", exclude={"recording", "part"})
                for entry in example.entries
            ],
        }
        self._files[example.part].write(json.dumps(line, ensure_ascii=False) + "\n")

    def close(self) -> None:
        """All was written."""
        for file in self._files.values():
            file.close()
