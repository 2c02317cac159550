"""The cues that tell whose a draft claim is. Each pulls to one side: +1 the first, -1 the second."""

from functools import cache

from hikite.claims.faults import idle, lately
from hikite.claims.neighbours import answered, claimed, defended, paid, sort, thrown, to_come
from hikite.claims.pinnings import lying
from hikite.claims.references import Reference
from hikite.claims.scenes import Scene
from hikite.records import Claim

_ACTIONS = frozenset({"technique", "grip"})
# Whose one of these is may be told by a name apart; beside a score or a hold it is as likely called to.
_NAMED_APART = frozenset({"technique", "grip", "result", "penalty"})
_CLOSE, _FOCUS_REACH, _BRIEF = 4, 90, 3


class Pointers:
    """The side cues of one scene's drafts; those that do not hang on other drafts are read once."""

    def __init__(self, scene: Scene, sides: tuple[str, str]) -> None:
        self._scene = scene
        self._pull = {sides[0]: 1.0, sides[1]: -1.0}
        self._told: dict[int, dict[str, float]] = {}
        # Of each draft the one before it of the same kind and concept.
        self._before: list[int | None] = []
        latest: dict[tuple[str, str], int] = {}
        for number, draft in enumerate(scene.drafts):
            self._before.append(latest.get((draft.kind, draft.concept)))
            latest[draft.kind, draft.concept] = number

    def told(self, draft: Claim) -> float:
        """The pull of a side that the words themselves name; 0 where they name none."""
        return self._pull.get(draft.side or "", 0.0)

    def clues(self, number: int, settled: list[float]) -> dict[str, float]:
        """Signed cues of draft ``number``, bare and by kind; ``settled`` holds the drafts' pulls so far.

        On a first hearing these are the earlier drafts' only; on a second one the later drafts' as well.
        """
        told = self._told.get(number)
        if told is None:
            told = self._told[number] = self._by_kind(number, self._read(number))
        hung: dict[str, float] = {}
        claimed(self._scene, number, settled, hung)
        self._named_last(number, settled, hung)
        self._renamed(number, settled, hung)
        to_come(self._scene, number, settled, hung)
        paid(self._scene, number, settled, hung)
        thrown(self._scene, number, settled, hung)
        defended(self._scene, number, settled, hung)
        answered(self._scene, number, settled, hung)
        if self._scene.drafts[number].kind == "penalty":
            lately(self._scene, number, settled, hung)
        return told | self._by_kind(number, hung)

    def _named_last(self, number: int, settled: list[float], clues: dict[str, float]) -> None:
        """The side of the last claim of the same kind and concept that has one."""
        back = self._before[number]
        while back is not None and not settled[back]:
            back = self._before[back]
        if back is not None:
            just = "-recalled" if self._scene.drafts[number].status == "recalled" else ""
            clues[f"same-concept-last{just}"] = settled[back]

    def _renamed(self, number: int, settled: list[float], clues: dict[str, float]) -> None:
        """The side of another name of the same action, said in the same breath."""
        before, after = self._scene.renames[number], self._scene.renamed.get(number)
        if before is not None:
            clues["renames"] = settled[before]
        if after is not None and after < len(settled):
            clues["renamed"] = settled[after]

    def _read(self, number: int) -> dict[str, float]:
        draft = self._scene.drafts[number]
        clues: dict[str, float] = {}
        if draft.side in self._pull:
            clues["draft"] = self._pull[draft.side]
        _near(self._scene, draft, self._pull, clues)
        if draft.kind in _NAMED_APART:
            _apart(self._scene, draft, self._pull, clues)
        _far(self._scene, draft, self._pull, clues)
        if draft.kind == "hold":
            lying(self._scene, draft, self._pull, clues)
        if draft.kind == "penalty":
            idle(self._scene, draft, self._pull, _focus(self._scene, draft.first, self._pull), clues)
        return clues

    def _by_kind(self, number: int, clues: dict[str, float]) -> dict[str, float]:
        draft = self._scene.drafts[number]
        # A broken grip belongs to the one who loses it, so its cues pull the other way.
        broken = draft.kind == "grip" and draft.status == "broken"
        kind = "grip.broken" if broken else sort(self._scene, number)
        return clues | {_of_kind(kind, clue): value for clue, value in clues.items()}


@cache
def _of_kind(kind: str, clue: str) -> str:
    """A cue's name for one kind of claim alone; the names are few and met again and again."""
    return f"{kind}/{clue}"


def _near(scene: Scene, draft: Claim, pull: dict[str, float], clues: dict[str, float]) -> None:
    """Those pointed at in the draft's own clause, by their part in it."""
    first, _ = scene.clause(draft.first)
    _, stop = scene.clause(draft.stop - 1)
    passive = "-passive" if "passive" in scene.cues(first, draft.first) else ""
    inside = [one for one in scene.pointers(draft.first, draft.stop) if one.side in pull]
    if inside:
        clues[f"in:{_part(scene, inside[0])}"] = pull[inside[0].side]
    leading = scene.pointers(first, draft.first)
    before = [one for one in leading if one.side in pull]
    if before:
        acts = draft.first if draft.kind in _ACTIONS else None
        clues[f"clause-before:{_part(scene, before[-1], acts)}{passive}"] = pull[before[-1].side]
        if len(before) > 1:
            clues["clause-first"] = pull[before[0].side]
    after = [one for one in scene.pointers(draft.stop, stop) if one.side in pull]
    if after:
        clues[f"clause-after:{_part(scene, after[0])}"] = pull[after[0].side]
    focus = _focus(scene, first, pull)
    for one in leading[-2:]:
        if not one.side:
            clues[f"focus-by:{one.how}{passive}"] = focus
    for one in scene.pointers(draft.stop, stop)[:1]:
        if not one.side:
            clues[f"focus-after:{one.how}"] = focus
    if not before and not inside:
        clues["focus-plain" if first == draft.first else "focus-led"] = focus
        clues["focus-passive" if passive else "focus-active"] = focus
        # A statement that begins with its verb leaves out whoever was spoken of: "Goes for the throw."
        if not leading and _attempts(scene, first):
            clues["ellipsis"] = focus


def _apart(scene: Scene, draft: Claim, pull: dict[str, float], clues: dict[str, float]) -> None:
    """Whoever is named alone between two marks beside the draft's clause: "uchi-mata, low, Tandel!"."""
    stop = scene.clause(draft.stop - 1)[1]
    behind = _alone(scene, stop, pull)
    if behind is None and stop < len(scene.words):
        first, stop = scene.clause(stop)
        if stop - first <= _BRIEF and not scene.pointers(first, stop):
            behind = _alone(scene, stop, pull)
    if behind is not None:
        clues["apart-behind"] = pull[behind.side]
    first = scene.clause(draft.first)[0]
    before = _alone(scene, scene.clause(first - 1)[0], pull) if first else None
    if before is not None:
        clues["apart-before"] = pull[before.side]


def _alone(scene: Scene, first: int, pull: dict[str, float]) -> Reference | None:
    """The competitor who is all of a clause, or all but a preposition in front."""
    if first >= len(scene.words):
        return None
    _, stop = scene.clause(first)
    named = scene.pointers(first, stop)
    if len(named) != 1 or named[0].side not in pull or named[0].stop != stop:
        return None
    lead = scene.words[first : named[0].first]
    return named[0] if not lead or (lead[0] in scene.speech.actors.prepositions and len(lead) == 1) else None


def _attempts(scene: Scene, first: int) -> bool:
    """Whether a clause begins with the words of an attempt."""
    return any(one.first == first and one.name == "attempt" for one in scene.said(first, first + _CLOSE))


def _part(scene: Scene, one: Reference, until: int | None = None) -> str:
    """A reference's part in its clause: owner, defender, after a preposition, or subject.

    ``until`` is where what it does begins: who is said to clamp the arm there, clamps it.
    """
    words = scene.words
    stop = min(one.stop + _CLOSE, scene.clause(one.first)[1])
    defends = "defend" in scene.cues(one.stop, stop if until is None else min(stop, until))
    if defends and (until is None or not _goes_on(scene, one.stop, until)):
        return "defender"
    if until is not None and _met(scene, one):
        return "defender"
    if one.stop < len(words) and words[one.stop] == "'s":
        following = words[one.stop + 1] if one.stop + 1 < len(words) else ""
        return "is" if following in scene.speech.actors.after_is or following.endswith("ing") else "owner"
    # "… one arm under, Idrin clamps": what another clause ended with leads to nobody here.
    before = words[one.first - 1] if one.first > scene.clause(one.first)[0] else ""
    return before if before in scene.speech.actors.prepositions else "subject"


def _met(scene: Scene, one: Reference) -> bool:
    """As in "just as blue came forward, the foot was taken away": who walks into it does not do it."""
    first, stop = scene.clause(one.first)
    before = scene.cues(max(first, one.first - _CLOSE), one.first)
    return "meeting" in before and "oncoming" in scene.cues(one.stop, min(one.stop + _CLOSE, stop))


def _goes_on(scene: Scene, first: int, until: int) -> bool:
    """Whether whoever defends acts next: "blue sprawls and goes behind", not "… and the throw is gone"."""
    speech, words = scene.speech, scene.words
    joined = [at for at in range(first, until) if words[at] in speech.statements.joiners]
    definite = set(speech.actors.articles) - speech.actors.indefinite
    return bool(joined) and definite.isdisjoint(words[joined[-1] : until + 1])


def _focus(scene: Scene, index: int, pull: dict[str, float]) -> float:
    """Who the talk is about when a clause begins: the last one named as subject, fading by statement."""
    here = scene.statement_of[index]
    turn = 1.0
    for one in reversed(scene.pointers(max(index - _FOCUS_REACH, 0), index)):
        faded = turn * 0.8 ** (here - scene.statement_of[one.first])
        if one.side in pull and _part(scene, one) in ("subject", "is", "owner"):
            return float(pull[one.side] * faded)
        if one.how == "opponent" and scene.clause(one.first)[0] == one.first:
            turn = -turn
    return 0.0


def _far(scene: Scene, draft: Claim, pull: dict[str, float], clues: dict[str, float]) -> None:
    """Those named around the draft's clause; who stands nearer hides who stands farther."""
    clause_first, _ = scene.clause(draft.first)
    _, clause_stop = scene.clause(draft.stop - 1)
    first, stop = scene.statement(draft.first)
    opponent = any(one.how == "opponent" for one in scene.pointers(clause_first, draft.first))
    near = opponent or any(clue.startswith(("in:", "clause-before:", "clause-after:")) for clue in clues)
    before = (
        ("statement-before", first, clause_first),
        ("last-statement", *scene.statement(draft.first, -1)),
    )
    after = (("statement-after", clause_stop, stop), ("next-statement", *scene.statement(draft.first, 1)))
    for places, which in ((before, -1), (after, 0)):
        hidden = "-hidden" if near else ""
        for place, low, high in places:
            told = [one for one in scene.pointers(low, high) if one.side in pull]
            if told:
                clues[f"{place}:{_part(scene, told[which])}{hidden}"] = pull[told[which].side]
                clues[f"{place}{hidden}"] = pull[told[which].side]
                hidden = "-hidden"
    if opponent:
        clues["opponent-of-focus"] = _focus(scene, clause_first, pull)
        clues["opponent-of-first"] = _focus(scene, first, pull)
