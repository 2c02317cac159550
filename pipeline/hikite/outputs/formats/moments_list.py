"""A plain list of times and titles for a recording's description: the first at 0:00, in rising order."""

from hikite.outputs.chapters import Chapter, bout_chapters, moment_chapters
from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.outputs.phrases import stamp
from hikite.process import Lexicon
from hikite.records import Recording

_APART_MS = 10_000
"""Hosts of recordings want ten seconds between two times. Common practice, no source."""


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    found: list[Chapter] = []
    for chapter, bout in zip(bout_chapters(record), record.bouts, strict=False):
        found += [chapter, *moment_chapters(bout, chapter, _APART_MS, lexicon.terms.same)]
    rows = [(0, record.title or "Start")]
    for chapter in found:
        at = chapter.start_ms // 1000 * 1000
        if at - rows[-1][0] >= _APART_MS:
            rows.append((at, " ".join(chapter.title.split())))
        elif len(rows) == 1:
            rows[0] = (0, chapter.title)
    return "".join(f"{stamp(at)} {title}\n" for at, title in rows)


FORMAT = Format("list", ".txt", "times and titles for a recording's description", False, _body)
