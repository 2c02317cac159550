"""Where the drafts of a talk tell that a bout turns: its result, and scores that move."""

from collections.abc import Sequence

from hikite.records import Claim

# So many clocks, calls and counts may be heard after the end: of other mats, of what was.
_LIVE_AFTER = 2
# A bout begins at most so long after the talk of it. Common practice, no source.
_SOON_MS = 60_000


def first_start(drafts: Sequence[Claim]) -> int:
    """The number of the call that the bout begins, the first call of all and soon; 0 without one."""
    for number, draft in enumerate(drafts):
        if draft.start_ms - drafts[0].start_ms > _SOON_MS:
            break
        if draft.kind == "stoppage":
            return number if draft.concept == "start" else 0
    return 0


def first_result(drafts: Sequence[Claim]) -> int:
    """The number of the first draft that gives a result and is followed by hardly anything live; past the
    last where none is: what is called a win in the middle of a bout was none."""
    live, first = 0, len(drafts)
    for number in range(len(drafts) - 1, -1, -1):
        one = drafts[number]
        if one.kind == "result" and one.status == "given":
            first = number
        live += one.kind == "clock" or (one.kind, one.status) == ("hold", "running") or _called(one)
        if live > _LIVE_AFTER:
            break
    return first


def moved(drafts: Sequence[Claim]) -> frozenset[int]:
    """The numbers of the stated scores that are higher than the one stated before them."""
    last, higher = 0, set()
    for number, one in enumerate(drafts):
        if one.kind == "stated_score" and one.tallies:
            total = sum(tally.points or 0 for tally in one.tallies.values())
            if total > last:
                higher.add(number)
            last = total
    return frozenset(higher)


def _called(one: Claim) -> bool:
    """Whether a draft is a call that the bout goes on or is held up."""
    return one.kind == "stoppage" and one.concept != "end"
