"""What became of an action: what is said around its name until somebody does the next thing."""

from hikite.claims.scenes import GRADED, Scene
from hikite.records import Claim

_AHEAD_S, _FARTHEST_OUTCOME, _STATEMENTS_BACK = 40.0, 2, 2
# A second name of the same action follows the first within so many words.
_BREATH, _DRAFTS_BACK = 3, 20
_EFFECTS = frozenset({"thwart", "effect"})
_TELLING = {
    ("landing", "stated"): "effect",
    ("hold", "running"): "effect",
    ("score", "given"): "award",
    ("result", "given"): "award",
    ("score", "denied"): "thwart",
    ("stoppage", "stated"): "stop",
}
# What may follow at once on an action that came off.
_REWARDS = frozenset(
    {"score.given", "score.supposed", "result.given", "hold.running", "stated-moved", "landing"}
)
# What brings no points by itself.
_DEFENCE = "defence"
# Claims that tell nothing of what became of a technique.
_PASSING = frozenset({"position", "clock", "principle", "grip"})


def aftermath(scene: Scene, number: int) -> set[str]:
    """Whether it is said to have been thwarted, to have had an effect or been paid, and which comes first."""
    draft = scene.drafts[number]
    horizon = _horizon(scene, number)
    told = _worded(scene, draft.stop, horizon)
    for other in scene.drafts[number + 1 :]:
        if other.first >= horizon:
            break
        if not _manner(scene, draft, other):
            told += _meaning(scene, other)
    told += _refused(scene, draft.stop, horizon)
    if not told:
        return {"then=nothing"}
    return {f"then={min(told)[1]}", *(f"then:{name}" for _, name in told)}


def foregone(scene: Scene, number: int) -> set[str]:
    """What was told last before a draft, since another technique was named or a call was made."""
    draft = scene.drafts[number]
    low = scene.statement(draft.first, -_STATEMENTS_BACK)[0]
    told: list[tuple[int, str]] = []
    for other in reversed(scene.drafts[max(number - _DRAFTS_BACK, 0) : number]):
        if other.first < low:
            break
        if other.kind in ("technique", "stoppage"):
            low = other.stop
            break
        told += _meaning(scene, other)
    told += _worded(scene, low, draft.first)
    return {f"told={max(told)[1] if told else 'nothing'}"}


def _worded(scene: Scene, first: int, stop: int) -> list[tuple[int, str]]:
    """Where a range says in so many words that something was thwarted or had an effect."""
    return [(one.first, one.name) for one in scene.said(first, stop) if one.name in _EFFECTS]


def _refused(scene: Scene, first: int, stop: int) -> list[tuple[int, str]]:
    """Where a clause of its own says no, and nothing is put right behind it: "a sweep … and no"."""
    said = []
    for low, high in scene.clauses_within(first, stop):
        words = [word for word in scene.words[low:high] if word not in scene.speech.refusal.around]
        behind = scene.statement(low)[1]
        if words and scene.speech.refusal.words.issuperset(words) and "mend" not in scene.cues(high, behind):
            said.append((low, "thwart"))
    return said


def _meaning(scene: Scene, other: Claim) -> list[tuple[int, str]]:
    """What another draft tells of the action it stands by, if anything, and where.

    Whoever comes down on the knees alone was not thrown.
    """
    meaning = "thwart" if _upheld(scene, other) else _TELLING.get((other.kind, other.status))
    return [] if meaning is None else [(other.first, meaning)]


def _upheld(scene: Scene, other: Claim) -> bool:
    """Whether a landing is one of somebody who was not thrown."""
    return other.kind == "landing" and "thwart" in scene.cues(other.first, other.stop)


def _manner(scene: Scene, draft: Claim, other: Claim) -> bool:
    """Whether a landing told right behind a throw is how that is done: "seoi-nage, on her knees"."""
    return other.first <= draft.stop and _upheld(scene, other)


def _horizon(scene: Scene, number: int) -> int:
    """Where the talk leaves a draft's matter: at another technique, or at the end of the next statement."""
    draft = scene.drafts[number]
    stop = scene.statement(draft.first, 1)[1] or len(scene.words)
    last = draft.stop
    for other in scene.drafts[number + 1 :]:
        if other.first >= stop:
            break
        if other.kind != "technique":
            continue
        if not (other.generic or _renamed(scene, draft, other, last)):
            return max(other.first, draft.stop)
        last = other.stop
    return stop


def _renamed(scene: Scene, draft: Claim, other: Claim, last: int) -> bool:
    """Whether a later technique is the same, or its second name in one breath: "headlock, koshi-guruma"."""
    if scene.alike(other.concept, draft.concept):
        return True
    return other.first - last <= _BREATH and scene.family(other.concept) == scene.family(draft.concept)


def outcome(scene: Scene, number: int) -> set[str]:
    """What the first telling claim after this one is, before anybody does anything else."""
    draft = scene.drafts[number]
    here, now = scene.statement_of[draft.first], scene.seconds(draft.first)
    sport = scene.rules.partition(".")[0]
    payable = draft.kind == "technique" and scene.family(draft.concept) != _DEFENCE
    clues: set[str] = set()
    last = draft.stop
    for ahead in range(number + 1, len(scene.drafts)):
        other = scene.drafts[ahead]
        if scene.seconds(other.first) - now > _AHEAD_S:
            return clues or {"outcome=silence"}
        if other.kind in _PASSING:
            continue
        if other.kind == draft.kind and _renamed(scene, draft, other, last):
            last = other.stop
            continue
        if other.kind == "landing" and "lands" not in clues:
            if _manner(scene, draft, other):
                continue
            clues |= {"lands", f"lands={other.concept}", f"{sport}:lands={other.concept}"}
            continue
        name = _outcome_name(scene, ahead)
        clues.add(f"outcome={name}")
        if payable and name not in _REWARDS:
            clues.add("outcome=unpaid-landing" if "lands" in clues else "outcome=unpaid")
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
