"""An archive to a folder of data."""

import csv
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path

from hikite.archive import Archive
from hikite.datasets.cards import card
from hikite.datasets.counts import Counts
from hikite.datasets.errors import DatasetError
from hikite.datasets.examples import examples
from hikite.datasets.folders import whole_folder
from hikite.datasets.plans import Plan
from hikite.datasets.rows import RecordingRow, recording_row
from hikite.datasets.shapes import WRITERS
from hikite.datasets.splits import split_archive
from hikite.process import Lexicon

Watch = Callable[[int, int], None]
"""Told how many recordings are done, and of how many."""


def write_dataset(
    archive: Archive, folder: Path, plan: Plan, lexicon: Lexicon, watch: Watch = lambda done, of: None
) -> Counts:
    """What was written, counted; DatasetError where the archive is empty or the folder stands there already.

    The folder holds ``README.md`` (the card), ``recordings.csv`` (which recording is in which part), and a
    folder a shape.
    """
    with archive.looking(), whole_folder(folder) as part:
        split = split_archive(archive, plan.shares, plan.seed)
        if not split.parts:
            raise DatasetError("holds no recordings", file=str(archive.file))
        counts = Counts()
        with ExitStack() as closing:
            listed = closing.enter_context((part / "recordings.csv").open("w", encoding="utf-8", newline=""))
            table = csv.DictWriter(listed, list(RecordingRow.model_fields))
            table.writeheader()
            writers = [WRITERS[shape](part / shape, lexicon.language) for shape in dict.fromkeys(plan.shapes)]
            for writer in writers:
                closing.callback(writer.close)
            for done, example in enumerate(examples(archive, split, plan, lexicon), 1):
                for writer in writers:
                    writer.write(example)
                table.writerow(recording_row(example).model_dump())
                counts.add(example)
                watch(done, len(split.parts))
        (part / "README.md").write_text(card(counts, plan), encoding="utf-8")
    return counts
