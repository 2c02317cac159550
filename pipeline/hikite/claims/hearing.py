"""From what is named to what is claimed: how each draft is meant, whose it is, how they hang together."""

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from math import tanh

from hikite.claims.actors import Reference, find_actors
from hikite.claims.again import named_again
from hikite.claims.casts import casts_of, openings
from hikite.claims.clues import status_clues
from hikite.claims.judges import Judges, SideJudge, StatusJudge, load_judges
from hikite.claims.links import link
from hikite.claims.pointers import Pointers
from hikite.claims.rosters import colours_of
from hikite.claims.said import find_said
from hikite.claims.scenes import Scene
from hikite.claims.scopes import load_cues
from hikite.claims.sifting import LEAST_MEANT, MEANT, Sift, without_echoes
from hikite.records import Cast, Claim, Mention, Reason, Sheet, Status, Talk, Testimony
from hikite.terms import Terms
from hikite.terms.speech import load_speech

# What a mention of these kinds claims as long as nothing speaks against it.
_PLAIN: dict[str, Status] = {"technique": "completed", "grip": "taken", "principle": "described"}
# The rule sets whose scores are named, not counted in points.
_BY_CLASSES = ("judo", "kurash")
# Nobody's: a clock, a call, a score of both sides.
SIDELESS = frozenset({"clock", "stoppage", "stated_score", "principle"})
# Whoever the words of one of these name themselves has it at least so surely; counted on labelled bouts.
TOLD_KINDS = frozenset({"score", "penalty", "result", "landing"})
TOLD = 0.92
# How much of what is judged of an award is believed of a score stated there.
OF_WHOM = 0.7


# Who is pointed at, and the sheet with what the talk tells of them: the same whatever the rules.
People = tuple[tuple[Reference, ...], Sheet]


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
    people = _people(talk, mentions, sheet, language)
    heard = _heard(*stage(talk, mentions, terms, sheet, language, people), mentions)
    if sheet.ruleset is not None or rules_of is None:
        return heard
    ruled = sheet.model_copy(update={"ruleset": rules_of(heard)})
    return _heard(*stage(talk, mentions, terms, ruled, language, people), mentions)


def _people(talk: Talk, mentions: tuple[Mention, ...], sheet: Sheet, language: str) -> People:
    return find_actors(talk, sheet, load_speech(language), _inside(mentions), language)


def _inside(mentions: tuple[Mention, ...]) -> set[int]:
    """The tokens that belong to a mention."""
    return {index for one in mentions for index in range(one.first, one.stop)}


def _heard(scene: Scene, sheet: Sheet, mentions: tuple[Mention, ...]) -> Testimony:
    """The drafts of a scene sifted, judged and linked."""
    judges = load_judges()
    scene = scene.with_drafts(tuple(sift(scene, Sift(scene, mentions), judges.meant)))
    sides = colours_of(sheet, scene.words, scene.speech)
    scene = scene.with_drafts(tuple(_with_statuses(scene, judges)))
    scene = scene.with_drafts(tuple(_with_sides(scene, judges, sides)))
    return Testimony(claims=link(scene), sheet=sheet, casts=scene.casts)


def stage(
    talk: Talk,
    mentions: tuple[Mention, ...],
    terms: Terms,
    sheet: Sheet,
    language: str,
    people: People | None = None,
) -> tuple[Scene, Sheet]:
    """The scene with its draft claims, before anything is judged; the sheet with what the talk added."""
    speech = load_speech(language)
    references, learnt = people or _people(talk, mentions, sheet, language)
    sides = colours_of(learnt, talk.texts, speech)
    points = None if sheet.ruleset is None else not sheet.ruleset.startswith(_BY_CLASSES)
    find = partial(find_said, language=language, points=points, duration_s=sheet.duration_s)
    things = partial(_of_things, talk, mentions, articles=frozenset(speech.actors.articles))
    said = find(talk, things(references), references, sides)
    casts: tuple[Cast, ...] = ()
    cuts = () if sheet.competitors else openings(talk, said)
    if cuts:
        references, casts = casts_of(talk, cuts, sheet, speech, _inside(mentions), language)
        said = find(talk, things(references), references, sides)
    calls = [one for one in said if one.kind == "stoppage"]
    taken = {(one.first, one.stop) for one in said}
    scene = Scene(talk, references, (), load_cues(language), speech, terms)
    scene.casts, scene.rules = casts, sheet.ruleset or ""
    # "They are stood up" is the referee's doing, and nobody's stand-up.
    named = [
        draft
        for draft in _named(scene, things(references))
        if (draft.first, draft.stop) not in taken
        and not any(call.first <= draft.first and draft.stop <= call.stop for call in calls)
    ]
    said = tuple(_called(one, scene.called(one.concept)) for one in said)
    scene = scene.with_drafts(tuple(sorted((*said, *named), key=lambda one: (one.first, one.stop))))
    return scene, learnt


def _named(scene: Scene, mentions: tuple[Mention, ...]) -> Iterator[Claim]:
    """A draft for every technique, grip and principle that is named."""
    talk = scene.talk
    for mention in mentions:
        candidates = scene.at_home(mention.candidates)
        best = candidates[0]
        kind = scene.terms.concepts[best.concept].kind
        plain = _PLAIN.get(kind)
        if plain is None:
            continue
        called = scene.called(best.concept)
        yield Claim(
            first=mention.first,
            stop=mention.stop,
            start_ms=talk.tokens[mention.first].start_ms,
            end_ms=talk.tokens[mention.stop - 1].end_ms,
            kind=kind,
            concept=called,
            status=plain,
            # What it is called elsewhere is another way to read the words.
            alternatives=candidates[1:] if called == best.concept else candidates,
            generic=mention.generic,
            attributes=mention.attributes,
            confidence=best.probability,
            reasons=(Reason(name=best.how, words=best.form),),
        )


def _called(draft: Claim, concept: str) -> Claim:
    """The draft under what its concept is called here, almost always as it was read."""
    return draft if draft.concept == concept else draft.model_copy(update={"concept": concept})


def _of_things(
    talk: Talk, mentions: tuple[Mention, ...], references: tuple[Reference, ...], articles: frozenset[str]
) -> tuple[Mention, ...]:
    """The mentions without actions that are a competitor: "the Turk" is no turk where a Turk wrestles.

    What only sounds like a technique is none where a competitor's name is among its words.
    """
    nations = {at for one in references if one.how == "nation" for at in range(one.first, one.stop)}
    names = {at for one in references if one.how == "name" for at in range(one.first, one.stop)}
    people = nations | names

    def thing(mention: Mention) -> bool:
        first = mention.first + (talk.tokens[mention.first].text in articles)
        by_sound = mention.candidates[0].how == "sound"
        whole = first < mention.stop and people.issuperset(range(first, mention.stop))
        return not whole and (not by_sound or names.isdisjoint(range(first, mention.stop)))

    return tuple(one for one in mentions if one.kind not in _PLAIN or thing(one))


def sift(scene: Scene, by: Sift, meant: StatusJudge) -> Iterator[Claim]:
    """The drafts that are meant, echoes made one, and what points back at them."""
    kept = []
    for number, draft in enumerate(scene.drafts):
        if by.applies(number):
            chance = meant.weigh(by.clues(number))[MEANT]
            if chance < LEAST_MEANT:
                continue
            draft = draft.model_copy(update={"confidence": chance})
        kept.append(draft)
    kept = without_echoes(kept, scene)
    again = named_again(scene.talk, kept, scene.speech.again, scene.terms)
    yield from sorted((*kept, *again), key=lambda one: (one.first, one.stop))


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
    last = scene.drafts[number - 1] if number else None
    # "A shido each" is two drafts on the same words: the second is no echo of the first.
    twin = "both" in draft.attributes and last is not None and last.first == draft.first
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
    about = partial(_of_whom, scene, sides, judges.side_again, [pull for pull, _ in second_hearing])
    for number, (draft, (pull, clues)) in enumerate(zip(scene.drafts, second_hearing, strict=True)):
        if draft.kind in SIDELESS:
            yield draft.model_copy(update={"sides": about(number)}) if open_score(draft) else draft
            continue
        first = 0.5 + 0.5 * pull
        yield draft.model_copy(
            update={
                "side": sides[0] if first >= 0.5 else sides[1],
                "sides": {sides[0]: first, sides[1]: 1.0 - first},
                "told": draft.kind in TOLD_KINDS and pointers.told(draft) != 0.0,
                "reasons": (*draft.reasons, *judges.side_again.reasons(clues)),
            }
        )


def open_score(draft: Claim) -> bool:
    """Whether a stated score leaves open whom it is about: "a waza-ari up", "he leads"."""
    if draft.kind != "stated_score" or draft.side is not None or len(draft.tallies) > 1:
        return False
    return not draft.ordered if draft.tallies else draft.margin != 0


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
    first = 0.5 + 0.5 * (-pull if "behind" in draft.attributes else pull)
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
        certain = told if "both" in draft.attributes else 0.0
        pull = certain or tanh(judge.pull(clues) / 2)
        if told and draft.kind in TOLD_KINDS:
            pull = told * max(TOLD, told * pull)
        settled[number : number + 1] = [pull]
        yield pull, clues
