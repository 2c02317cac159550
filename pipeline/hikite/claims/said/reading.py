"""The talk as the finders read it: gaps, numbers, competitors, judo scores and phrases by their place."""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, TypeVar

from hikite.claims.said.matching import Filler, Hit, Matcher
from hikite.claims.said.numbers import Number, find_numbers
from hikite.claims.said.wording import Wording
from hikite.records import Mention, Talk, Token

if TYPE_CHECKING:
    from hikite.claims.actors import Reference

Key = TypeVar("Key")
NONE, SOFT, HARD = 0, 1, 2
_HARD_MARKS = frozenset(".?!…")
_JOINING = frozenset(("", "-", "‐", "‑"))
# Between the halves of a score a dash stands where speech has nothing.
_DASHES = frozenset("–-‐‑")
_NOBODY = frozenset(("possessive", "both"))
_PRONOUNS = frozenset(("subject", "object", "pronoun"))
# A sport that counts in classes says their names again and again; one stray "ippon" proves nothing.
_ENOUGH_CLASSES = 3


@dataclass(frozen=True, slots=True)
class Reading:
    """One talk read once for all finders.

    ``gaps[i]`` is what stands before token ``i``: nothing, a soft mark, or a statement's end; one more than
    there are tokens. ``numbers``, ``actors`` and ``classes`` are by first token.
    ``hits`` are the phrases said, by group; ``denials`` and ``supposings`` the tokens right after such a cue.
    ``points`` says whether the sport counts in points.
    """

    talk: Talk
    words: Sequence[str]
    gaps: Sequence[int]
    wording: Wording
    sides: tuple[str, str]
    mentions: tuple[Mention, ...]
    numbers: Mapping[int, Number]
    number_stops: frozenset[int]
    actors: Mapping[int, "Reference"]
    actor_stops: Mapping[int, "Reference"]
    classes: Mapping[int, Filler]
    hits: Mapping[str, tuple[Hit, ...]]
    starts: Mapping[tuple[str, int], tuple[Hit, ...]]
    stops: Mapping[tuple[str, int], tuple[Hit, ...]]
    denials: frozenset[int]
    supposings: frozenset[int]
    points: bool
    duration_s: int | None

    def speaker(self, index: int) -> str | None:
        """Who says a token."""
        at = bisect_right(self.talk.utterances, index, key=lambda utterance: utterance.first) - 1
        return self.talk.utterances[at].speaker

    @property
    def closed(self) -> frozenset[str]:
        """Words that may follow the number of a score."""
        return _closed(self.wording.closed)

    def starting(self, group: str, first: int) -> tuple[Hit, ...]:
        """The group's phrases that begin at a token."""
        return self.starts.get((group, first), ())

    def ending(self, group: str, stop: int) -> tuple[Hit, ...]:
        """The group's phrases that end right before a token."""
        return self.stops.get((group, stop), ())


def read(
    talk: Talk,
    mentions: tuple[Mention, ...],
    actors: Iterable["Reference"],
    wording: Wording,
    matcher: Matcher,
    sides: tuple[str, str],
    points: bool | None = None,
    duration_s: int | None = None,
) -> Reading:
    """The talk with everything found in it that more than one finder needs."""
    words = [token.text for token in talk.tokens]
    gaps = _gaps(talk)
    joined = [index > 0 and not gaps[index] and _joins(talk.tokens[index - 1]) for index in range(len(words))]
    numbers = find_numbers(words, joined, wording.numbers)
    longest = _longest(actors)
    classes = _classes(words, mentions, wording)
    fillers = _fillers(len(words), numbers, longest, classes, words, wording)
    said = matcher.find(words, gaps, fillers)
    spans = {(hit.group, hit.first, hit.stop) for hit in said}
    named = [hit for hit in matcher.named(mentions) if (hit.group, hit.first, hit.stop) not in spans]
    every = sorted((*said, *named), key=lambda hit: hit.first)
    hits = _indexed(every, lambda hit: hit.group)
    return Reading(
        talk=talk,
        words=words,
        gaps=gaps,
        wording=wording,
        sides=sides,
        mentions=mentions,
        numbers={number.first: number for number in numbers},
        number_stops=frozenset(number.stop for number in numbers),
        actors=longest,
        actor_stops={actor.stop: actor for actor in longest.values()},
        classes=classes,
        hits=hits,
        starts=_indexed(every, lambda hit: (hit.group, hit.first)),
        stops=_indexed(every, lambda hit: (hit.group, hit.stop)),
        denials=frozenset(hit.stop for hit in hits.get("denial", ())),
        supposings=_cues(hits.get("supposing", ()), hits.get("not_supposing", ())),
        points=len(classes) < _ENOUGH_CLASSES if points is None else points,
        duration_s=duration_s,
    )


@lru_cache
def _closed(words: tuple[str, ...]) -> frozenset[str]:
    return frozenset(words)


def _indexed(hits: Iterable[Hit], key: Callable[[Hit], Key]) -> dict[Key, tuple[Hit, ...]]:
    found: dict[Key, list[Hit]] = {}
    for hit in hits:
        found.setdefault(key(hit), []).append(hit)
    return {one: tuple(several) for one, several in found.items()}


def _cues(cues: Iterable[Hit], pseudo: Iterable[Hit]) -> frozenset[int]:
    """Where the cues end, without those that only look like one ("if I squint")."""
    inside = {index for hit in pseudo for index in range(hit.first, hit.stop)}
    return frozenset(hit.stop for hit in cues if hit.first not in inside)


def _joins(token: Token) -> bool:
    return token.after in _JOINING


def _gaps(talk: Talk) -> list[int]:
    """What stands before each token, and after the last; borders of statements count as ends."""
    gaps = [HARD]
    tokens = talk.tokens
    for index, token in enumerate(tokens):
        following = tokens[index + 1] if index + 1 < len(tokens) else None
        glued = following is not None and following.glued
        if not token.after or token.after in _DASHES or glued:
            gaps.append(NONE)
        else:
            gaps.append(HARD if token.after in _HARD_MARKS else SOFT)
    for utterance in talk.utterances:
        gaps[utterance.first] = gaps[utterance.stop] = HARD
    return gaps


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
    inside = {
        index
        for mention in mentions
        if mention.kind != "score"
        for index in range(mention.first, mention.stop)
    }
    forms = {tuple(form.split()): name for name, spellings in wording.classes.items() for form in spellings}
    starts = {form[0] for form in forms}
    for index, word in enumerate(words):
        if word not in starts or index in found or index in inside:
            continue
        for size in (2, 1):
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
        said = Filler("<noun>", number.first, number.stop, number.value)
        if number.form == "noun":
            fillers[number.first] += (said,)
        elif number.form == "zero":
            fillers[number.first] += (said._replace(slot="<z>"),)
        else:
            fillers[number.first] += (said._replace(slot="<z>"), said._replace(slot="<n>"))
        if number.form == "digits" and 100 <= number.value < 1000 and number.value % 100 < 60:
            seconds = number.value // 100 * 60 + number.value % 100
            fillers[number.first] += (said._replace(slot="<mss>", value=seconds),)
    for first, actor in actors.items():
        said = Filler("<side>", first, actor.stop, name=actor.side)
        if actor.how not in _NOBODY:
            fillers[first] += (said,) if actor.how in _PRONOUNS else (said, said._replace(slot="<name>"))
    for first, score in classes.items():
        fillers[first] += (score,)
    ordinals = wording.numbers.ordinals
    for index, word in enumerate(words):
        if word in ordinals:
            fillers[index] += (Filler("<nth>", index, index + 1, ordinals[word]),)
    return fillers
