"""What the lexicon knows of a term, however it was spelt or heard."""

from pydantic import BaseModel

from hikite.mentions import Matcher, matcher_of
from hikite.mentions.evidence import load_weights
from hikite.mentions.streams import stream_of
from hikite.outputs.labels import Labels
from hikite.process import Lexicon
from hikite.records import Talk
from hikite.sounds import load_ear
from hikite.terms import Name
from hikite.terms.words import Concept, normalised
from hikite.transcripts import read
from hikite.utterances import cut

_MOST = 6
_SAID = {
    "a": "ah", "A": "a", "@": "uh", "o": "aw", "e": "eh", "i": "ee", "I": "ih", "O": "oh", "u": "oo",
    "U": "u", "3": "ur", "E": "ay", "Y": "eye", "W": "ow", "8": "oy", "S": "sh", "Z": "zh", "C": "ch",
    "J": "j", "N": "ng", "T": "th", "D": "dh",
}  # fmt: skip
_VOWELS = "aA@oeiIOuU3EYW8"


class Likeness(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """A concept whose name sounds alike: the form and its weighed distance a sound, 0 for the same."""

    concept: str
    label: str
    form: str
    distance: float


class Known(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One concept that the words may mean: with which probability and how they were met.

    ``families`` go from the nearest up; ``names`` are by language and script; ``heard`` are spellings of
    how its names sound to a recogniser; ``alike`` are other concepts that sound like one of them.
    """

    concept: Concept
    label: str
    probability: float
    how: str
    families: tuple[str, ...]
    names: dict[str, tuple[str, ...]]
    same: tuple[str, ...]
    near: tuple[str, ...]
    answers: tuple[str, ...]
    members: tuple[str, ...]
    heard: tuple[str, ...]
    alike: tuple[Likeness, ...]


def look_up(words: str, lexicon: Lexicon) -> tuple[Known, ...]:
    """Every concept the words may mean, likeliest first; none where they mean nothing known.

    Met as a name or a concept's id first; what is neither is met by its letters or its sound.
    """
    if not any(map(str.isalnum, words)):
        return ()
    terms = lexicon.terms
    exact = terms.lookup(words) or tuple(id_ for id_ in (words.strip().lower(),) if id_ in terms.concepts)
    matcher = matcher_of(terms, lexicon.language)
    if exact:
        found = [(concept, 1.0 / len(exact), "as written") for concept in exact]
    else:
        talk = _talk(words, lexicon.language)
        mentions = matcher.find(talk) or matcher.guess(talk)
        found = [
            (one.concept, one.probability, {"exact": "as written", "near": "nearly"}.get(one.how, "by sound"))
            for mention in mentions
            for one in mention.candidates
        ]
    return tuple(_known(concept, chance, how, lexicon, matcher) for concept, chance, how in found)


def _talk(words: str, language: str) -> Talk:
    plain = "".join(c if c.isalnum() or c in "-' " else " " for c in words)
    return cut(read(f"WEBVTT\n\n00:00.000 --> 00:05.000\n{plain}\n".encode()), language)


def _known(concept: str, chance: float, how: str, lexicon: Lexicon, matcher: Matcher) -> Known:
    terms, labels = lexicon.terms, Labels(lexicon.terms, lexicon.language)
    names = [name for name in terms.names_of(concept) if not name.heard]
    spoken = _spoken(concept, names, lexicon.language)
    return Known(
        concept=terms.concepts[concept],
        label=labels.of(concept),
        probability=chance,
        how=how,
        families=tuple(labels.of(each) for each in list(terms.families(concept))[1:]),
        names=_by_language(names),
        same=tuple(
            labels.of(each) for each in terms.concepts if each != concept and terms.same(each, concept)
        ),
        near=tuple(labels.of(each) for each in terms.concepts[concept].near),
        answers=tuple(labels.of(each) for each in terms.concepts[concept].answers),
        members=tuple(labels.of(each.id) for each in terms.concepts.values() if each.family == concept),
        heard=_heard(spoken, lexicon.language),
        alike=_alike(concept, spoken, lexicon, matcher, labels),
    )


def _by_language(names: list[Name]) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for name in names:
        key = f"{name.language}, {name.script}"
        found[key] = (*found.get(key, ()), name.form.replace("~", "…"))
    return found


def _spoken(concept: str, names: list[Name], language: str) -> list[Name]:
    """The names a speaker of the language uses, the trade's own and borrowed ones first."""
    guests = load_weights(language).guests
    own = normalised(concept.split(":")[-1])
    spoken = [
        name
        for name in names
        if name.language in (language, *guests)
        and name.script == "latin"
        and not (name.verb or name.weak or "~" in name.form)
    ]
    return sorted(spoken, key=lambda name: (normalised(name.form) != own, name.language == language))


def _heard(names: list[Name], language: str) -> tuple[str, ...]:
    ear = load_ear(language)
    readings = dict.fromkeys(reading for name in names for reading in ear.form(name.form, name.language))
    return tuple(dict.fromkeys(map(_respelt, list(readings)[:_MOST])))


def _respelt(reading: str) -> str:
    """A reading in syllables that an English reader says right: ``oo-chee-mah-tah``."""
    syllables, now = [], ""
    for at, sound in enumerate(reading):
        follows = reading[at + 1 : at + 2] in tuple(_VOWELS)
        if any(c in _VOWELS for c in now) and (sound in _VOWELS or follows):
            syllables.append(now)
            now = ""
        now += sound
    syllables.append(now)
    return "-".join("".join(_SAID.get(sound, sound) for sound in syllable) for syllable in syllables)


def _alike(
    concept: str, names: list[Name], lexicon: Lexicon, matcher: Matcher, labels: Labels
) -> tuple[Likeness, ...]:
    """Other concepts that the whole of one of these names might be heard as, nearest first."""
    nearest: dict[str, Likeness] = {}
    for name in names:
        stream = stream_of(_talk(name.form, lexicon.language))
        windows, _ = matcher.soundings(stream)
        for at in range(len(windows.first)):
            if int(windows.stop[at]) - int(windows.first[at]) < len(stream.words):
                continue
            for number, distance, entry in windows.rivals(at):
                other = matcher.concepts[number]
                known = nearest.get(other)
                if not lexicon.terms.same(other, concept) and (known is None or distance < known.distance):
                    form = matcher.spoken[matcher.heard.names[entry][0]].form
                    nearest[other] = Likeness(
                        concept=other, label=labels.of(other), form=form, distance=round(float(distance), 3)
                    )
    ranked = sorted(nearest.values(), key=lambda one: one.distance)
    return tuple(ranked[:_MOST])
