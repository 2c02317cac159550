"""WebVTT chapters: nested cues with one line of title each (W3C WebVTT, "chapter title text")."""

from html import escape

from hikite.outputs.chapters import Chapter, bout_chapters, moment_chapters
from hikite.outputs.entries import BoutRecord
from hikite.outputs.formats.format import Format
from hikite.process import Lexicon
from hikite.records import Recording
from hikite.transcripts.stamps import clock

_APART_MS = 1_000


def _cue(chapter: Chapter) -> str:
    title = escape(" ".join(chapter.title.split()), quote=False)
    return f"{clock(chapter.start_ms)} --> {clock(chapter.end_ms)}\n{title}\n"


def _body(recording: Recording, record: BoutRecord, lexicon: Lexicon) -> str:
    cues = []
    for chapter, bout in zip(bout_chapters(record), record.bouts, strict=False):
        cues += [chapter, *moment_chapters(bout, chapter, _APART_MS, lexicon.terms.same)]
    return "\n".join(["WEBVTT\n", *map(_cue, cues)])


FORMAT = Format("chapters", ".chapters.vtt", "WebVTT chapters for a player", False, _body)
