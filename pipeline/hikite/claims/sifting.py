"""Which techniques and grips are meant as such: "the half" is a hold, "half a minute" is chatter."""

from hikite.claims.grounded import described, told
from hikite.claims.scenes import Scene
from hikite.records import Claim, Mention

MEANT, CHATTER = "meant", "chatter"
# A named draft is kept from this chance on: the best F1 on bouts by speakers whom no weight was fitted on.
LEAST_MEANT = 0.4
# What is told without a name is kept from this chance on: hardly a right one is lost on such bouts.
LEAST_TOLD = 0.35
SIFTED = frozenset({"technique", "grip"})
_NEAR_WORDS = 3
_SELDOM = 6
# How sure a description is by the words that tell it, in steps: each further word tells more, to a point.
_SURE_STEPS = (0.55, 0.6, 0.65)
# Talk of how things are done, or might be, by anybody.
_OF_ANYBODY = frozenset(("lesson", "describe", "anecdote", "suppose"))
_ELSEWHERE = frozenset(("past", "earlier", "describe", "recap"))
_CUES = frozenset(
    (
        "attempt",
        "take",
        "seek",
        "break",
        "success",
        "fail",
        "replay",
        "naming",
        "describe",
        "suppose",
        "threat",
    )
)


class Sift:
    """The cues that tell whether a named technique or grip is meant, each with the value 1."""

    def __init__(self, scene: Scene, mentions: tuple[Mention, ...]) -> None:
        self._scene = scene
        self._mentions = {(one.first, one.stop): one for one in mentions}

    def applies(self, number: int) -> bool:
        """Whether a draft is a technique or grip that was named: what was told at length is no chatter."""
        draft = self._scene.drafts[number]
        mention = self._mentions.get((draft.first, draft.stop))
        return draft.kind in SIFTED and mention is not None and not described(mention, self._scene.terms)

    def clues(self, number: int) -> dict[str, float]:
        """The cues of draft ``number``, to which the sift must apply."""
        draft = self._scene.drafts[number]
        best = self._mentions[draft.first, draft.stop].candidates[0]
        words = min(draft.stop - draft.first, 3)
        letters = sum(len(word) for word in self._scene.words[draft.first : draft.stop])
        clues = {
            "always",
            f"how={best.how}",
            f"chance={min(int(best.probability * 10), 9)}",
            f"words={words}",
            f"letters={min(letters // 4, 4)}",
            f"form={best.form}",
            f"family={self._scene.family(draft.concept)}",
        }
        name = self._scene.terms.name(best.concept, best.form)
        if name is not None:
            clues |= {f"language={name.language}", f"weak={name.weak}", f"weak={name.weak}/words={words}"}
        if draft.generic:
            clues.add("generic")
        clues |= self._around(draft) | self._company(number) | self._fitting(draft.concept)
        return dict.fromkeys(sorted(clues), 1.0)

    def _fitting(self, concept: str) -> set[str]:
        """Whether the concept is at home under the rules of the bout: no sleeve is held without a jacket."""
        scene = self._scene
        if not scene.rules:
            return set()
        sport, need = scene.rules.split(".")[0], scene.need(concept)
        known = scene.terms.concepts[concept]
        clues = {f"{known.kind}:{known.tradition}/{sport}"}
        if need is not None:
            clues.add(f"need={_often(need)}")
        return clues

    def _around(self, draft: Claim) -> set[str]:
        scene = self._scene
        first, _ = scene.clause(draft.first)
        _, stop = scene.clause(draft.stop - 1)
        low, high = max(draft.first - _NEAR_WORDS, first), min(draft.stop + _NEAR_WORDS, stop)
        clues = {f"before={self._neighbour(draft.first - 1)}", f"after={self._neighbour(draft.stop)}"}
        clues |= {f"near-before:{cue}" for cue in scene.cues(low, draft.first) & _CUES}
        clues |= {f"near-after:{cue}" for cue in scene.cues(draft.stop, high) & _CUES}
        clues |= {f"who:{one.how}" for one in scene.pointers(low, high)}
        if first == draft.first:
            clues.add("opens")
        if stop == draft.stop:
            clues.add("closes")
        return clues | self._talk(draft)

    def _talk(self, draft: Claim) -> set[str]:
        """What the statement is about: competitors, or other days and other people's bridges."""
        scene = self._scene
        first, stop = scene.statement(draft.first)
        clues = {f"here:{cue}" for cue in scene.cues(first, stop) & _ELSEWHERE}
        if not any(one.side for one in scene.pointers(first, stop)):
            clues.add("nobody" if not scene.pointers(first, stop) else "unnamed")
        return clues

    def _neighbour(self, index: int) -> str:
        """A neighbouring word if it is one of the few that link words; else what stands there."""
        words = self._scene.words
        if not 0 <= index < len(words):
            return "nothing"
        if words[index].isdigit():
            return "figure"
        return words[index] if words[index] in self._scene.speech.actors.neighbours else "other"

    def _company(self, number: int) -> set[str]:
        """What stands right beside the draft: another name, perhaps of the same thing."""
        drafts, clues = self._scene.drafts, set()
        draft = drafts[number]
        for side, at in (("left", number - 1), ("right", number + 1)):
            if not 0 <= at < len(drafts):
                continue
            other = drafts[at]
            gap = draft.first - other.stop if side == "left" else other.first - draft.stop
            if gap <= _NEAR_WORDS:
                clues.add(f"{side}={other.kind}")
                if self._scene.alike(other.concept, draft.concept):
                    clues.add(f"{side}=same")
        here = self._scene.statement_of[draft.first]
        near = [
            abs(self._scene.statement_of[drafts[at].first] - here)
            for at in (number - 1, number + 1)
            if 0 <= at < len(drafts)
        ]
        clues.add(f"company={min(min(near, default=2), 2)}")
        return clues


def tells(draft: Claim, scene: Scene) -> bool:
    """Whether a draft is a technique or grip that is told without a name."""
    return draft.kind in SIFTED and told(draft, scene.terms)


def told_clues(scene: Scene, draft: Claim) -> dict[str, float]:
    """The cues that tell whether a draft that is told without a name is meant, each with the value 1.

    Few on purpose: how many words tell it, and whether the talk is of anybody.
    """
    clues = {"always", *(f"sure>{step}" for step in _SURE_STEPS if draft.confidence > step)}
    if not _OF_ANYBODY.isdisjoint(scene.cues(*scene.statement(draft.first))):
        clues.add("of-anybody")
    return dict.fromkeys(sorted(clues), 1.0)


def _often(need: int) -> str:
    return "never" if not need else "seldom" if need < _SELDOM else "often"
