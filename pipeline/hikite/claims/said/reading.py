"""The talk as the finders read it: gaps, numbers, competitors, judo scores and phrases by their place."""

from bisect import bisect_right
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from hikite.claims.references import Reference
from hikite.claims.said.gaps import barriers, gaps_of, joined, parted
from hikite.claims.said.matching import Filler, Hit, Meant, Stream
from hikite.claims.said.numbers import Number, find_numbers
from hikite.claims.said.phrasebooks import Phrasebook
from hikite.claims.said.runs import partings
from hikite.claims.said.slots import PRONOUNS, classes_of, fillers_of
from hikite.claims.said.soundness import sound
from hikite.claims.said.wording import Group, Wording
from hikite.records import Mention, Talk
from hikite.records.spans import tokens_of

# A sport that counts in classes says their names again and again, or once in so many words: in a long talk
# one stray "ippon" proves nothing.
_ENOUGH_CLASSES, _WORDS_PER_CLASS = 3, 40
CALLED = frozenset(("score", "penalty", "stoppage"))
"""What a referee calls, and what may stand within a phrase."""


@dataclass(frozen=True)
class Reading:
    """One talk read once for all finders.

    ``gaps[i]`` is what stands before token ``i``: ``NONE``, ``SOFT`` or ``HARD``; one more than
    there are tokens. ``written`` are the same without the halts guessed from the words: what stands together
    as one phrase is not parted by a guess. ``numbers``, ``actors`` and ``classes`` are by first token,
    ``hits`` are the phrases said, by group, ``stream`` is what they were met in.
    ``points`` says whether the sport counts in points, ``joiners`` are the words that begin another clause.
    """

    talk: Talk
    gaps: Sequence[int]
    written: Sequence[int]
    phrases: Phrasebook
    sides: tuple[str, str]
    mentions: tuple[Mention, ...]
    numbers: Mapping[int, Number]
    actors: Mapping[int, Reference]
    classes: Mapping[int, Filler]
    stream: Stream
    hits: Mapping[str, tuple[Hit, ...]]
    points: bool
    duration_s: int | None
    joiners: Collection[str]

    @cached_property
    def words(self) -> Sequence[str]:
        """The normalised words, one a token."""
        return self.talk.texts

    @cached_property
    def number_stops(self) -> frozenset[int]:
        """The tokens right behind a number."""
        return frozenset(number.stop for number in self.numbers.values())

    @cached_property
    def actor_stops(self) -> Mapping[int, Reference]:
        """Whoever is pointed at, by the token right behind."""
        return {actor.stop: actor for actor in self.actors.values()}

    @cached_property
    def halts(self) -> frozenset[int]:
        """The tokens before which talk without marks rather halts."""
        return frozenset(self.talk.halts)

    @cached_property
    def denials(self) -> frozenset[int]:
        """The tokens right behind words that deny."""
        return frozenset(hit.stop for hit in self.hits.get("denial", ()))

    @cached_property
    def supposings(self) -> frozenset[int]:
        """The tokens right behind words that suppose, not where they only seem to ("if I squint")."""
        inside = tokens_of(self.hits.get("not_supposing", ()))
        return frozenset(hit.stop for hit in self.hits.get("supposing", ()) if hit.first not in inside)

    @cached_property
    def _backwards(self) -> Stream:
        return self.stream.backwards()

    def starting(self, group: Group, first: int) -> tuple[Hit, ...]:
        """A cue group's phrases that begin at a token."""
        return self.phrases.after[group].at(self.stream, first)

    def ending(self, group: Group, stop: int) -> tuple[Hit, ...]:
        """A cue group's phrases that end right before a token."""
        return self.phrases.before[group].at(self._backwards, len(self.words) - stop)

    def named(self, first: int) -> bool:
        """Whether a competitor is pointed at there by a name, a colour or a noun, not by a pronoun."""
        actor = self.actors.get(first)
        return actor is not None and actor.how not in PRONOUNS

    def other(self, side: str) -> str:
        """The side across from one."""
        return next(one for one in self.sides if one != side)

    def whose(self, hits: Iterable[Hit]) -> str | None:
        """The first side that one of the phrases names."""
        return next((side for hit in hits if (side := hit.side(self.sides))), None)

    def joins(self, first: int, stop: int) -> bool:
        """Whether a word that begins another clause stands among these."""
        return any(word in self.joiners for word in self.words[first:stop])

    def speaker(self, index: int) -> str | None:
        """Who says a token."""
        at = bisect_right(self.talk.utterances, index, key=lambda utterance: utterance.first) - 1
        return self.talk.utterances[at].speaker


def read(
    talk: Talk,
    mentions: tuple[Mention, ...],
    actors: Iterable[Reference],
    phrases: Phrasebook,
    sides: tuple[str, str],
    points: bool | None = None,
    duration_s: int | None = None,
    joiners: Collection[str] = (),
) -> Reading:
    """The talk with everything found in it that more than one finder needs.

    ``joiners`` are the words before which a statement that nothing ends may go on.
    """
    words, wording = talk.texts, phrases.wording
    unparted = gaps_of(talk)
    found = find_numbers(words, joined(talk, unparted), wording.numbers)
    numbers = tuple(one for one in found if one.form != "noun" or not _named_on(one, mentions))
    written = parted(unparted, partings(words, talk.marks, unparted, numbers, wording.numbers))
    gaps = parted(written, talk.halts)
    heard = tuple(sound(mentions, gaps))
    classes = classes_of(words, heard, wording)
    in_points = _in_points(len(words), classes, heard) if points is None else points
    people = _longest(actors)
    stream = Stream(
        words if in_points else _respelt(words, wording),
        barriers(talk, gaps, joiners),
        fillers_of(words, numbers, people.values(), classes, wording),
        {} if in_points else _meant(words, wording) | _heard_as(heard),
    )
    return Reading(
        talk=talk,
        gaps=gaps,
        written=written,
        phrases=phrases,
        sides=sides,
        mentions=mentions,
        numbers={number.first: number for number in numbers},
        actors=people,
        classes=classes,
        stream=stream,
        hits=_hits(phrases, stream, heard, in_points),
        points=in_points,
        duration_s=duration_s,
        joiners=joiners,
    )


def _named_on(number: Number, mentions: Iterable[Mention]) -> bool:
    """Whether a noun that may be a number begins or goes on in something's name: "a double sleeve grip"."""
    return any(
        one.first <= number.first and one.stop > number.stop and one.kind not in CALLED for one in mentions
    )


def _in_points(count: int, classes: Mapping[int, Filler], heard: Iterable[Mention]) -> bool:
    """Whether too few names of scores are said for a sport that counts them; in short talk each is sure."""
    sure = sum(one.first in classes and one.candidates[0].how == "exact" for one in heard)
    return len(classes) < _ENOUGH_CLASSES and sure < min(_ENOUGH_CLASSES, 1 + count // _WORDS_PER_CLASS)


def _respelt(words: Sequence[str], wording: Wording) -> Sequence[str]:
    """The words with judo's own where a recogniser wrote others for them: "a cheeto each"."""
    meant = {heard: word for word, several in wording.misheard.items() for heard in several}
    return [meant.get(word, word) for word in words]


def _meant(words: Sequence[str], wording: Wording) -> dict[int, Meant]:
    """Judo's words that a recogniser wrote as several others, and where they stop: "one she do each"."""
    several = {
        tuple(one.split()): word for word, heard in wording.misheard.items() for one in heard if " " in one
    }
    return {
        at: ((several[piece],), at + size)
        for size in sorted({len(one) for one in several})
        for at in range(len(words) - size + 1)
        if (piece := tuple(words[at : at + size])) in several
    }


def _heard_as(heard: Iterable[Mention]) -> dict[int, Meant]:
    """The calls met by their sound, and where they stop: "that's a she dough for blue"."""
    return {
        one.first: (tuple(best.form.split()), one.stop)
        for one in heard
        if (best := one.candidates[0]).how == "sound" and one.kind in CALLED
    }


def _hits(
    phrases: Phrasebook, stream: Stream, heard: Sequence[Mention], in_points: bool
) -> dict[str, tuple[Hit, ...]]:
    """The hits by group and first token; a call both said and named counts once."""
    other = "classes" if in_points else "points"
    said = [hit for hit in phrases.said.find(stream) if hit.entry.under != other]
    named = phrases.named(one for one in heard if not in_points or one.candidates[0].how == "exact")
    met = {(hit.group, hit.first, hit.stop) for hit in said}
    found: dict[str, list[Hit]] = {}
    for hit in said:
        found.setdefault(hit.group, []).append(hit)
    for hit in named:
        if (hit.group, hit.first, hit.stop) not in met:
            met.add((hit.group, hit.first, hit.stop))
            found.setdefault(hit.group, []).append(hit)
    return {
        group: tuple(sorted(several, key=lambda hit: (hit.first, hit.stop)))
        for group, several in found.items()
    }


def _longest(actors: Iterable[Reference]) -> dict[int, Reference]:
    """Whoever is pointed at by the most words that begin at a token, by that token."""
    longest: dict[int, Reference] = {}
    for actor in actors:
        if actor.first not in longest or actor.stop > longest[actor.first].stop:
            longest[actor.first] = actor
    return longest
