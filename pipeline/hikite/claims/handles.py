"""Words a competitor may be called by: what is written like a name, gathered into persons and places."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations
from typing import NamedTuple

from rapidfuzz import fuzz

from hikite.claims.name_like import name_like, peoples
from hikite.claims.phrases import phrases_of
from hikite.records import Talk
from hikite.sounds import Ear
from hikite.terms.speech import Actors, Speech

# Names are one name from this likeness on, 0 to 100, in letters or half in letters and half in sounds.
_ONE_NAME = 75.0
# A short form ("Maks" of Maksim), and the people of a place ("Velmarkan"), begin like the whole, so long.
_ROOT, _GROWN = 4, 3
# So many words behind a full name it is said again at most where it was put right.
_MENDED_WITHIN = 5
# Without large letters a word said but once beside a name is hardly part of it: "velmarkov plops down".
_AGAIN = 2


class Handle(NamedTuple):
    """Tokens ``first`` to ``stop`` call somebody ``who``: the commonest word of names that are one."""

    first: int
    stop: int
    who: str


class Handles(NamedTuple):
    """The handles of a talk in order; the words of each ``who``, commonest first; the words for places.

    ``whole`` are the first and last names that are said together, ``titles`` the places of several words, by
    the one that is a handle ("harbour": "harbour street").
    """

    said: tuple[Handle, ...]
    words: Mapping[str, tuple[str, ...]]
    places: frozenset[str]
    whole: tuple[tuple[str, str], ...]
    titles: Mapping[str, str]


def find_handles(talk: Talk, speech: Speech, terms: set[int], ear: Ear) -> Handles:
    """What looks like a name in the talk, words said side by side and spellings of one name made one."""
    nations = _nations(talk, speech)
    names = _without_meetings(talk, name_like(talk, speech, ear, terms), speech.actors)
    names = _without_slips(talk, names, speech)
    beside = [(names[at], names[at + 1]) for at in _beside(talk, names)]
    shared = _shared(beside)
    counts = Counter(name for name in names.values() if name not in shared)
    owner = _gathered(counts, [pair for pair in beside if shared.isdisjoint(pair)], ear)
    called = {at: owner[name] for at, name in names.items() if name not in shared}
    words = {one.who: [one.who] for one in nations}
    for name, _ in counts.most_common():
        words.setdefault(owner[name], []).append(name)
    homes = _homes(talk, names, speech)
    places = homes | {one.who for one in nations}
    return Handles(
        tuple(sorted((*_runs(talk, called), *nations))),
        {who: tuple(own) for who, own in words.items()},
        places,
        tuple(pair for pair in beside if places.isdisjoint(pair)),
        _titles(talk, homes),
    )


def _without_meetings(talk: Talk, names: Mapping[int, str], actors: Actors) -> dict[int, str]:
    """The names without those of meetings: "from the Velmark Open" tells of nobody."""
    tokens, meetings = talk.tokens, set[int]()
    for at in names:
        begins = at > 0 and tokens[at - 1].text in actors.articles and not tokens[at - 1].after
        stop = at
        while begins and stop in names and not tokens[stop].after:
            stop += 1
        if begins and stop > at and stop < len(tokens) and tokens[stop].text in actors.meetings:
            meetings.update(range(at, stop))
    return {at: name for at, name in names.items() if at not in meetings}


def _without_slips(talk: Talk, names: Mapping[int, str], speech: Speech) -> dict[int, str]:
    """The names without first names put right at once: "Idris Okkelund, sorry, Ida Okkelund"."""
    mends = phrases_of(("mend", speech.cues["mend"]))
    slips = set()
    for at in _beside(talk, names):
        behind = range(at + 3, min(at + 3 + _MENDED_WITHIN, len(talk.texts) - 1))
        again = next((one for one in behind if one in names and names.get(one + 1) == names[at + 1]), None)
        if again is not None and any(mends.find(talk.texts[at + 2 : again])):
            slips.add(at)
    return {at: name for at, name in names.items() if at not in slips}


def _homes(talk: Talk, names: Mapping[int, str], speech: Speech) -> frozenset[str]:
    """The names that tell where somebody comes from: "Kolmer of Velmark", "the lad from Velmark", "he's from
    Velmark"."""
    actors, tokens = speech.actors, talk.tokens
    worn = {word for words in actors.colours.values() for word in words}
    people = (actors.person_nouns | actors.colour_nouns | worn) - actors.figures
    return frozenset(
        name
        for at, name in names.items()
        if at > 1
        and tokens[at - 1].text in actors.origins
        and not tokens[at - 1].after
        and (at - 2 in names or tokens[at - 2].text in people or hails(actors, talk.texts, at))
    )


def hails(actors: Actors, words: Sequence[str], at: int) -> bool:
    """Whether words right before a place tell where "he" comes from: "he's from", "she comes from"."""
    before = words[max(at - 3, 0) : at]
    return (
        len(before) == 3
        and before[0] in actors.subjects
        and before[1] in actors.hailing
        and before[2] in actors.origins
    )


def wears(actors: Actors, words: Sequence[str], at: int) -> bool:
    """Whether words right before a colour tell what "he" wears: "he's in the", "that's him in"."""
    worn = at - (at > 0 and words[at - 1] in actors.articles)
    before = words[max(worn - 3, 0) : worn]
    if len(before) < 3 or before[2] not in actors.wearing:
        return False
    return before[1] in actors.objects or (before[0] in actors.subjects and before[1] in actors.hailing)


def _titles(talk: Talk, homes: frozenset[str]) -> dict[str, str]:
    """The places mostly said with more words written large right behind them: "Harbour Street"."""
    tokens, large = talk.tokens, set(talk.capitals)
    said: dict[str, Counter[str]] = {home: Counter() for home in homes}
    for at, word in enumerate(talk.texts):
        if word in said:
            stop = at + 1
            while stop in large and not tokens[stop - 1].after and tokens[stop].cue == tokens[at].cue:
                stop += 1
            said[word][talk.words(at, stop)] += 1
    commonest = {home: counts.most_common(1)[0][0] for home, counts in said.items()}
    return {home: title for home, title in commonest.items() if title != home}


def _runs(talk: Talk, called: Mapping[int, str]) -> Iterator[Handle]:
    """Neighbouring words of one name as one handle."""
    first = -1
    for index in sorted(called):
        first = index if first < 0 else first
        if called.get(index + 1) != called[index] or talk.tokens[index].after:
            yield Handle(first, index + 1, called[index])
            first = -1


def _nations(talk: Talk, speech: Speech) -> list[Handle]:
    """Where a known nation or its people are named; a language is nobody."""
    words, actors, known = talk.texts, speech.actors, peoples(talk, speech)
    found = []
    for one in phrases_of(("nation", tuple(known))).find(words):
        following = words[one.stop] if one.stop < len(words) else ""
        before = words[one.first - 1] if one.first else ""
        if following not in actors.not_actors and before not in actors.language_before - actors.origins:
            found.append(Handle(one.first, one.stop, known[one.phrase]))
    return found


def _beside(talk: Talk, names: Mapping[int, str]) -> Iterator[int]:
    """Where two names are said side by side, as first and last name are: where any is written large, both;
    else both are said again."""
    large, said = set(talk.capitals).intersection(names), Counter(names.values())
    for index, name in names.items():
        one = talk.tokens[index]
        following = names.get(index + 1, name)
        both_large = large.issuperset((index, index + 1))
        if not both_large if large else min(said[name], said[following]) < _AGAIN:
            continue
        if following != name and not one.after and one.cue == talk.tokens[index + 1].cue:
            yield index


def _shared(beside: list[tuple[str, str]]) -> set[str]:
    """Words that stand behind two different names, as a surname of sisters does: they tell nobody apart."""
    leading: dict[str, set[str]] = {}
    for one, two in beside:
        leading.setdefault(two, set()).add(one)
    return {name for name, firsts in leading.items() if len(firsts) > 1 and not _all_alike(firsts)}


def _all_alike(names: set[str]) -> bool:
    return all(_alike(one, two, "", "") for one, two in combinations(sorted(names), 2))


def _gathered(counts: Mapping[str, int], beside: list[tuple[str, str]], ear: Ear) -> dict[str, str]:
    """Each name with the one it goes by: "Callum" and "Dray", "halberth" and "halbrett" are one."""
    owner = {name: name for name in counts}
    sounds = {name: ear.word(name)[0] for name in counts}
    alike = [pair for pair in combinations(counts, 2) if _alike(*pair, sounds[pair[0]], sounds[pair[1]])]
    for one, two in (*beside, *alike):
        keep, drop = owner[one], owner[two]
        if counts[keep] < counts[drop]:
            keep, drop = drop, keep
        owner = {name: keep if who == drop else who for name, who in owner.items()}
    return owner


def _alike(one: str, two: str, sound: str, other: str) -> bool:
    """Whether two words are one name, spelt twice, cut short, or grown by an ending."""
    short, long = sorted((one, two), key=len)
    if len(long) - len(short) <= _GROWN and long.startswith(short[: max(_ROOT, len(short) - 1)]):
        return len(short) >= _ROOT
    letters = fuzz.ratio(one, two)
    heard = fuzz.ratio(sound, other) if sound else 0.0
    return one[0] == two[0] and max(letters, 0.5 * letters + 0.5 * heard) >= _ONE_NAME
