"""The talk as the finders read it: gaps, numbers, competitors, judo scores and phrases by their place."""

from bisect import bisect_right
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from hikite.claims.said.matching import Filler, Hit, Stream
from hikite.claims.said.numbers import Number, find_numbers
from hikite.claims.said.phrasebooks import Phrasebook
from hikite.claims.said.runs import partings
from hikite.claims.said.soundness import sound
from hikite.claims.said.wording import Group, Wording
from hikite.records import Mention, Talk
from hikite.records.spans import tokens_of

if TYPE_CHECKING:
    from hikite.claims.actors import Reference

NONE, SOFT, HARD = 0, 1, 2
_HARD_MARKS = frozenset(".?!…")
_JOINING = frozenset(("", "-", "‐", "‑"))
# Between the halves of a score a dash stands where speech has nothing.
_DASHES = frozenset("–-‐‑")
_NOBODY = frozenset(("possessive", "both"))
_PRONOUNS = frozenset(("subject", "object", "pronoun"))
# What a number of each form may fill; of any other, whatever a number may.
_SLOTS = {"noun": ("<noun>",), "zero": ("<z>",)}
# In talk written without marks a silence parts words as a comma would. Such talk has fewer marks than one in
# so many words.
_PAUSE_MS = 280
_WORDS_PER_MARK = 40
# A sport that counts in classes says their names again and again, or once in so many words: in a long talk
# one stray "ippon" proves nothing.
_ENOUGH_CLASSES, _WORDS_PER_CLASS = 3, 40


@dataclass(frozen=True)
class Reading:
    """One talk read once for all finders.

    ``gaps[i]`` is what stands before token ``i``: nothing, a soft mark, or a statement's end; one more than
    there are tokens. ``written`` are the same without the halts guessed from the words: what stands together
    as one phrase is not parted by a guess. ``numbers``, ``actors`` and ``classes`` are by first token.
    ``hits`` are the phrases said, by group; ``denials`` and ``supposings`` the tokens right after such a cue.
    ``points`` says whether the sport counts in points, ``joiners`` are the words that begin another clause.
    """

    talk: Talk
    words: Sequence[str]
    gaps: Sequence[int]
    written: Sequence[int]
    phrases: Phrasebook
    sides: tuple[str, str]
    mentions: tuple[Mention, ...]
    numbers: Mapping[int, Number]
    number_stops: frozenset[int]
    actors: Mapping[int, "Reference"]
    actor_stops: Mapping[int, "Reference"]
    classes: Mapping[int, Filler]
    stream: Stream
    hits: Mapping[str, tuple[Hit, ...]]
    denials: frozenset[int]
    supposings: frozenset[int]
    points: bool
    duration_s: int | None
    joiners: Collection[str]

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
        return actor is not None and actor.how not in _PRONOUNS

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
    actors: Iterable["Reference"],
    phrases: Phrasebook,
    sides: tuple[str, str],
    points: bool | None = None,
    duration_s: int | None = None,
    joiners: Collection[str] = (),
) -> Reading:
    """The talk with everything found in it that more than one finder needs.

    ``joiners`` are the words before which a statement that nothing ends may go on.
    """
    wording = phrases.wording
    words = talk.texts
    written = _gaps(talk)
    joined = [False]
    joined += [not gap and mark in _JOINING for gap, mark in zip(written[1:], talk.marks, strict=True)]
    numbers = find_numbers(words, joined, wording.numbers)
    for at in partings(words, talk.marks, written, numbers, wording.numbers):
        written[at] = max(written[at], SOFT)
    halts = frozenset(talk.halts)
    gaps = [max(gap, SOFT) if at in halts else gap for at, gap in enumerate(written)]
    longest = _longest(actors)
    heard = tuple(sound(mentions, gaps))
    classes = _classes(words, heard, wording)
    in_points = _in_points(len(words), classes, heard) if points is None else points
    fillers = _fillers(len(words), numbers, longest, classes, words, wording)
    stream = Stream(words if in_points else _respelt(words, wording), _barriers(talk, gaps, joiners), fillers)
    other = "classes" if in_points else "points"
    hits = _by_group(
        (hit for hit in phrases.said.find(stream) if hit.entry.under != other),
        phrases.named(one for one in heard if not in_points or one.candidates[0].how == "exact"),
    )
    return Reading(
        talk=talk,
        words=words,
        gaps=gaps,
        written=written,
        phrases=phrases,
        sides=sides,
        mentions=mentions,
        numbers={number.first: number for number in numbers},
        number_stops=frozenset(number.stop for number in numbers),
        actors=longest,
        actor_stops={actor.stop: actor for actor in longest.values()},
        classes=classes,
        stream=stream,
        hits=hits,
        denials=frozenset(hit.stop for hit in hits.get("denial", ())),
        supposings=_cues(hits.get("supposing", ()), hits.get("not_supposing", ())),
        points=in_points,
        duration_s=duration_s,
        joiners=joiners,
    )


def _in_points(count: int, classes: Mapping[int, Filler], heard: Iterable[Mention]) -> bool:
    """Whether too few names of scores are said for a sport that counts them; in short talk each is sure."""
    sure = sum(one.first in classes and one.candidates[0].how == "exact" for one in heard)
    return len(classes) < _ENOUGH_CLASSES and sure < min(_ENOUGH_CLASSES, 1 + count // _WORDS_PER_CLASS)


def _respelt(words: Sequence[str], wording: Wording) -> Sequence[str]:
    """The words with judo's own where a recogniser wrote others for them: "a cheeto each"."""
    meant = {heard: word for word, several in wording.misheard.items() for heard in several}
    return [meant.get(word, word) for word in words]


def _by_group(said: Iterable[Hit], named: Iterable[Hit]) -> dict[str, tuple[Hit, ...]]:
    """The hits by group and first token; a call both said and named counts once."""
    found: dict[str, list[Hit]] = {}
    for hit in said:
        found.setdefault(hit.group, []).append(hit)
    met = {(hit.group, hit.first, hit.stop) for several in found.values() for hit in several}
    for hit in named:
        if (hit.group, hit.first, hit.stop) not in met:
            met.add((hit.group, hit.first, hit.stop))
            found.setdefault(hit.group, []).append(hit)
    return {
        group: tuple(sorted(several, key=lambda hit: (hit.first, hit.stop)))
        for group, several in found.items()
    }


def _cues(cues: Iterable[Hit], pseudo: Iterable[Hit]) -> frozenset[int]:
    """Where the cues end, without those that only look like one ("if I squint")."""
    inside = tokens_of(pseudo)
    return frozenset(hit.stop for hit in cues if hit.first not in inside)


def _gaps(talk: Talk) -> list[int]:
    """What stands before each token, and after the last; borders of statements count as ends."""
    gaps = [HARD]
    tokens = talk.tokens
    ends = sum([mark in _HARD_MARKS for mark in talk.marks if mark])
    unmarked = ends * _WORDS_PER_MARK < len(tokens)
    for index, mark in enumerate(talk.marks, 1):
        last = index == len(tokens)
        if not mark or mark in _DASHES or (not last and tokens[index].glued):
            paused = unmarked and not last and tokens[index].start_ms - tokens[index - 1].end_ms >= _PAUSE_MS
            gaps.append(SOFT if paused else NONE)
        else:
            gaps.append(HARD if mark in _HARD_MARKS else SOFT)
    for utterance in talk.utterances:
        gaps[utterance.first] = gaps[utterance.stop] = HARD
    return gaps


def _barriers(talk: Talk, gaps: Sequence[int], joiners: Collection[str]) -> Sequence[int]:
    """The gaps as a phrase meets them: it may go on where nothing but an "and" or "but" ends a statement.

    "Fifteen and he's out" is one phrase however the talk was cut before its "and".
    """
    tokens = talk.tokens
    guessed = {
        one.first
        for one in talk.utterances
        if one.first and not tokens[one.first - 1].after and tokens[one.first].text in joiners
    }
    return [SOFT if at in guessed else gap for at, gap in enumerate(gaps)]


def _longest(actors: Iterable["Reference"]) -> dict[int, "Reference"]:
    longest: dict[int, Reference] = {}
    for actor in actors:
        if actor.first not in longest or actor.stop > longest[actor.first].stop:
            longest[actor.first] = actor
    return longest


def _classes(words: Sequence[str], mentions: tuple[Mention, ...], wording: Wording) -> dict[int, Filler]:
    """Judo scores named, by first token: the language's own spellings, and mentions however they were met."""
    found: dict[int, Filler] = {}
    for mention in mentions:
        if mention.kind == "score" and mention.concept in wording.classes:
            found[mention.first] = Filler("<class>", mention.first, mention.stop, name=mention.concept)
    inside = tokens_of(mention for mention in mentions if mention.kind != "score")
    forms = {tuple(form.split()): name for name, spellings in wording.classes.items() for form in spellings}
    starts = {form[0] for form in forms}
    for index, word in enumerate(words):
        if word not in starts or index in found or index in inside:
            continue
        for size in (3, 2, 1):
            name = forms.get(tuple(words[index : index + size]))
            if name is not None and index + size <= len(words):
                found[index] = Filler("<class>", index, index + size, name=name)
                break
    return dict(sorted(found.items()))


def _fillers(
    count: int,
    numbers: Iterable[Number],
    actors: Mapping[int, "Reference"],
    classes: Mapping[int, Filler],
    words: Sequence[str],
    wording: Wording,
) -> list[tuple[Filler, ...]]:
    """What may fill a slot at each token."""
    fillers: list[tuple[Filler, ...]] = [()] * (count + 1)
    for number in numbers:
        first, stop, value, form = number
        slots = _SLOTS.get(form, ("<z>", "<n>"))
        fillers[first] += tuple([Filler(slot, first, stop, value) for slot in slots])
        if form == "digits" and 100 <= value < 1000 and value % 100 < 60:
            seconds = value // 100 * 60 + value % 100
            fillers[first] += (Filler("<mss>", first, stop, seconds),)
    for first, actor in actors.items():
        said = Filler("<side>", first, actor.stop, name=actor.side)
        if actor.how not in _NOBODY:
            fillers[first] += (said,)
            if actor.how not in _PRONOUNS:
                fillers[first] += (Filler("<name>", first, actor.stop, name=actor.side),)
            # "White two, blue one" counts; "the blue one" is a person.
            if actor.stop - first > 1 and fillers[actor.stop - 1]:
                fillers[first] += (Filler("<side>", first, actor.stop - 1, name=actor.side),)
                fillers[first] += (Filler("<name>", first, actor.stop - 1, name=actor.side),)
    for first, score in classes.items():
        fillers[first] += (score,)
    ordinals = wording.numbers.ordinals
    for index, word in enumerate(words):
        if word in ordinals:
            fillers[index] += (Filler("<nth>", index, index + 1, ordinals[word]),)
    return fillers
