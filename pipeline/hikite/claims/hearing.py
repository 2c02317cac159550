"""From what is named to what is claimed: how each draft is meant, whose it is, how they hang together."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from math import tanh

from hikite.claims.again import named_again
from hikite.claims.clues import status_clues
from hikite.claims.counts import held, locked
from hikite.claims.echoes import without_echoes
from hikite.claims.eras import era_of
from hikite.claims.judges import Judges, SideJudge, StatusJudge, load_judges
from hikite.claims.links import link
from hikite.claims.loosened import loosened
from hikite.claims.pointers import Pointers
from hikite.claims.rosters import colours_of
from hikite.claims.scenes import Scene
from hikite.claims.sifting import LEAST_MEANT, LEAST_TOLD, MEANT, Sift, tells, told_clues
from hikite.claims.staging import people_of, stage
from hikite.records import Claim, Mention, Sheet, Talk, Testimony
from hikite.records.marks import BEHIND, BOTH, BRINK, SAME_ONE
from hikite.terms import Terms
from hikite.terms.speech import load_speech

# Nobody's: a clock, a call, a score of both sides.
SIDELESS = frozenset({"clock", "stoppage", "stated_score", "principle"})
# Whoever the words of one of these name themselves has it at least so surely; counted on labelled bouts.
TOLD_KINDS = frozenset({"score", "penalty", "result", "landing"})
TOLD = 0.92
# How what somebody is known for is meant.
KNOWN_FOR: dict[str, dict[str, float]] = {
    "technique": {"described": 0.9, "threatened": 0.1},
    "grip": {"described": 0.9, "sought": 0.1},
}
# A colour said less often may be that of a card or of another bout. Set by hand.
WORN = 3
# How much of what is judged of an award is believed of a score stated there.
OF_WHOM = 0.7


def hear(
    talk: Talk,
    mentions: tuple[Mention, ...],
    terms: Terms,
    sheet: Sheet,
    language: str = "en",
    rules_of: Callable[[Testimony], str] | None = None,
) -> Testimony:
    """Every claim of the talk in time order, and the sheet with what the talk tells of the competitors.

    Where the sheet does not tell the rules, ``rules_of`` tells those that what is heard falls under, and the
    talk is heard again under them.
    """
    people = people_of(talk, mentions, sheet, language)
    era = era_of(talk, load_speech(language), language)
    heard = _heard(*stage(talk, mentions, terms, sheet, language, people), mentions, era)
    if sheet.ruleset is not None or rules_of is None:
        return heard
    ruled = sheet.model_copy(update={"ruleset": rules_of(heard)})
    return _heard(*stage(talk, mentions, terms, ruled, language, people), mentions, era)


def _heard(scene: Scene, sheet: Sheet, mentions: tuple[Mention, ...], era: int | None) -> Testimony:
    """The drafts of a scene sifted, judged and linked."""
    judges = load_judges()
    scene = scene.with_drafts(tuple(sift(scene, Sift(scene, mentions), judges.meant, judges.told)))
    sides = colours_of(sheet, scene.words, scene.speech)
    scene = scene.with_drafts(tuple(_with_statuses(scene, judges)))
    scene = scene.with_drafts(loosened(_with_sides(scene, judges, sides)))
    return Testimony(claims=link(scene), sheet=sheet, casts=scene.casts, worn=_worn(scene), era=era)


def _worn(scene: Scene) -> tuple[str, ...]:
    """The colours by which the talk calls competitors more than in passing."""
    said = Counter(one.side for one in scene.references if one.how == "colour")
    return tuple(sorted(side for side, times in said.items() if times >= WORN))


def sift(scene: Scene, by: Sift, meant: StatusJudge, told: StatusJudge) -> Iterator[Claim]:
    """The drafts that are meant, echoes made one, and what points back at them."""
    kept = []
    for draft in unechoed(scene, by, meant):
        if tells(draft, scene):
            chance = told.weigh(told_clues(scene, draft))[MEANT]
            if chance < LEAST_TOLD:
                continue
            draft = draft.model_copy(update={"confidence": chance})
        kept.append(draft)
    again = named_again(scene.talk, kept, scene.speech.again, scene.terms)
    yield from sorted((*kept, *again), key=lambda one: (one.first, one.stop))


def unechoed(scene: Scene, by: Sift, meant: StatusJudge) -> list[Claim]:
    """The drafts without names that are chatter, echoes made one."""
    kept = []
    for number, draft in enumerate(scene.drafts):
        if by.applies(number):
            chance = meant.weigh(by.clues(number))[MEANT]
            if chance < LEAST_MEANT:
                continue
            draft = draft.model_copy(update={"confidence": chance})
        kept.append(draft)
    return without_echoes(kept, scene)


def _with_statuses(scene: Scene, judges: Judges) -> Iterator[Claim]:
    """The drafts with their statuses, each judged knowing how those before it are meant."""
    meant: dict[int, str] = {}
    for number in range(len(scene.drafts)):
        judged = _with_status(scene, number, judges, meant)
        meant[number] = judged.status
        yield judged


def _with_status(scene: Scene, number: int, judges: Judges, meant: Mapping[int, str]) -> Claim:
    """The draft with its likeliest status and what spoke for it."""
    draft = scene.drafts[number]
    judge = judges.status.get(draft.kind)
    if judge is None or draft.status not in judge.weights:
        return draft.model_copy(update={"statuses": {draft.status: 1.0}})
    if draft.kind in KNOWN_FOR and scene.known_for(draft):
        return draft.model_copy(update={"status": "described", "statuses": dict(KNOWN_FOR[draft.kind])})
    last = scene.drafts[number - 1] if number else None
    # "A shido each" is two drafts on the same words: the second is no echo of the first.
    twin = BOTH in draft.attributes and last is not None and last.first == draft.first
    clues = status_clues(scene, number - twin, meant)
    statuses = judge.weigh(clues)
    best = max(statuses, key=lambda status: statuses[status])
    reasons = (*draft.reasons, *judge.reasons(best, clues))
    return draft.model_copy(update={"status": best, "statuses": statuses, "reasons": reasons})


def _with_sides(scene: Scene, judges: Judges, sides: tuple[str, str]) -> Iterator[Claim]:
    """The drafts with their sides, judged first to last and then once more knowing what came after."""
    pointers = Pointers(scene, sides)
    first_hearing = settle(scene, pointers, judges.side, [])
    second_hearing = list(hearing(scene, pointers, judges.side_again, first_hearing))
    pulls = _shared(scene, [pull for pull, _ in second_hearing])
    about = partial(_of_whom, scene, sides, judges.side_again, pulls)
    for number, (draft, pull) in enumerate(zip(scene.drafts, pulls, strict=True)):
        if _same_one(scene, number):
            draft = draft.model_copy(update={"attributes": (*draft.attributes, SAME_ONE)})
        if draft.kind in SIDELESS:
            yield draft.model_copy(update={"sides": about(number)}) if open_score(draft) else draft
            continue
        first, clues = 0.5 + 0.5 * pull, second_hearing[number][1]
        yield draft.model_copy(
            update={
                "side": sides[0] if first >= 0.5 else sides[1],
                "sides": {sides[0]: first, sides[1]: 1.0 - first},
                "told": draft.kind in TOLD_KINDS and pointers.told(draft) != 0.0,
                "reasons": (*draft.reasons, *judges.side_again.reasons(clues)),
            }
        )


def _shared(scene: Scene, pulls: list[float]) -> list[float]:
    """The pulls, those of one action's names made one: the action has one doer."""
    shared, names = list(pulls), dict[int, list[int]]()
    for number, before in enumerate(scene.renames):
        if before is not None:
            names[number] = [*names.pop(before, [before]), number]
    for group in names.values():
        mean = sum(pulls[number] for number in group) / len(group)
        for number in group:
            shared[number] = mean
    return shared


def open_score(draft: Claim) -> bool:
    """Whether a stated score leaves open whom it is about: "a waza-ari up", "he leads"."""
    if draft.kind != "stated_score" or draft.side is not None or len(draft.tallies) > 1:
        return False
    return not draft.ordered if draft.tallies else draft.margin != 0


def _same_one(scene: Scene, number: int) -> bool:
    """As in "he has two cards, he's a throw down": whether a draft is about whomever the one before is,
    nobody having been named since."""
    draft = scene.drafts[number]
    last = next((back for back in range(number - 1, -1, -1) if scene.kinds[back] != "clock"), None)
    if last is None or not (_about(scene.drafts[last]) and _about(draft)):
        return False
    near = scene.told_in[number] - scene.told_in[last] <= 1
    return near and not any(one.side for one in scene.pointers(scene.drafts[last].first, draft.stop))


def _about(draft: Claim) -> bool:
    """Whether a draft tells how somebody stands who is not named."""
    return open_score(draft) or (draft.of == BRINK and draft.side is None)


def _of_whom(
    scene: Scene, sides: tuple[str, str], judge: SideJudge, settled: list[float], number: int
) -> dict[str, float]:
    """Whose the number is, or who leads: judged as a penalty or an award there would be, and less surely."""
    draft = scene.drafts[number]
    shown = [tally.model_dump(exclude_none=True) for tally in draft.tallies.values()]
    like = "penalty" if draft.of == "shido" or any("shido" in tally for tally in shown) else "score"
    drafts = list(scene.drafts)
    drafts[number] = draft.model_copy(update={"kind": like})
    clues = Pointers(scene.with_drafts(tuple(drafts)), sides).clues(number, settled)
    pull = OF_WHOM * tanh(judge.pull(clues) / 2)
    first = 0.5 + 0.5 * (-pull if BEHIND in draft.attributes else pull)
    return {sides[0]: first, sides[1]: 1.0 - first}


def settle(scene: Scene, pointers: Pointers, judge: SideJudge, heard: list[float]) -> list[float]:
    """Every draft's pull, -1 (surely the second side) to +1; ``heard`` is the hearing before."""
    return [pull for pull, _ in hearing(scene, pointers, judge, heard)]


def hearing(
    scene: Scene, pointers: Pointers, judge: SideJudge, heard: list[float]
) -> Iterator[tuple[float, dict[str, float]]]:
    """Every draft's pull in turn, each known to the next, with the cues it rests on."""
    settled = list(heard)
    for number, draft in enumerate(scene.drafts):
        clues = {} if draft.kind in SIDELESS else pointers.clues(number, settled)
        # "A shido each" is two claims on the same words, one a side: nothing is left to judge.
        told = pointers.told(draft)
        certain = told if BOTH in draft.attributes else 0.0
        its = None if told else (held(scene, number) if draft.kind != "result" else locked(scene, number))
        pull = certain or (tanh(judge.pull(clues) / 2) if its is None else settled[its])
        if told and draft.kind in TOLD_KINDS:
            pull = told * max(TOLD, told * pull)
        settled[number : number + 1] = [pull]
        yield pull, clues
