"""The cues that tell how a draft claim is meant: words around it, what became of it, what was claimed before.

Few and telling on purpose: with every word as a cue, a speaker's habits drown what is common to all speakers
(measured on the labelled bouts by leaving one annotator's bouts out).
"""

from collections.abc import Mapping
from types import MappingProxyType

from hikite.claims.aftermath import aftermath, foregone, outcome
from hikite.claims.again import BACK
from hikite.claims.scenes import GRADED, Scene
from hikite.records import Claim

_FAR_CUES = frozenset(
    ("pictures", "replay", "recap", "suppose", "describe", "threat", "earlier", "anecdote", "lesson", "aside")
)
_NEAR_CUES = _FAR_CUES.union(
    (
        "attempt",
        "fail",
        "deny",
        "success",
        "naming",
        "counter",
        "combine",
        "break",
        "seek",
        "take",
        "repeat",
        "probe",
    )
)
# Heard in the order said, before and behind the name: how far they reach says no more.
_ORDERED = (":effect", ":thwart")
# To a defence these say the reverse: what thwarts an attack is a defence that came off.
_OF_DEFENCE = ("then=", "outcome=hold.", "outcome=result.")
# Under pictures of what is past the talk behind a name may be of other things: what it tells weighs anew.
_PICTURED = frozenset(f"{place}:pictures" for place in ("here", "near", "far", "earlier", "statement-before"))
_OF_FATE = ("then", "outcome=", "lands", "told=", "after:fail", "later:fail", "near:fail")
# What is but named once more was told as done: what follows is told of the first name too.
_TOLD_BEFORE = frozenset(f"renames-just={status}!" for status in ("completed", "recalled"))
# What is but supposed, or named before the bout, has no fate: what is told around it is of something else.
_UNREAL = frozenset({"here:unreal", "near:unreal", "before-start"})
_OF_EFFECT = ("after:success", "later:success", "in:success", "mark=", "family=throw")
# A summing up in another statement says nothing of an action: talk comes back to what happens without a word.
_PASSED_ON = frozenset({"far:recap"})
_LOUD = frozenset("!?")
_ENDINGS = ("ing", "ed", "s")
_REMEMBERED, _ALIKE, _JUST_S, _LATELY_S, _LATE = 60, 4, 8.0, 40.0, 0.92
_FIGURES = 3
# Cues of pictures of what is past, farther away for those that nobody says of anything else.
_PICTURES = ("pictures", "here:replay", "near:replay")


def status_clues(
    scene: Scene, number: int, meant: Mapping[int, str] = MappingProxyType({})
) -> dict[str, float]:
    """The cues of draft ``number``, each with the value 1; ``meant`` is how earlier drafts were judged."""
    draft = scene.drafts[number]
    clues = {"always", f"family={scene.family(draft.concept)}"}
    clues |= _words(scene, draft) | _history(scene, number, meant)
    clues |= {clue for clue in scene.governing(draft.first) if not clue.endswith(_ORDERED)}
    if draft.kind in GRADED:
        clues.add(f"draft={draft.status}")
        clues |= _led_by(scene, number) | outcome(scene, number)
    elif draft.kind == "grip":
        clues |= _form(scene, draft) | {f"concept={draft.concept}"}
    else:
        clues |= _form(scene, draft) | _fate(scene, number)
    if draft.kind not in GRADED:
        clues -= _PASSED_ON
    if draft.generic:
        clues.add("generic")
    if draft.points is not None:
        clues.add(f"points={min(draft.points, 5)}")
    if draft.kind == "technique" and not clues.isdisjoint(_TOLD_BEFORE):
        clues = {clue for clue in clues if not clue.startswith(_OF_FATE + _OF_EFFECT)}
    if draft.kind == "technique" and not clues.isdisjoint(_UNREAL):
        clues = {clue for clue in clues if not clue.startswith(_OF_FATE)}
    if draft.kind == "technique" and not clues.isdisjoint(_PICTURED):
        clues = {f"pictures!{clue}" if clue.startswith(_OF_FATE) else clue for clue in clues}
    return dict.fromkeys(sorted(clues), 1.0)


def _fate(scene: Scene, number: int) -> set[str]:
    """What was told before an action, and what became of it."""
    clues = aftermath(scene, number) | outcome(scene, number) | foregone(scene, number)
    if scene.family(scene.drafts[number].concept) == "defence":
        clues |= {f"defence:{clue}" for clue in clues if clue.startswith(_OF_DEFENCE)}
    return clues | _repeated(scene, scene.drafts[number])


def _repeated(scene: Scene, draft: Claim) -> set[str]:
    """Whether a name is said over and over: "ko-uchi, ko-uchi" is tried again and again."""
    words, said = scene.words, scene.words[draft.first : draft.stop]
    behind = words[draft.stop : draft.stop + len(said)]
    before = words[max(draft.first - len(said), 0) : draft.first]
    return {"over-and-over"} if said in (behind, before) else set()


def _words(scene: Scene, draft: Claim) -> set[str]:
    """Cues in the clause, the statement and the one before, named by where they stand."""
    clause_first, _ = scene.clause(draft.first)
    _, clause_stop = scene.clause(draft.stop - 1)
    first, stop = scene.statement(draft.first)
    places = (
        ("before:", clause_first, draft.first, _NEAR_CUES),
        ("in:", draft.first, draft.stop, _NEAR_CUES),
        ("after:", draft.stop, clause_stop, _NEAR_CUES),
        ("later:", clause_stop, stop, _NEAR_CUES),
        ("earlier:", first, clause_first, _FAR_CUES),
        ("statement-before:", *scene.statement(draft.first, -1), _FAR_CUES),
    )
    clues = {place + cue for place, low, high, wanted in places for cue in scene.cues(low, high) & wanted}
    mark = scene.mark(draft.stop)
    if mark in _LOUD:
        clues.add(f"mark={mark}")
    if "past" in scene.cues(first, stop):
        clues.add("past-here" if "past" in scene.cues(clause_first, clause_stop) else "past")
    return clues


def _form(scene: Scene, draft: Claim) -> set[str]:
    """The name's ending, whether it is all that is said, a figure in front."""
    words = scene.words
    first, stop = scene.clause(draft.first)
    clues = {f"ends={ending}" for ending in _ENDINGS if words[draft.first].endswith(ending)}
    if first == draft.first and stop <= draft.stop:
        clues.add("alone")
    before = words[max(draft.first - _FIGURES, first) : draft.first]
    if any(word.isdigit() or word in scene.speech.actors.figures for word in before):
        clues.add("figure-before")
    return clues


def _history(scene: Scene, number: int, meant: Mapping[int, str]) -> set[str]:
    """Whether the same was claimed before, how long ago, and what the bout has come to."""
    draft = scene.drafts[number]
    clues = _named_before(scene, number, meant)
    if number < scene.first_start:
        clues.add("before-start")
    if number > scene.first_result:
        clues.add("after-result")
    if _ended(scene, number):
        clues.add("after-end")
    around = range(max(number - _ALIKE, 0), min(number + _ALIKE, len(scene.drafts)))
    kind, here = scene.kinds[number], scene.told_in[number]
    alike = sum([scene.kinds[one] == kind and scene.told_in[one] == here for one in around])
    clues.add(f"alike={min(alike, _ALIKE)}")
    if draft.start_ms > _LATE * scene.talk.tokens[-1].end_ms:
        clues.add("late")
    return clues


def _ended(scene: Scene, number: int) -> bool:
    """Whether the end was called lately and nothing live was said since: no call, no clock."""
    for back in range(number - 1, max(number - _REMEMBERED, 0) - 1, -1):
        kind = scene.kinds[back]
        if kind == "clock":
            return False
        if kind == "stoppage":
            other = scene.drafts[back]
            if other.concept != "end":
                return False
            if other.of is None:
                return True
    return False


def _led_by(scene: Scene, number: int) -> set[str]:
    """The claim right before, if it is in the same statement or the one before."""
    if not number:
        return set()
    gap = scene.told_in[number] - scene.told_in[number - 1]
    return {f"led-by={scene.kinds[number - 1]}{gap}"} if gap <= 1 else set()


def _named_before(scene: Scene, number: int, meant: Mapping[int, str]) -> set[str]:
    """How lately the same was claimed (kind, concept, points), and whether it was the last of its kind."""
    draft = scene.drafts[number]
    kind = scene.kinds[number]
    kin = [n for n in range(number - 1, max(number - _REMEMBERED, 0) - 1, -1) if scene.kinds[n] == kind]
    last = next((n for n in kin if _same(scene, scene.drafts[n], draft)), None)
    if last is None:
        return {"first-named"}
    age = scene.seconds(draft.first) - scene.seconds(scene.drafts[last].first)
    lately = "just" if age < _JUST_S else "lately" if age < _LATELY_S else "before"
    clues = {f"named-{lately}"}
    if scene.alike(scene.drafts[kin[0]].concept, draft.concept):
        if scene.renames[number] is not None:
            lately = "breath"
        clues |= {f"renames-{lately}"} | _renaming(scene, draft, kin[0], lately, meant)
    return clues


def _same(scene: Scene, one: Claim, other: Claim) -> bool:
    return one.points == other.points and scene.alike(one.concept, other.concept)


def _renaming(scene: Scene, draft: Claim, last: int, lately: str, meant: Mapping[int, str]) -> set[str]:
    """How what is named once more was meant before, and whether it is nothing but another name of it."""
    clues: set[str] = set()
    first, _ = scene.clause(draft.first)
    if not ({"repeat", "attempt"} & scene.cues(first, draft.stop) or _anew(scene, draft, first)):
        clues.add(f"only-renames-{lately}")
        # "he turns him" tells of what is done, whatever was named before.
        if last in meant and not (draft.generic or "effect" in scene.cues(draft.first, draft.stop)):
            clues.add(f"renames-{lately}={meant[last]}!")
        other = scene.drafts[last]
        if scene.words[other.first : other.stop] != scene.words[draft.first : draft.stop]:
            clues.add(f"renames-otherwise-{lately}")
    return clues


def _anew(scene: Scene, draft: Claim, first: int) -> bool:
    """Whether a name ends with a word for another attempt, or has one right behind: "tai-otoshi again"."""
    if draft.reasons and draft.reasons[0].name == BACK:
        return False
    behind = scene.words[draft.stop - 1 : draft.stop + 1]
    pictured = any(clue.endswith(_PICTURES) for clue in scene.governing(draft.first))
    return not (pictured or scene.speech.again.anew.isdisjoint(behind))
