"""What became of an action: what is said behind its name until somebody does the next thing."""

from hikite.claims.scenes import GRADED, Scene

_AHEAD_S, _FARTHEST_OUTCOME = 40.0, 2
_EFFECTS = frozenset({"thwart", "effect"})
_TELLING = {
    ("landing", "stated"): "effect",
    ("hold", "running"): "effect",
    ("score", "given"): "award",
    ("result", "given"): "award",
    ("score", "denied"): "thwart",
    ("stoppage", "stated"): "stop",
}
# Claims that tell nothing of what became of a technique.
_PASSING = frozenset({"position", "clock", "principle", "grip"})


def aftermath(scene: Scene, number: int) -> set[str]:
    """Whether it is said to have been thwarted, to have had an effect or been paid, and which comes first."""
    draft = scene.drafts[number]
    horizon = _horizon(scene, number)
    told = [(one.first, one.name) for one in scene.said(draft.stop, horizon) if one.name in _EFFECTS]
    for other in scene.drafts[number + 1 :]:
        if other.first >= horizon:
            break
        meaning = _TELLING.get((other.kind, other.status))
        if meaning is not None:
            told.append((other.first, meaning))
    if not told:
        return {"then=nothing"}
    return {f"then={min(told)[1]}", *(f"then:{name}" for _, name in told)}


def _horizon(scene: Scene, number: int) -> int:
    """Where the talk leaves a draft's matter: at another technique, or at the end of the next statement."""
    draft = scene.drafts[number]
    stop = scene.statement(draft.first, 1)[1] or len(scene.words)
    for other in scene.drafts[number + 1 :]:
        if other.first >= stop:
            break
        if other.kind == "technique" and not scene.alike(other.concept, draft.concept):
            return max(other.first, draft.stop)
    return stop


def outcome(scene: Scene, number: int) -> set[str]:
    """What the first telling claim after this one is, before anybody does anything else."""
    draft = scene.drafts[number]
    here, now = scene.statement_of[draft.first], scene.seconds(draft.first)
    clues: set[str] = set()
    for ahead in range(number + 1, len(scene.drafts)):
        other = scene.drafts[ahead]
        if scene.seconds(other.first) - now > _AHEAD_S:
            return clues or {"outcome=silence"}
        if other.kind in _PASSING or (other.kind == draft.kind and scene.alike(other.concept, draft.concept)):
            continue
        if other.kind == "landing" and "lands" not in clues:
            clues.add("lands")
            continue
        name = _outcome_name(scene, ahead)
        clues.add(f"outcome={name}")
        distance = scene.statement_of[other.first] - here
        if distance <= _FARTHEST_OUTCOME:
            clues.add(f"outcome={name}{distance}")
        return clues
    return clues or {"outcome=end"}


def _outcome_name(scene: Scene, number: int) -> str:
    other = scene.drafts[number]
    if other.kind in GRADED:
        return f"{other.kind}.{other.status}"
    if other.kind == "technique":
        return f"technique.{scene.family(other.concept)}"
    if other.kind == "stated_score":
        return "stated-moved" if scene.moved(number) else "stated-same"
    return other.kind
