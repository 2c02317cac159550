"""Where to jump to: titled stretches of a recording, from its moments."""

from typing import NamedTuple

from hikite.outputs.entries import BoutEntries, BoutRecord
from hikite.outputs.moments import Moment, Same, moments_of
from hikite.outputs.phrases import score_words

LEAD_MS = 3_000
"""A chapter opens so long before its moment: talk trails the action. Common practice, no source."""
_WORTH = frozenset({"technique", "hold", "score", "penalty", "result"})


class Chapter(NamedTuple):
    """One titled stretch, in milliseconds of the recording."""

    start_ms: int
    end_ms: int
    title: str


def bout_chapters(record: BoutRecord) -> tuple[Chapter, ...]:
    """One chapter a bout, in time order, without overlap."""
    starts = [max(bout.start_ms - LEAD_MS, 0) for bout in record.bouts]
    ends = [*starts[1:], record.duration_ms]
    return tuple(
        Chapter(start, end, _bout_title(bout, record))
        for bout, start, end in zip(record.bouts, starts, ends, strict=True)
        if start < end
    )


def moment_chapters(bout: BoutEntries, within: Chapter, apart_ms: int, same: Same) -> tuple[Chapter, ...]:
    """The bout's moments worth jumping to inside its own chapter, at least ``apart_ms`` long each.

    Of moments closer together the one that scored stays, else the earlier.
    """
    kept: list[tuple[int, Moment]] = []
    for moment in moments_of(bout, same=same):
        start = max(moment.start_ms - LEAD_MS, within.start_ms)
        if moment.kind not in _WORTH or start > within.end_ms - apart_ms:
            continue
        if kept and start - kept[-1][0] < apart_ms:
            if moment.counts and not kept[-1][1].counts:
                kept[-1] = (kept[-1][0], moment)
            continue
        kept.append((start, moment))
    ends = [*(start for start, _ in kept[1:]), within.end_ms]
    return tuple(Chapter(start, end, _title(moment)) for (start, moment), end in zip(kept, ends, strict=True))


def _bout_title(bout: BoutEntries, record: BoutRecord) -> str:
    names = [one.name or one.side for one in bout.competitors]
    title = f"{' – '.join(names)}, {score_words(bout.final, bout.sides)}"
    return f"Bout {bout.number}: {title}" if len(record.bouts) > 1 else title


def _title(moment: Moment) -> str:
    told = f"{moment.what}, {moment.how}" if moment.how else moment.what
    who = f"{moment.who}: " if moment.who else ""
    score = f" [{moment.score}]" if moment.score else ""
    return f"{who}{told}{score}"
