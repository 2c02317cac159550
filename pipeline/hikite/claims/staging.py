"""What is claimed on the face of it: a scene with its draft claims, before anything is judged."""

from collections.abc import Iterable, Iterator
from functools import partial

from hikite.claims.actors import find_actors
from hikite.claims.calls import Spoken, with_calls
from hikite.claims.casts import casts_of, openings
from hikite.claims.grounded import on_the_ground
from hikite.claims.references import Reference
from hikite.claims.rosters import colours_of
from hikite.claims.said import find_said
from hikite.claims.said.holds import ANY_HOLD
from hikite.claims.said.reading import CALLED
from hikite.claims.scenes import Scene
from hikite.claims.scopes import load_cues
from hikite.mentions.attributes import attributes_of
from hikite.records import Cast, Claim, Mention, Reason, Sheet, Status, Talk
from hikite.records.spans import tokens_of
from hikite.terms import Terms
from hikite.terms.speech import load_speech

# What a mention of these kinds claims as long as nothing speaks against it.
_PLAIN: dict[str, Status] = {"technique": "completed", "grip": "taken", "principle": "described"}
# How a mention was met that no writing tells of.
_BY_SOUND = "sound"
# What sounds like a name of the trade no surer than this is rather a competitor's, where it may be one. Set
# by hand.
_RATHER = 0.6
# So long after a lock was named somebody stands up or sinks down in it. Common practice, no source.
_LOCK_MS = 15_000
# The rule sets whose scores are named, not counted in points.
_BY_CLASSES = ("judo", "kurash")
# Who is pointed at, and the sheet with what the talk tells of them: the same whatever the rules.
People = tuple[tuple[Reference, ...], Sheet]


def people_of(talk: Talk, mentions: tuple[Mention, ...], sheet: Sheet, language: str) -> People:
    """Who is pointed at where, and the sheet with what the talk tells of the competitors."""
    return find_actors(talk, sheet, load_speech(language), _taken(talk, mentions), language)


def _taken(talk: Talk, mentions: tuple[Mention, ...]) -> set[int]:
    """The tokens that are no competitor's name but of the trade: as written, or surely as it sounds."""
    return tokens_of(
        one
        for one in mentions
        if one.candidates[0].how != _BY_SOUND
        or ((talk.capitals or one.kind in CALLED) and one.candidates[0].probability >= _RATHER)
    )


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
    references, learnt = people or people_of(talk, mentions, sheet, language)
    sides = colours_of(learnt, talk.texts, speech)
    points = None if sheet.ruleset is None else not sheet.ruleset.startswith(_BY_CLASSES)
    if points is False:
        talk, mentions, references = with_calls(Spoken(talk, mentions, references), language)
    find = partial(find_said, language=language, points=points, duration_s=sheet.duration_s)
    articles = speech.actors.articles
    things = _of_things(talk, mentions, references, articles)
    said = find(talk, things, references, sides)
    casts: tuple[Cast, ...] = ()
    cuts = () if sheet.competitors else openings(talk, said)
    if cuts:
        references, casts = casts_of(talk, cuts, sheet, speech, _taken(talk, mentions), language)
        things = _of_things(talk, mentions, references, articles)
        said = find(talk, things, references, sides)
    said = _without_manners(talk, said, mentions, language)
    scene = Scene(talk, references, (), load_cues(language), speech, terms)
    scene.casts, scene.rules = casts, sheet.ruleset or ""
    scene.counted = frozenset(tokens_of(one for one in said if one.kind == "stated_score" and one.tallies))
    named = _uncalled(_named(scene, on_the_ground(things, said, terms)), said)
    said = tuple(_called(one, scene.called(one.concept)) for one in said if not _miscounted(scene, one))
    scene = scene.with_drafts(tuple(sorted((*said, *named), key=lambda one: (one.first, one.stop))))
    scene = scene.with_drafts(tuple(_without_falls_from_locks(scene)))
    return scene, learnt


def _without_manners(
    talk: Talk, said: tuple[Claim, ...], mentions: tuple[Mention, ...], language: str
) -> tuple[Claim, ...]:
    """What is said, without landings that are how the throw named right before is done: "a seoi-nage on the
    knees"."""
    ends = {one.stop for one in mentions if one.kind == "technique" and not talk.marks[one.stop - 1]}
    trails = attributes_of(language).trails
    return tuple(
        one
        for one in said
        if one.kind != "landing" or one.first not in ends or not trails(talk.words(one.first, one.stop))
    )


def _without_falls_from_locks(scene: Scene) -> Iterator[Claim]:
    """The drafts without falls of whoever holds a lock: "the armlock, and he's on his feet" is no throw."""
    last: Claim | None = None
    for draft in scene.drafts:
        if draft.kind == "technique":
            last = draft
        near = last is not None and draft.start_ms - last.end_ms <= _LOCK_MS
        if last and near and draft.concept == "landing" and scene.family(last.concept) == "submission-hold":
            continue
        yield draft


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
            **talk.span(mention.first, mention.stop),
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


def _uncalled(named: Iterable[Claim], said: Iterable[Claim]) -> list[Claim]:
    """The drafts of what is named, but where its words say something else: "they are stood up" is the
    referee's doing, and nobody's stand-up; "no takedown" is none."""
    taken = {(one.first, one.stop) for one in said}
    calls = [one for one in said if one.kind == "stoppage" or (one.kind, one.status) == ("score", "denied")]
    return [
        draft
        for draft in named
        if (draft.first, draft.stop) not in taken
        and not any(call.first <= draft.first and draft.stop <= call.stop for call in calls)
    ]


def _miscounted(scene: Scene, draft: Claim) -> bool:
    """Whether numbers are taken for a hold's count where the rules know none: "seven, eight"."""
    counted = draft.concept in ANY_HOLD and draft.reasons[0].name == "counted"
    return counted and bool(scene.rules) and scene.need(draft.concept) is None


def _called(draft: Claim, concept: str) -> Claim:
    """The draft under what its concept is called here, almost always as it was read."""
    return draft if draft.concept == concept else draft.model_copy(update={"concept": concept})


def _of_things(
    talk: Talk, mentions: tuple[Mention, ...], references: tuple[Reference, ...], articles: tuple[str, ...]
) -> tuple[Mention, ...]:
    """The mentions without actions that are a competitor: "the Turk" is no turk where a Turk wrestles.

    What only sounds like a technique or hold is none where a competitor's name or colour is among its words.
    """
    nations = tokens_of(one for one in references if one.how == "nation")
    names = tokens_of(one for one in references if one.how == "name")
    worn = tokens_of(one for one in references if one.how == "colour")
    people = nations | names

    def thing(mention: Mention) -> bool:
        first = mention.first + (talk.tokens[mention.first].text in articles)
        by_sound = mention.candidates[0].how == _BY_SOUND
        whole = first < mention.stop and people.issuperset(range(first, mention.stop))
        return not whole and (not by_sound or (names | worn).isdisjoint(range(first, mention.stop)))

    return tuple(one for one in mentions if one.kind not in (*_PLAIN, "hold") or thing(one))
