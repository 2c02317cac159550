"""Every mention of a lexicon concept in a talk: as written, nearly so, or by sound, without overlap."""

from functools import lru_cache

import numpy as np

from hikite.mentions.attributes import Attributes
from hikite.mentions.contests import Heard, settle
from hikite.mentions.contexts import Surroundings
from hikite.mentions.covers import Found, Option, best_cover
from hikite.mentions.evidence import SIGNS, WRITTEN_SIGNS, Matrix, Vector, load_weights
from hikite.mentions.exact import Match, Spelt
from hikite.mentions.hearing import Heard as Index
from hikite.mentions.meanings import Meanings
from hikite.mentions.slips import Slips
from hikite.mentions.soundings import Gatherer, Soundings
from hikite.mentions.streams import Stream, stream_of
from hikite.mentions.views import Views, letters, stands
from hikite.mentions.voices import spoken_names
from hikite.mentions.writings import judged, written_signs
from hikite.records import Candidate, Mention, Talk
from hikite.sounds import load_ear
from hikite.sounds.skeletons import Ints
from hikite.terms import Terms

# Finds less likely than these odds beside nothing else are not weighed against others.
_HOPELESS = -4.0
# Names of as many letters are not what a garble comes out as by chance.
_LONG = 8
_CLEAR_SOUND = 0.15
# How likely a referee's call heard inside a clause must be: a phrase of the commentary's own, a guest's.
_CLEAR_OWN, _CLEAR = 0.75, 0.6
# Words asked about alone are a name more often than not: what that adds to the log odds.
_GUESS, _SAID = 0.25, 2.0
_BACKING = ("doing", "actor", "among")


class Matcher:
    """An index of one lexicon, built once; ``find`` may be asked about any number of talks.

    ``spoken`` are the names looked for by sound, ``heard`` is the index of their sounds.
    """

    def __init__(self, terms: Terms, language: str = "en") -> None:
        self._terms, self._language = terms, language
        self._spelt = Spelt(terms.names)
        self._slips = Slips(terms.names)
        self._weights = load_weights(language)
        ear = load_ear(language)
        self._meanings = Meanings(terms, ear, language)
        self.spoken = spoken_names(terms, ear, language, self._weights.guests)
        self.heard = Index(self.spoken, ear, language)
        self.surroundings = Surroundings(language, terms.names, ear, self._weights.called)
        self._gatherer = Gatherer(terms, self.spoken, self.heard, self._weights.guests, language)
        self._attributes = Attributes(language)

    @property
    def concepts(self) -> list[str]:
        """The concepts in the order of the numbers in ``Soundings.rivals``."""
        return self._gatherer.concepts

    def find(self, talk: Talk) -> tuple[Mention, ...]:
        """Every mention of the talk in order, without overlap."""
        kept = self.cover(stream_of(talk), self._weights.vector(), self._weights.least)
        return self._mentions(self._cleared(kept, talk), talk)

    def guess(self, talk: Talk) -> tuple[Mention, ...]:
        """The same of words that are said to be a name: what would be too unlikely in running talk counts.

        Everyday words count as names only where nothing else does: a "gut ranch" is no gut.
        """
        stream = stream_of(talk)
        if not stream.words:
            return ()
        views = self._views(stream)
        finds = [*views.spelt, *self._slipped(views)]
        heard = self._sounded(views, [], self._weights.vector(), _GUESS)
        heard = [one._replace(odds=one.odds + _SAID) for one in heard]
        found = settle([find for find in finds if not find.weak], heard, _GUESS, self._terms.same)
        return self._mentions(found or best_cover(finds), talk)

    def _mentions(self, kept: list[Found], talk: Talk) -> tuple[Mention, ...]:
        words = [token.text for token in talk.tokens]
        lows = [0, *(find.stop for find in kept)]
        highs = [*(find.first for find in kept[1:]), len(words)]
        return tuple(
            self._mention(find, low, high, words) for find, low, high in zip(kept, lows, highs, strict=False)
        )

    def written(self, stream: Stream) -> list[Match]:
        """Every name that stands there as written, overlapping ones too."""
        return self._spelt.find(stream)

    def soundings(self, stream: Stream) -> Soundings:
        """Every window that sounds like a name, with each name it may be."""
        return self._views(stream).windows

    def contenders(self, stream: Stream) -> tuple[list[Found], list[Found], Matrix]:
        """What is written and what may be heard in a stream, and the signs of what may be heard."""
        views = self._views(stream)
        named = [find for find in best_cover(self._meant(views)) if not self._generic(find)]
        heard = self._heard(views, named, np.arange(len(views.windows.first)))
        return named, [find for _, find in heard], views.windows.signs[[row for row, _ in heard]]

    def cover(self, stream: Stream, weights: Vector, least: float) -> list[Found]:
        """The best set of finds: what is heard of at least this probability, what is written as meant."""
        if not stream.words:
            return []
        views = self._views(stream)
        named = best_cover(self._meant(views))
        whole = [find for find in named if not self._generic(find)]
        kept = settle(whole, self._sounded(views, whole, weights, least), least, self._terms.same)
        taken = np.zeros(len(stream.words) + 1, np.bool_)
        for find in kept:
            taken[find.first : find.stop] = True
        free = [find for find in named if self._generic(find) and not taken[find.first : find.stop].any()]
        return self._absorbed(sorted([*kept, *free], key=lambda find: find.first))

    def writings(self, stream: Stream) -> tuple[list[Found], Matrix]:
        """The best set of what is written or nearly so, meant or not, and the signs that it is meant."""
        finds, signs = self._weighed(self._views(stream))
        chosen = set(best_cover(finds))
        rows = [at for at, find in enumerate(finds) if find in chosen]
        return [finds[at] for at in rows], signs[rows]

    def _weighed(self, views: Views) -> tuple[list[Found], Matrix]:
        """Everything written or nearly so, overlapping finds too, and the signs that it is meant."""
        finds = [*views.spelt, *self._slipped(views)]
        chosen = best_cover(finds)
        return finds, written_signs(finds, chosen, views.stream, views.near, self._terms, self.heard.ear)

    def _views(self, stream: Stream) -> Views:
        near, matches = self.surroundings.look(stream), self.written(stream)
        windows = self._gatherer.gather(stream, self.heard.find(stream), matches, near)
        return Views(stream, near, self._meanings.written(matches, stream), windows)

    def _generic(self, find: Found) -> bool:
        return self._terms.concepts[find.candidates[0].concept].generic

    def _meant(self, views: Views) -> list[Found]:
        """What stands there as written or nearly so and is likely meant, overlapping finds too."""
        finds, signs = self._weighed(views)
        chances = 1 / (1 + np.exp(-(signs @ self._weights.written_vector())))
        # An everyday word names something only among talk of gripping, throwing or competitors.
        backed = signs[:, [WRITTEN_SIGNS.index(sign) for sign in _BACKING]].sum(axis=1) > 0
        kept = []
        for find, chance, supported in zip(finds, chances.tolist(), backed.tolist(), strict=True):
            if find.slipped:
                kept.append(find)
            elif not find.weak or supported:
                if not judged(find, self._terms):
                    kept.append(find)
                elif chance >= self._weights.least_written:
                    kept.append(find.believed(chance)._replace(worth=find.worth * chance))
        return kept

    def _slipped(self, views: Views) -> list[Found]:
        """What stands there nearly as written, apart from what does so exactly."""
        odd = self.heard.vocabulary.rare[self.heard.vocabulary.numbers(views.stream.words)]
        slips = self._meanings.slipped(self._slips.find(views.stream, odd))
        return [slip for slip in slips if not stands(slip, views.places, whole=True)]

    def _cleared(self, finds: list[Found], talk: Talk) -> list[Found]:
        """The finds without everyday words that only say how the name right behind them is done.

        "a standing seoi nage" tells of no position.
        """
        kept: list[Found] = []
        for find in finds:
            before = kept[-1] if kept else None
            if (
                before
                and before.weak
                and before.stop == find.first
                and self._terms.concepts[find.candidates[0].concept].kind == "technique"
                and self._terms.concepts[before.candidates[0].concept].kind == "position"
                and self._attributes.leads(talk.words(before.first, before.stop))
            ):
                kept.pop()
            kept.append(find)
        return kept

    def _absorbed(self, finds: list[Found]) -> list[Found]:
        """The finds, a family word that only closes the name in front of it taken into that name."""
        kept: list[Found] = []
        for find in finds:
            family = find.candidates[0].concept
            if (
                kept
                and kept[-1].stop == find.first
                and self._terms.concepts[family].generic
                and self._terms.is_a(kept[-1].candidates[0].concept, family)
            ):
                kept[-1] = kept[-1]._replace(stop=find.stop)
            else:
                kept.append(find)
        return kept

    def _sounded(self, views: Views, named: list[Found], weights: Vector, least: float) -> list[Heard]:
        """What may be heard with its log odds, apart from what is hopeless."""
        odds = views.windows.signs @ weights
        asked = self._asked(views.windows, views.stream, least)
        clear = views.windows.apart < _CLEAR_SOUND
        return [
            Heard(find, float(odds[row]), float(asked[row]), bool(clear[row]))
            for row, find in self._heard(views, named, np.flatnonzero(odds > _HOPELESS))
        ]

    def _heard(self, views: Views, named: list[Found], rows: Ints) -> list[tuple[int, Found]]:
        """The finds of these rows.

        Whether what is written there is meant is not asked of its sound, and a long name that stands there is
        what was said: nothing else is heard in its words.
        """
        windows, sure = views.windows, np.zeros(len(views.stream.words) + 1, np.int64)
        for find in named:
            sure[find.first + 1 : find.stop + 1] = letters(find) >= _LONG and not find.slipped
        sums = np.cumsum(sure)
        rows = rows[sums[windows.stop[rows]] == sums[windows.first[rows]]]
        columns = (rows, *(c[rows] for c in (windows.first, windows.stop, windows.concepts, windows.entry)))
        found = []
        for row, first, stop, concept, entry in zip(*(column.tolist() for column in columns), strict=True):
            find = Found(first, stop, 0.0, (self._option(concept, entry),))
            if not stands(find, views.places):
                found.append((row, find))
        return found

    def _option(self, concept: int, entry: int) -> Option:
        form = self.spoken[self.heard.names[entry][0]].form
        return Option(self._gatherer.concepts[concept], 1.0, form, "sound")

    def _asked(self, windows: Soundings, stream: Stream, least: float) -> Vector:
        """The least probability of each window: a call in everyday words must stand alone or be clear.

        "off you go home" is no yuko, and "and there's a" not the referee's words that sound like it. Words
        written with capitals are people and places sooner than a name from a language seldom borrowed.
        """
        own, guest, plain = (windows.signs[:, SIGNS.index(sign)] > 0 for sign in ("native", "guest", "plain"))
        alone = stream.breaks[windows.first] & stream.breaks[windows.stop]
        doubtful = self._gatherer.call[windows.entry] & plain & ~alone
        asked = np.where(doubtful, np.maximum(np.where(own, _CLEAR_OWN, _CLEAR), least), least)
        places = ~own & ~guest & (windows.signs[:, SIGNS.index("proper")] > 0)
        return np.where(places, np.maximum(asked, _CLEAR_OWN), asked)

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
