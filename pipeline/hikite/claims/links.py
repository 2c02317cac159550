"""How claims hang together: what counters what, what was set up by what, what is named again."""

from hikite.claims.scenes import Scene
from hikite.records import Claim

_REACH_S = 20.0


def link(scene: Scene) -> tuple[Claim, ...]:
    """The scene's claims with ``counters``, ``after`` and ``repeats`` filled in."""
    return tuple(_linked(scene, number) for number in range(len(scene.drafts)))


def _linked(scene: Scene, number: int) -> Claim:
    claim = scene.drafts[number]
    if claim.kind not in ("technique", "grip"):
        return claim
    cues = scene.cues(scene.clause(claim.first)[0], claim.stop)
    found: dict[str, int] = {}
    for back in range(number - 1, -1, -1):
        other = scene.drafts[back]
        if claim.status != "recalled" and scene.seconds(claim.first) - scene.seconds(other.first) > _REACH_S:
            break
        if (
            other.kind == claim.kind
            and scene.alike(other.concept, claim.concept)
            and claim.status == "recalled"
        ):
            found.setdefault("repeats", back)
            break
        if other.kind not in ("technique", "grip") or claim.kind == "grip" or "repeats" in found:
            continue
        near = scene.statement_of[claim.first] - scene.statement_of[other.first] <= 1
        if near and other.kind == "technique" and other.side != claim.side and "counter" in cues:
            found.setdefault("counters", back)
        if near and other.side == claim.side and "combine" in cues and "repeats" not in found:
            found.setdefault("after", back)
    return claim.model_copy(update=found)
