"""What is told on in one breath, a name broken off and said whole, and a throw retold are one thing each."""

from collections.abc import Iterable

from hikite.claims.grounded import told
from hikite.claims.scenes import Scene
from hikite.claims.sifting import SIFTED
from hikite.records import Claim

_NEAR_WORDS = 3
# How many words may stand between a name and what tells it in other words, behind it or before it.
_RETOLD_WORDS, _FORETOLD_WORDS = 6, 2
# How many words may stand between a name broken off and the whole one.
_BEGUN_WORDS = 6
_SENTENCE_ENDS = frozenset((".", "?", "!", "…", "...", "—"))
# Cues between two names of one thing by which the second is another attempt at it.
_ANEW = frozenset(("attempt", "take", "seek", "break", "success", "fail", "replay", "unreal", "threat"))


def without_echoes(drafts: Iterable[Claim], scene: Scene) -> list[Claim]:
    """The drafts, a name and what tells of it in one breath made one: "tomoe-nage, foot in the stomach"."""
    kept: list[Claim] = []
    for draft in drafts:
        last = kept[-1] if kept else None
        if last is not None and _retold(last, draft, scene):
            kept[-1] = last if _names(last, scene) else draft
        elif last is not None and (_begun(last, draft, scene) or _goes_on(last, draft, scene)):
            sure = max(last.confidence, draft.confidence)
            named = draft if len(last.alternatives) > len(draft.alternatives) else last
            kept[-1] = named.model_copy(
                update={
                    "first": last.first,
                    "start_ms": last.start_ms,
                    "stop": draft.stop,
                    "end_ms": draft.end_ms,
                    "confidence": sure,
                }
            )
        else:
            kept.append(draft)
    return kept


def _goes_on(last: Claim, draft: Claim, scene: Scene) -> bool:
    """Whether one thing is told on in one breath, named once at most: "he arches, over the chest"."""
    between = scene.talk.tokens[last.stop - 1 : draft.first]
    return (
        last.kind == draft.kind
        and last.kind in SIFTED
        and 0 <= draft.first - last.stop <= _NEAR_WORDS
        and not any(token.after in _SENTENCE_ENDS for token in between)
        and _akin(last, draft, scene)
        and not scene.cues(last.stop, draft.first) & _ANEW
        and not _another(last, draft, scene)
        and not (_names(last, scene) and _names(draft, scene))
    )


def _retold(last: Claim, draft: Claim, scene: Scene) -> bool:
    """Whether a throw is named and told in other words: "uchi-mata! Up between the legs"."""
    if last.kind != "technique" or draft.kind != last.kind:
        return False
    behind, gap = not told(last, scene.terms), draft.first - last.stop
    if behind != told(draft, scene.terms):
        return False
    name = last if behind else draft
    again = set(scene.speech.again.retold).intersection(scene.terms.families(name.concept))
    if not _names(name, scene) or not again:
        return False
    if scene.cues(last.stop, draft.first) & _ANEW or _another(last, draft, scene):
        return False
    if behind:
        return 0 <= gap <= _RETOLD_WORDS
    between = scene.talk.tokens[last.stop - 1 : draft.first]
    whole = not any(token.after in _SENTENCE_ENDS for token in between)
    return 0 <= gap <= _FORETOLD_WORDS and whole and not _akin(last, draft, scene)


def _names(draft: Claim, scene: Scene) -> bool:
    """Whether a draft is a name proper, that would be told of alone: "kneebar", not "foot in the stomach"."""
    name = scene.terms.name(draft.concept, draft.reasons[0].words) if draft.reasons else None
    said = set(scene.words[draft.first + 1 : draft.stop])
    return name is not None and not name.verb and said.isdisjoint(scene.speech.actors.neighbours)


def _begun(last: Claim, draft: Claim, scene: Scene) -> bool:
    """Whether a name is broken off and said again whole: "koshi something, koshi-guruma"."""
    one, two = scene.words[last.first : last.stop], scene.words[draft.first : draft.stop]
    return (
        last.kind == draft.kind
        and last.kind in SIFTED
        and len(one) < len(two)
        and two[: len(one)] == one
        and draft.first - last.stop <= _BEGUN_WORDS
        and not _another(last, draft, scene)
    )


def _akin(last: Claim, draft: Claim, scene: Scene) -> bool:
    """Whether two drafts may mean the same, as likeliest or otherwise."""
    return scene.alike(last.concept, draft.concept) or any(
        scene.alike(one.concept, other)
        for these, other in ((last.alternatives, draft.concept), (draft.alternatives, last.concept))
        for one in these
    )


def _another(last: Claim, draft: Claim, scene: Scene) -> bool:
    """Whether somebody is named between two drafts, or the second answers the first, as o-soto-gaeshi does
    o-soto-gari: what follows is another's."""
    if any(scene.alike(last.concept, attack) for attack in scene.answers(draft.concept)):
        return True
    return any(one.side for one in scene.pointers(last.stop, draft.first))
