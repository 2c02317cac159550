"""The cues to whose a hold is that tell how the two lie: who is underneath, on top, or tries to get out."""

from hikite.claims.phrases import Found
from hikite.claims.references import Reference
from hikite.claims.scenes import Scene
from hikite.records import Claim

# Cues of whoever is or will be held and of who holds; of who bridges under a hold that is on; of a fall.
_LIES = {"beneath": -1.0, "astride": 1.0}
_STRUGGLES, _FALLS = "struggles", "falls"
# They are looked for so many seconds and words before a hold is called and after. Set by hand.
_BEFORE_S, _BEFORE, _AFTER_S, _AFTER = 25.0, 70, 9.0, 24
_SUBJECTS = frozenset({"name", "colour", "nation", "epithet", "subject", "ours"})


def lying(scene: Scene, draft: Claim, pull: dict[str, float], clues: dict[str, float]) -> None:
    """Whoever was last told to lie beneath or on top before a hold is called, and who struggles in it."""
    now = scene.seconds(draft.first)
    for one in reversed(scene.said(max(draft.first - _BEFORE, 0), draft.first)):
        if now - scene.seconds(one.first) > _BEFORE_S:
            break
        if one.name not in _LIES or _falls(scene, one):
            continue
        who = _whose(scene, one, pull)
        if who is not None:
            clues[one.name] = _LIES[one.name] * pull[who.side]
        break
    for one in scene.said(draft.stop, min(draft.stop + _AFTER, len(scene.words))):
        who = _whose(scene, one, pull) if one.name == _STRUGGLES else None
        if who is not None and scene.seconds(one.first) - now <= _AFTER_S:
            clues[_STRUGGLES] = -pull[who.side]
            break


def _falls(scene: Scene, one: Found) -> bool:
    """As in "red lands on hands and knees": whoever fell so may be up again before the hold."""
    return _FALLS in scene.cues(scene.clause(one.first)[0], one.stop)


def _whose(scene: Scene, one: Found, pull: dict[str, float]) -> Reference | None:
    """The one of whom it is said, in front of it in its clause; nobody where a pronoun stands nearer."""
    first, _ = scene.clause(one.first)
    before = [each for each in scene.pointers(first, one.first) if each.how in _SUBJECTS]
    return before[-1] if before and before[-1].side in pull else None
