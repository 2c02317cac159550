"""Counts aloud and what is paid behind them are their hold's; what is taken back is whoever's it was."""

from hikite.claims.scenes import Scene
from hikite.records import Claim
from hikite.records.marks import TAKEN_BACK

# So many drafts, and so long, after a hold was last told of a count goes on with it.
_COUNTED_BACK, _COUNTED_MS = 8, 25_000
# So far a count aloud strays from the clock.
_STRAYS_S = 4.0
# So many drafts before it is taken back an award was given at most.
_TAKEN_BACK = 20
# A score so soon behind a count is for it.
_PAID_MS = 5_000
# Whoever taps, taps to a lock told so long before at most.
_LOCK, _TAPS, _TAPPED_MS = "submission-hold", "submission", 20_000


def held(scene: Scene, number: int) -> int | None:
    """The draft of the hold that a count goes on with or that is paid right behind one, or of the award taken
    back: it has no other side than that, whoever is said to wriggle under it."""
    draft, drafts = scene.drafts[number], scene.drafts
    if draft.kind == "score" and draft.of == TAKEN_BACK:
        return _given_before(scene, number)
    if draft.kind == "score" and number:
        last = drafts[number - 1]
        counted = last.kind == "hold" and (last.seconds is not None or last.status == "completed")
        paid = counted or (last.concept == _TAPS and last.status == "given")
        return number - 1 if paid and draft.start_ms - last.end_ms <= _PAID_MS else None
    if draft.kind != "hold" or draft.seconds is None:
        return None
    for back in range(number - 1, max(number - 1 - _COUNTED_BACK, -1), -1):
        other = drafts[back]
        if other.kind == "stoppage" or draft.start_ms - other.end_ms > _COUNTED_MS:
            return None
        if other.kind == "hold":
            return back if other.status == "running" or _counted_on(other, draft) else None
    return None


def _given_before(scene: Scene, number: int) -> int | None:
    """The award that is taken back: the last one given of its value."""
    draft = scene.drafts[number]
    for back in range(number - 1, max(number - 1 - _TAKEN_BACK, -1), -1):
        other = scene.drafts[back]
        same = (other.kind, other.concept, other.points) == (draft.kind, draft.concept, draft.points)
        if same and other.status == "given":
            return back
    return None


def locked(scene: Scene, number: int) -> int | None:
    """The draft of the lock that somebody taps to: "she's straightening it, she's, tap!" is its owner's."""
    draft = scene.drafts[number]
    if draft.concept != _TAPS:
        return None
    for back in range(number - 1, -1, -1):
        other = scene.drafts[back]
        if draft.start_ms - other.end_ms > _TAPPED_MS:
            return None
        if other.kind == "technique" and scene.family(other.concept) == _LOCK:
            return back
        if other.concept == _TAPS:
            return back
    return None


def _counted_on(hold: Claim, count: Claim) -> bool:
    """Whether a count goes on from a hold as a clock would: what was said to break it did not."""
    if hold.seconds is None or count.seconds is None or count.seconds <= hold.seconds:
        return False
    return abs((count.start_ms - hold.end_ms) / 1000 - (count.seconds - hold.seconds)) <= _STRAYS_S
