"""The cues to whose a draft claim is that hang on the drafts around it: each pulls as that draft does."""

from hikite.claims.scenes import Scene

_NEAR = 1
# What hangs on more than the statements right beside it.
_LASTING = frozenset({"hold", "result", "penalty"})
_AFTER_A_THROW, _THROWN_S = frozenset({"score", "hold", "result"}), 20.0
_DEFENCE = "defence"
# So few words apart two names are said in one breath, whatever cries stand between.
_BREATH = 6
# So soon after an attack its answer is named. Set by hand.
_ANSWERED_S = 12.0


def claimed(scene: Scene, number: int, settled: list[float], clues: dict[str, float]) -> None:
    """The sides of the last claims, by what they were and what stands between."""
    draft = scene.drafts[number]
    first, _ = scene.clause(draft.first)
    counter = "-counter" if "counter" in scene.cues(first, draft.stop) else ""
    _around(scene, number, range(number - 1, max(number - 9, -1), -1), settled, ("last", counter), clues)


def to_come(scene: Scene, number: int, settled: list[float], clues: dict[str, float]) -> None:
    """The sides of the next claims, known on a second hearing."""
    _around(scene, number, range(number + 1, min(number + 7, len(settled))), settled, ("next", ""), clues)


def _around(
    scene: Scene,
    number: int,
    others: range,
    settled: list[float],
    named: tuple[str, str],
    clues: dict[str, float],
) -> None:
    """The side of the nearest claim of each kind among ``others``, told nearest first.

    ``named`` are what the cues' names begin and end with.
    """
    which, counter = named
    seen: set[str] = set()
    here, lasting = scene.told_in[number], scene.kinds[number] in _LASTING
    for other in others:
        kind, pull = sort(scene, other), settled[other]
        if pull == 0.0 or kind in seen:
            continue
        distance = min(abs(here - scene.told_in[other]), _NEAR + 1)
        if distance <= _NEAR or lasting:
            clues[f"{which}-{kind}.{scene.drafts[other].status}{distance}{counter}"] = pull
            clues[f"{which}-{kind}{distance}"] = pull
        if not seen:
            clues[f"{which}{distance}{counter}"] = pull
        seen.add(kind)


def sort(scene: Scene, number: int) -> str:
    """A draft's kind, landings told apart: whether they are told of the thrower, or of anybody's knees."""
    draft = scene.drafts[number]
    if draft.kind != "landing":
        return scene.kinds[number]
    if draft.fell is not None:
        return "landing.fell"
    return "landing.knees" if draft.concept == "landing:knees" else "landing"


def thrown(scene: Scene, number: int, settled: list[float], clues: dict[str, float]) -> None:
    """Who was thrown last: what is paid then, and the hold that follows, is the other one's."""
    draft = scene.drafts[number]
    if draft.kind not in _AFTER_A_THROW:
        return
    now = scene.seconds(draft.first)
    for back in range(number - 1, max(number - 9, -1), -1):
        kind = scene.kinds[back]
        if kind in ("stoppage", "penalty") or now - scene.seconds(scene.drafts[back].first) > _THROWN_S:
            return
        if kind == "landing" and settled[back]:
            if sort(scene, back) == kind:
                clues["thrown"] = settled[back]
                return
            clues.setdefault("knelt", settled[back])


def paid(scene: Scene, number: int, settled: list[float], clues: dict[str, float]) -> None:
    """A throw and the award right behind it, nothing else paid for in between, have one side."""
    draft = scene.drafts[number]
    if draft.kind == "score" and draft.status == "given":
        for back in range(number - 1, max(number - 6, -1), -1):
            kind, status = scene.kinds[back], scene.drafts[back].status
            if kind in ("score", "penalty"):
                return
            if (
                kind == "technique"
                and not _defends(scene, back)
                and status in ("completed", "failed", "attempted")
            ):
                clues[f"paid-{status}"] = settled[back]
                return
    if draft.kind == "technique":
        for ahead in range(number + 1, min(number + 6, len(settled))):
            other = scene.drafts[ahead]
            if other.kind == "score" and other.status == "given":
                clues[f"paid-{draft.status}"] = settled[ahead]
                return
            if other.kind in ("penalty", "score") or (
                other.kind == "technique" and not scene.alike(other.concept, draft.concept)
            ):
                return


def defended(scene: Scene, number: int, settled: list[float], clues: dict[str, float]) -> None:
    """A defence or a counter told right behind an attack, nobody being named between, is the other one's."""
    attack = number - 1
    if attack < 0 or not (_defends(scene, number) or _counters(scene, number)):
        return
    before = scene.drafts[attack]
    near = scene.told_in[number] - scene.told_in[attack] <= 1
    near = near or scene.drafts[number].first - before.stop <= _BREATH
    named = any(one.side for one in scene.pointers(before.stop, scene.drafts[number].stop))
    if before.kind == "technique" and not _defends(scene, attack) and near and not named:
        clues["defends"] = -settled[attack]


def answered(scene: Scene, number: int, settled: list[float], clues: dict[str, float]) -> None:
    """An attack that the technique named next answers is the other one's."""
    answer = number + 1
    if answer < len(settled) and scene.kinds[answer] == "technique" and settled[answer]:
        here, attacks = scene.drafts[number], scene.answers(scene.drafts[answer].concept)
        near = scene.seconds(scene.drafts[answer].first) - scene.seconds(here.first) <= _ANSWERED_S
        if near and any(scene.alike(here.concept, attack) for attack in attacks):
            clues["answered"] = -settled[answer]


def _counters(scene: Scene, number: int) -> bool:
    """As in "o-uchi, and she gets countered, tani-otoshi", "o-soto … o-soto-gaeshi": whether a technique is
    said to answer the one before, or is named for that."""
    before, here = scene.drafts[number - 1], scene.drafts[number]
    said = scene.said(before.stop, here.first)
    if here.kind == "technique" and any(one.name == "countered" for one in said):
        return True
    return any(scene.alike(before.concept, attack) for attack in scene.answers(here.concept))


def _defends(scene: Scene, number: int) -> bool:
    return scene.kinds[number] == "technique" and scene.family(scene.drafts[number].concept) == _DEFENCE
