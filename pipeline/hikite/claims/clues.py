"""The cues that tell how a draft claim is meant: words around it, what was claimed before and after.

Few and telling on purpose: with every word as a cue, a speaker's habits drown what is common to all speakers
(measured on the labelled bouts by leaving one annotator's bouts out).
"""

from hikite.claims.scenes import Scene
from hikite.records import Claim

_FAR_CUES = frozenset(("replay", "recap", "suppose", "describe", "threat", "earlier"))
_NEAR_CUES = _FAR_CUES.union(
    ("attempt", "fail", "deny", "success", "naming", "counter", "combine", "break", "seek", "take", "repeat")
)
_AFTER_CUES = frozenset(("fail", "deny", "success"))
_LOUD, _CLOSING = frozenset("!?"), frozenset("!?:;")
_AHEAD, _AHEAD_S, _BEHIND_S = 4, 14.0, 40.0
_REMEMBERED, _ALIKE, _JUST_S, _LATE = 60, 4, 8.0, 0.92
_FARTHEST_OUTCOME = 2
_GRADED = frozenset({"score", "result", "hold", "penalty"})
# Claims that tell nothing of what became of a technique.
_PASSING = frozenset({"position", "clock", "principle", "grip"})


def status_clues(scene: Scene, number: int) -> dict[str, float]:
    """The cues of draft ``number``, each with the value 1."""
    draft = scene.drafts[number]
    clues = {"always", f"draft={draft.status}", f"family={scene.family(draft.concept)}"}
    clues |= _words(scene, draft) | _history(scene, number) | _outcome(scene, number)
    if draft.generic:
        clues.add("generic")
    if draft.points is not None:
        clues.add(f"points={min(draft.points, 5)}")
    return dict.fromkeys(sorted(clues), 1.0)


def _words(scene: Scene, draft: Claim) -> set[str]:
    """Cues in the clause, the statement and its neighbours, named by where they stand."""
    clause_first, _ = scene.clause(draft.first)
    _, clause_stop = scene.clause(draft.stop - 1)
    first, stop = scene.statement(draft.first)
    following = scene.clause(clause_stop) if clause_stop < len(scene.words) else (0, 0)
    near = {
        "before": (clause_first, draft.first),
        "in": (draft.first, draft.stop),
        "after": (draft.stop, clause_stop),
        "next-clause": following,
        "later": (clause_stop, stop),
    }
    far = {"earlier": (first, clause_first), "statement-before": scene.statement(draft.first, -1)}
    after = {"statement-after": scene.statement(draft.first, 1)}
    clues = {
        f"{place}:{cue}"
        for places, wanted in ((near, _NEAR_CUES), (far, _FAR_CUES), (after, _AFTER_CUES))
        for place, (low, high) in places.items()
        for cue in scene.cues(low, high) & wanted
    }
    mark, end = scene.mark(draft.stop), scene.talk.tokens[draft.stop - 1].after
    if mark in _LOUD:
        clues.add(f"mark={mark}")
    if end and end in _CLOSING:
        clues.add(f"end={end}")
    return clues


def _outcome(scene: Scene, number: int) -> set[str]:
    """What the first telling claim after this one is, before anybody does anything else."""
    draft = scene.drafts[number]
    here, now = scene.statement_of[draft.first], scene.seconds(draft.first)
    clues: set[str] = set()
    for other in scene.drafts[number + 1 :]:
        if scene.seconds(other.first) - now > _BEHIND_S:
            return clues or {"outcome=silence"}
        if other.kind in _PASSING or (other.kind == draft.kind and scene.alike(other.concept, draft.concept)):
            if other.kind == draft.kind and other.first < scene.statement(draft.first)[1]:
                clues.add("again-next")
            continue
        if other.kind == "landing" and "lands" not in clues:
            clues.add("lands")
            continue
        name = f"{other.kind}.{other.status}" if other.kind in _GRADED else other.kind
        if other.kind == "technique":
            name = f"technique.{scene.family(other.concept)}"
        clues.add(f"outcome={name}")
        distance = scene.statement_of[other.first] - here
        if distance <= _FARTHEST_OUTCOME:
            clues.add(f"outcome={name}{distance}")
        return clues
    return clues or {"outcome=end"}


def _history(scene: Scene, number: int) -> set[str]:
    """Whether the same was claimed before, how long ago, and what the bout has come to."""
    draft = scene.drafts[number]
    earlier = scene.drafts[max(number - _REMEMBERED, 0) : number]
    clues = _named_before(scene, draft, earlier)
    if number > scene.first_result:
        clues.add("after-result")
    if number > scene.first_end:
        clues.add("after-end")
    if any(one.kind == "stoppage" and one.concept == "stop" for one in earlier[-2:]):
        clues.add("after-stop")
    around = scene.drafts[max(number - _ALIKE, 0) : number + _ALIKE]
    here = scene.statement_of[draft.first]
    alike = sum(one.kind == draft.kind and scene.statement_of[one.first] == here for one in around)
    clues.add(f"alike={min(alike, _ALIKE)}")
    if draft.start_ms > _LATE * scene.talk.tokens[-1].end_ms:
        clues.add("late")
    return clues


def _named_before(scene: Scene, draft: Claim, earlier: tuple[Claim, ...]) -> set[str]:
    now = scene.seconds(draft.first)
    same = [one for one in earlier if one.kind == draft.kind]
    ages = [
        now - scene.seconds(one.first)
        for one in same
        if scene.alike(one.concept, draft.concept) and one.points == draft.points
    ]
    if not ages:
        return {"first-named"}
    lately = "just" if min(ages) < _JUST_S else "lately" if min(ages) < _BEHIND_S else "before"
    clues = {f"named-{lately}"}
    if scene.alike(same[-1].concept, draft.concept):
        clues.add(f"renames-{lately}")
        first, _ = scene.clause(draft.first)
        if not {"repeat", "attempt"} & scene.cues(first, draft.stop):
            clues.add(f"only-renames-{lately}")
    return clues
