"""Cues put in order: no negative, reversed, empty or overlapping times, each repair reported."""

from hikite.errors import TranscriptError
from hikite.records import Mending
from hikite.transcripts.drafts import Draft

LONGEST_MS = 100 * 3_600_000
# A brisk speaker says fifteen characters a second, a slow one half of that (common practice, no source).
_BRISK_MS, _SLOW_MS, _SHORTEST_MS = 65, 130, 500


def ordered(drafts: list[Draft], file: str) -> tuple[list[Draft], list[Mending]]:
    """The cues by start, each with a start of 0 or later and an end after it; and what was mended."""
    mendings: list[Mending] = []
    sound: list[Draft] = []
    latest = 0
    for draft in drafts:
        _refuse_absurd(draft, file)
        if draft.start_ms < 0:
            mendings.append(
                Mending(file=file, line=draft.line, problem="cue starts before 0:00; moved to 0:00")
            )
            draft = draft._replace(start_ms=0)
        if draft.start_ms < latest:
            problem = "cue stands after a later one; put in order of time"
            mendings.append(Mending(file=file, line=draft.line, problem=problem))
        latest = max(latest, draft.start_ms)
        if draft.end_ms is not None and draft.end_ms <= draft.start_ms:
            how = "has no length" if draft.end_ms == draft.start_ms else "ends before it starts"
            problem = f"cue {how}; its end is estimated"
            mendings.append(Mending(file=file, line=draft.line, problem=problem))
            draft = draft._replace(end_ms=None)
        sound.append(draft)
    sound.sort(key=lambda draft: draft.start_ms)
    return _ended(sound), mendings


def _refuse_absurd(draft: Draft, file: str) -> None:
    times = [draft.start_ms, draft.end_ms or 0]
    times += [time or 0 for piece in draft.pieces for time in piece[1:3]]
    if max(times) > LONGEST_MS or min(times) < -LONGEST_MS:
        raise TranscriptError(f"a time beyond {LONGEST_MS // 3_600_000} hours", file=file, line=draft.line)


def _ended(drafts: list[Draft]) -> list[Draft]:
    """Cues without an end last until the next one starts, or as long as a slow speaker needs."""
    ended: list[Draft] = []
    first = 0
    while first < len(drafts):
        stop = first + 1
        while stop < len(drafts) and drafts[stop].start_ms == drafts[first].start_ms:
            stop += 1
        group = drafts[first:stop]
        known = [draft for draft in group if draft.end_ms is not None]
        open_ended = [draft for draft in group if draft.end_ms is None]
        limit = drafts[stop].start_ms if stop < len(drafts) else None
        ended += known + _shared(open_ended, limit)
        first = stop
    return ended


def _shared(group: list[Draft], limit: int | None) -> list[Draft]:
    """Cues that start together and name no end, said one after the other until ``limit``."""
    if not group:
        return []
    start, size = group[0].start_ms, sum(draft.size for draft in group)
    needed = max(size * (_BRISK_MS if limit is None else _SLOW_MS), _SHORTEST_MS)
    span = needed if limit is None else min(needed, limit - start)
    shared, said = [], 0
    for draft in group:
        begin = start + span * said // size
        said += draft.size
        shared.append(draft._replace(start_ms=begin, end_ms=max(start + span * said // size, begin + 1)))
    return shared


def parted(drafts: list[Draft], file: str) -> tuple[list[Draft], list[Mending]]:
    """The cues without overlaps of one speaker: the earlier cue ends where the later starts.

    Two named speakers may talk at once; their cues stay as they are.
    """
    mendings: list[Mending] = []
    parted: list[Draft] = []
    latest: dict[str | None, int] = {}
    for draft in drafts:
        for speaker, at in latest.items():
            alone = speaker is None or draft.speaker is None or speaker == draft.speaker
            if alone and draft.start_ms < parted[at].ends_ms:
                problem = "cue overlaps an earlier one, which is cut short"
                mendings.append(Mending(file=file, line=draft.line, problem=problem))
                parted[at], draft = _cut(parted[at], draft)
        latest[draft.speaker] = len(parted)
        parted.append(draft)
    return sorted(parted, key=lambda draft: draft.start_ms), mendings


def _cut(before: Draft, draft: Draft) -> tuple[Draft, Draft]:
    """Two overlapping cues set apart; those that start together share their time by length of text."""
    border = draft.start_ms
    if border <= before.start_ms:
        end = max(before.ends_ms, draft.ends_ms)
        border = before.start_ms + (end - before.start_ms) * before.size // (before.size + draft.size)
        # Nobody's cue may grow into one that has been set apart already.
        border = max(min(border, before.ends_ms), before.start_ms + 1)
        draft = draft._replace(end_ms=max(end, border + 1))
    return before._replace(end_ms=border), draft._replace(start_ms=border)
