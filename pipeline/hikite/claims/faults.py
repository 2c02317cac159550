"""The cues that tell whom a penalty is against where its words do not: who idled, who feigned."""

from hikite.claims.phrases import Found
from hikite.claims.references import Reference
from hikite.claims.scenes import Scene
from hikite.records import Claim

# How far back, and ahead, somebody is said to do nothing; and how the cue fades by statement.
_IDLE_BACK, _IDLE_AHEAD, _FADES = 70, 25, 0.85
_DRAFTS_BACK, _LATELY_S = 12, 30.0
_IDLE, _SHAM = "idle", "sham"
_BORDER = frozenset({"edge", "out"})
_TRIED = frozenset({"attempted", "failed", "threatened", "completed"})


def idle(scene: Scene, draft: Claim, pull: dict[str, float], focus: float, clues: dict[str, float]) -> None:
    """Who was last, or is next, said to back off, to do nothing; ``focus`` is who the talk is about."""
    here = scene.statement_of[draft.first]
    said = [one for one in scene.said(max(draft.first - _IDLE_BACK, 0), draft.first) if one.name == _IDLE]
    after = [one for one in scene.said(draft.stop, draft.stop + _IDLE_AHEAD) if one.name == _IDLE]
    for name, found in (("idle", said[-1:]), ("idle-after", after[:1])):
        for one in found:
            who = _of_whom(scene, one, pull) or (focus if name == "idle" else 0.0)
            clues[name] = who * _FADES ** abs(here - scene.statement_of[one.first])


def _of_whom(scene: Scene, cue: Found, pull: dict[str, float]) -> float:
    """The pull of whoever a cue is said of: the subject before it, else one named behind it."""
    first, stop = scene.statement(cue.first)
    known = [one for one in scene.pointers(first, cue.first) if one.side in pull]
    later = [one for one in scene.pointers(cue.stop, stop) if one.side in pull]
    found: Reference | None = known[-1] if known else later[0] if later else None
    return 0.0 if found is None else pull[found.side]


def lately(scene: Scene, number: int, settled: list[float], clues: dict[str, float]) -> None:
    """Who was on the border or out, whose attack was feigned, who was penalised last and may be again."""
    draft = scene.drafts[number]
    first, stop = scene.statement(draft.first)
    feigned = _SHAM in scene.cues(first, stop)
    seen: set[str] = set()
    for back in range(number - 1, max(number - 1 - _DRAFTS_BACK, -1), -1):
        other = scene.drafts[back]
        if scene.seconds(draft.first) - scene.seconds(other.first) > _LATELY_S:
            return
        if other.kind in seen or not settled[back]:
            continue
        if other.kind == "position" and other.concept in _BORDER:
            clues["border"] = settled[back]
        elif other.kind == "technique" and other.status in _TRIED and feigned:
            clues["feigned"] = settled[back]
        elif other.kind == "penalty" and other.status == "given" and draft.status == "supposed":
            clues["once-more"] = settled[back]
        else:
            continue
        seen.add(other.kind)
