"""Every mention of a lexicon concept in a talk: as written, nearly so, or by sound, without overlap."""

import math
from functools import lru_cache

import numpy as np

from hikite.mentions.attributes import Attributes
from hikite.mentions.contexts import Neighbourhood, Surroundings
from hikite.mentions.covers import EACH, UNWRITTEN, WORTH_OF_LETTER, Found, Option, best_cover
from hikite.mentions.descriptions import Descriptions, as_sure
from hikite.mentions.evidence import SIGNS, WRITTEN_SIGNS, Vector, load_weights
from hikite.mentions.exact import Match
from hikite.mentions.heads import without_beheaded, without_swollen
from hikite.mentions.hearing import Heard
from hikite.mentions.misspellings import Misspellings
from hikite.mentions.readings import Readings
from hikite.mentions.soundings import Gatherer, Soundings
from hikite.mentions.streams import Stream, stream_of
from hikite.mentions.voices import spoken_names
from hikite.mentions.writings import judged, written_signs
from hikite.records import Candidate, Mention, Talk
from hikite.sounds import load_ear
from hikite.terms import Terms
from hikite.terms.speech import load_speech

_RIVALRY = 14.0
# How likely a referee's call heard inside a clause must be: a phrase of the commentary's own, a guest's.
_CLEAR_OWN, _CLEAR = 0.75, 0.6
# Words asked about alone are a name more often than not.
_GUESS = 0.08
_BACKING = ("doing", "actor", "among")


class Matcher:
    """An index of one lexicon, built once; ``find`` may be asked about any number of talks.

    ``spoken`` are the names looked for by sound, ``heard`` is the index of their sounds.
    """

    def __init__(self, terms: Terms, language: str = "en") -> None:
        self._terms = terms
        self._misspellings = Misspellings(terms.names)
        self._weights = load_weights(language)
        ear = load_ear(language)
        self._readings = Readings(terms, language, self._weights.guests, ear)
        self.spoken = spoken_names(terms, ear, language, self._weights.guests)
        self.heard = Heard(self.spoken, ear, language)
        self.surroundings = Surroundings(language, terms.names, ear)
        self._gatherer = Gatherer(terms, self.spoken, self.heard, self._weights.guests, language)
        self._attributes = Attributes(language)
        self._descriptions = Descriptions(language, terms)
        speech = load_speech(language)
        self._small = frozenset(speech.actors.neighbours)
        self._tries, self._articles = frozenset(speech.cues["attempt"]), speech.actors.articles

    @property
    def concepts(self) -> list[str]:
        """The concepts in the order of the numbers in ``Soundings.rivals``."""
        return self._gatherer.concepts

    def find(self, talk: Talk) -> tuple[Mention, ...]:
        """Every mention of the talk in order, without overlap."""
        stream = stream_of(talk)
        finds = self.cover(stream, self._weights.vector(), self._weights.least)
        return self._mentions(self._cleared(finds, stream, talk), talk)

    def guess(self, talk: Talk) -> tuple[Mention, ...]:
        """The same of words that are said to be a name: what would be too unlikely in running talk counts.

        Everyday words count as names only where nothing else does: a "gut ranch" is no gut.
        """
        stream = stream_of(talk)
        finds = self._finds(stream, self._weights.vector(), _GUESS) if stream.words else []
        return self._mentions(best_cover([find for find in finds if not find.weak] or finds), talk)

    def _mentions(self, kept: list[Found], talk: Talk) -> tuple[Mention, ...]:
        lows = [0, *(find.stop for find in kept)]
        highs = [*(find.first for find in kept[1:]), len(talk.texts)]
        return tuple(
            self._mention(find, low, high, talk.texts)
            for find, low, high in zip(kept, lows, highs, strict=False)
        )

    def written(self, stream: Stream) -> list[Match]:
        """Every name that stands there as written, overlapping ones too."""
        return self._readings.matches(stream)

    def soundings(self, stream: Stream, near: Neighbourhood | None = None) -> tuple[Soundings, list[Match]]:
        """Every window that sounds like a name, and the names that stand there as written.

        ``near`` is what stands around every place, where that was looked at before.
        """
        matches = self.written(stream)
        near = near or self.surroundings.look(stream)
        return self._gatherer.gather(stream, self.heard.find(stream), matches, near), matches

    def cover(self, stream: Stream, weights: Vector, least: float) -> list[Found]:
        """The best set of finds: what is heard of at least this probability, what is written as meant."""
        if not stream.words:
            return []
        near = self.surroundings.look(stream)
        chosen = self.chosen(stream, weights, least, near)
        vocabulary = self.heard.vocabulary
        levels = vocabulary.levels[vocabulary.numbers(stream.words)]
        signs = written_signs(chosen, stream, near, self._terms, levels)
        chances = 1 / (1 + np.exp(-(signs @ self._weights.written_vector())))
        # An everyday word names something only among talk of gripping, throwing or people, or hyphened.
        backed = signs[:, [WRITTEN_SIGNS.index(sign) for sign in _BACKING]].sum(axis=1) > 0
        kept = []
        for find, chance, supported in zip(chosen, chances.tolist(), backed.tolist(), strict=True):
            if find.slipped or find.told or find.candidates[0].how == "sound":
                kept.append(find)
            elif not find.weak or supported or stream.hyphened(find.first, find.stop):
                if not judged(find, self._terms):
                    kept.append(find)
                elif chance >= self._weights.least_written:
                    kept.append(find.believed(chance))
        return self._absorbed(kept, stream.marks)

    def _cleared(self, finds: list[Found], stream: Stream, talk: Talk) -> list[Found]:
        """The finds without words that only say how the name right behind them is done, or that it is tried.

        "a standing seoi nage" tells of no position, "a left-handed uchi-mata" of no grip, "shoots an arm
        throw" of no shot. Parts of one name are one find: "big uchi" and "mata".
        """
        kept: list[Found] = []
        for find in finds:
            if _compounded(find, talk):
                continue
            if kept and stream.whole(kept[-1].first, find.stop) and _goes_on(kept[-1], find, talk):
                kept[-1] = kept[-1]._replace(stop=find.stop)
                continue
            if kept and self._kind(find) == "technique" and self._only_leads(kept[-1], find, talk):
                kept.pop()
            kept.append(find)
        return kept

    def _only_leads(self, before: Found, find: Found, talk: Talk) -> bool:
        """Whether a find only says how what is named behind it is done, or that it is tried."""
        words = talk.words(before.first, before.stop)
        if self._kind(before) == "technique":
            between = talk.texts[before.stop : find.first]
            return words in self._tries and len(between) == 1 and between[0] in self._articles
        manner = self._kind(before) in ("position", "grip") and self._attributes.leads(words)
        return manner and before.stop == find.first

    def _kind(self, find: Found) -> str:
        return self._terms.concepts[find.candidates[0].concept].kind

    def _absorbed(self, finds: list[Found], marks: tuple[str, ...]) -> list[Found]:
        """The finds, a wider word right before or behind a name of its kind taken into that name.

        "The double leg takedown" is one name, and so is "a foot sweep de ashi barai".
        """
        kept: list[Found] = []
        for find in finds:
            beside = bool(kept) and kept[-1].stop == find.first
            if beside and self._widens(find, kept[-1], generic=True):
                kept[-1] = kept[-1]._replace(stop=find.stop)
            elif beside and not marks[find.first - 1] and self._widens(kept[-1], find, generic=False):
                kept[-1] = find._replace(first=kept[-1].first)
            else:
                kept.append(find)
        return kept

    def _widens(self, wide: Found, narrow: Found, generic: bool) -> bool:
        """Whether one find is a word for the family that the other belongs to."""
        family, concept = wide.candidates[0].concept, narrow.candidates[0].concept
        if family == concept or (generic and not self._terms.concepts[family].generic):
            return False
        return self._terms.is_a(concept, family)

    def chosen(
        self, stream: Stream, weights: Vector, least: float, near: Neighbourhood | None = None
    ) -> list[Found]:
        """The best set of finds before it is asked whether everyday words were meant as names."""
        return best_cover(self._finds(stream, weights, least, near))

    def _finds(
        self, stream: Stream, weights: Vector, least: float, near: Neighbourhood | None = None
    ) -> list[Found]:
        """Everything that may be a name, overlapping finds too."""
        windows, matches = self.soundings(stream, near)
        vocabulary = self.heard.vocabulary
        slipped = self._misspellings.find(stream, vocabulary.rare[vocabulary.numbers(stream.words)])
        written = self._readings.finds(matches, stream)
        told = as_sure(self._descriptions.find(stream, self._readings.proper(matches)), written)
        named = [
            name for name in written if self._terms.concepts[name.candidates[0].concept].kind == "technique"
        ]
        told = [one for one in told if not any(_cuts(one, name) for name in named)]
        heard = self._sounded(windows, stream, weights, least)
        misheard = without_swollen([*slipped, *heard], written)
        return without_beheaded([*written, *told, *misheard], stream, self._small)

    def _sounded(self, windows: Soundings, stream: Stream, weights: Vector, least: float) -> list[Found]:
        chances = 1 / (1 + np.exp(-(windows.signs @ weights)))
        finds = []
        for at in np.flatnonzero(chances > self._asked(windows, stream, least)).tolist():
            chance = float(chances[at])
            whole = WORTH_OF_LETTER * float(self.heard.lengths[windows.entry[at]]) - EACH
            worth = UNWRITTEN * whole * (chance - least) / (1 - least)
            candidates = self._rivals(windows.rivals(at), chance)
            finds.append(Found(int(windows.first[at]), int(windows.stop[at]), worth, candidates))
        return finds

    def _asked(self, windows: Soundings, stream: Stream, least: float) -> Vector:
        """The least probability of each window: a call in everyday words must stand alone or be clear.

        "off you go home" is no yuko, and "and there's a" not the referee's words that sound like it. A name
        of the commentary's own words is not misheard across a halt: "inside leg, oh" is no inside leg throw.
        """
        own, plain = (windows.signs[:, SIGNS.index(sign)] > 0 for sign in ("native", "plain"))
        alone = stream.breaks[windows.first] & stream.breaks[windows.stop]
        doubtful = self._gatherer.call[windows.entry] & plain & ~alone
        asked = np.where(doubtful, np.maximum(np.where(own, _CLEAR_OWN, _CLEAR), least), least)
        return np.where(own & stream.halting(windows.first, windows.stop), 1.0, asked)

    def _rivals(self, rivals: list[tuple[int, float, int]], best: float) -> tuple[Option, ...]:
        """The concepts a window may be: the nearest with its fitted probability, others by distance."""
        nearest = rivals[0][1]
        shares = [math.exp(-_RIVALRY * (distance - nearest)) for _, distance, _ in rivals[1:]]
        # One share more stands for all that is in no list: other names, and no name at all.
        others = [min(best, (1 - best) * share / (1 + sum(shares))) for share in shares]
        return tuple(
            Option(
                concept=self._gatherer.concepts[concept],
                probability=round(probability, 4),
                form=self.spoken[self.heard.names[entry][0]].form,
                how="sound",
            )
            for (concept, _, entry), probability in zip(rivals, (best, *others), strict=True)
        )

    def _mention(self, find: Found, low: int, high: int, words: list[str]) -> Mention:
        concept = self._terms.concepts[find.candidates[0].concept]
        return Mention(
            first=find.first,
            stop=find.stop,
            kind=concept.kind,
            candidates=tuple([_candidate(option) for option in find.candidates]),
            generic=concept.generic,
            attributes=self._attributes.of(words, find.first, find.stop, (low, high), find.candidates[0]),
        )


@lru_cache(maxsize=1 << 12)
def _candidate(option: Option) -> Candidate:
    """The option as a record; a name found in one way is found so again and again."""
    return Candidate(concept=option.concept, probability=option.probability, form=option.form, how=option.how)


def _goes_on(one: Found, two: Found, talk: Talk) -> bool:
    """Whether two finds side by side are parts of one name; "tai otoshi tai otoshi" is said twice."""
    at = two.first
    if one.stop != at or one.told or two.told or one.candidates[0].concept != two.candidates[0].concept:
        return False
    parted = at in talk.halts or talk.tokens[at - 1].after not in ("", "-")
    starts = parted or any(at == utterance.first for utterance in talk.utterances)
    return not starts and talk.words(one.first, at) != talk.words(at, two.stop)


def _compounded(find: Found, talk: Talk) -> bool:
    """Whether a word is but part of a proper name: of "Pont-Serran" no bridge is told."""
    at = find.first
    if find.stop - at > 1 or not talk.tokens[at].capital:
        return False
    joined = [(at - 1, at - 1), (at, at + 1)]
    return any(
        mark >= 0 and other < len(talk.tokens) and talk.marks[mark] == "-" and talk.tokens[other].capital
        for mark, other in joined
    )


def _cuts(told: Found, name: Found) -> bool:
    """Whether a description takes part of a name's words, not all: "side sweep, foot behind the ankle"."""
    common = min(told.stop, name.stop) - max(told.first, name.first)
    return not name.weak and 0 < common < name.stop - name.first
