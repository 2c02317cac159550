"""How claims hang together: what counters what, what was set up by what, what is named again."""

from hikite.claims.scenes import Scene
from hikite.records import Claim

_REACH_S = 20.0
_ACTS = frozenset({"technique", "grip"})
_TOLD = frozenset({"recalled", "described"})
# Words between two names that make one of them the way to the other: "inside trip into the shoulder throw".
_JOINED = 6


def link(scene: Scene) -> tuple[Claim, ...]:
    """The scene's claims with ``counters``, ``after`` and ``repeats`` filled in."""
    return tuple(_linked(scene, number) for number in range(len(scene.drafts)))


def _linked(scene: Scene, number: int) -> Claim:
    claim = scene.drafts[number]
    if claim.kind not in _ACTS:
        return claim
    if claim.status == "recalled":
        return claim.model_copy(update={"repeats": _named_before(scene, number)})
    if scene.renames[number] is not None:
        return claim.model_copy(update={"repeats": scene.renames[number]})
    last = _act_before(scene, number)
    if last is None or claim.kind == "grip":
        return claim
    other = scene.drafts[last]
    between = scene.cues(other.stop, claim.first)
    behind = scene.cues(claim.stop, scene.clause(claim.stop - 1)[1])
    if other.kind == "technique" and other.side != claim.side and "counter" in between | behind:
        return claim.model_copy(update={"counters": last})
    near = claim.first - other.stop <= _JOINED
    if other.side == claim.side and (
        "combine" in between or (near and other.status in ("threatened", "taken"))
    ):
        return claim.model_copy(update={"after": last})
    return claim


def _act_before(scene: Scene, number: int) -> int | None:
    """The last technique or grip of this statement or the one before, if it is not the same."""
    claim = scene.drafts[number]
    for back in range(number - 1, -1, -1):
        other = scene.drafts[back]
        if (
            scene.statement_of[claim.first] - scene.statement_of[other.first] > 1
            or scene.seconds(claim.first) - scene.seconds(other.first) > _REACH_S
        ):
            return None
        if other.kind in _ACTS and other.status not in _TOLD:
            return None if scene.alike(other.concept, claim.concept) else back
    return None


def _named_before(scene: Scene, number: int) -> int | None:
    """The last claim of the same kind and concept that was not itself told again; else the last at all."""
    claim = scene.drafts[number]
    same = [
        back
        for back in range(number)
        if scene.drafts[back].kind == claim.kind and scene.alike(scene.drafts[back].concept, claim.concept)
    ]
    acted = [back for back in same if scene.drafts[back].status not in _TOLD]
    told = acted or same
    return told[-1] if told else None
