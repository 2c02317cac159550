"""Which words mean which competitor, read off a bout sheet."""

from collections.abc import Iterator
from typing import NamedTuple

from rapidfuzz import fuzz, process

from hikite.claims.letterings import lettered
from hikite.claims.soundalikes import alike
from hikite.claims.spellings import each_time_anew, well_spelt
from hikite.records import Competitor, Sheet, Talk
from hikite.sounds import Ear, load_ear
from hikite.terms.speech import Speech

# A recogniser's spelling of a name counts as the name from this likeness on (0 to 100); an ordinary English
# word needs to be likelier still. Common practice of record linkage, set on the labelled training bouts.
_NEAR, _NEAR_PLAIN, _NEAR_UNKNOWN, _MARGIN, _SHORTEST, _PLAIN = 72.0, 84.0, 58.0, 6.0, 4, 4
_LONGEST, _LENGTHS_APART = 3, 3
# A name that stands as written so often is spelt well by whoever wrote the talk.
_WELL_SPELT = 3
# Where no colour tells, so many words of a sport tell what is worn in it.
_DRESSED = 3


class Roster(NamedTuple):
    """Phrases by ``side|how``, and the single names that may be spelt as they sound."""

    phrases: dict[str, tuple[str, ...]]
    names: tuple[tuple[str, str], ...]

    @property
    def whole(self) -> tuple[tuple[str, str], ...]:
        """The names, those of several words as well, with their side."""
        several = [
            (phrase, self.side(group))
            for group, phrases in self.phrases.items()
            if self.how(group) == "name"
            for phrase in phrases
            if " " in phrase
        ]
        return (*self.names, *several)

    def side(self, group: str) -> str:
        """The side of a phrase group."""
        return group.split("|")[0]

    def how(self, group: str) -> str:
        """The manner of a phrase group."""
        return group.split("|")[1]

    def near(
        self, talk: Talk, words: list[str], taken: set[int], language: str, learnt: bool = False
    ) -> Iterator[tuple[int, int, str]]:
        """Token ranges that sound like a name without being spelt like one, with their side.

        Names ``learnt`` from a talk are spelt there as they are, whoever wrote it; where only one side has
        any, all that sounds like a name would be that side's.
        """
        anew = learnt and each_time_anew(talk, load_ear(language), taken)
        if anew and len({side for _, side in self.names}) < 2:
            return
        if anew or not well_spelt(talk, self.names):
            letters = list(lettered(words, self.whole, taken))
            yield from letters
            taken = taken.union(*(range(first, stop) for first, stop, _ in letters))
            yield from ((one.first, one.stop, one.side) for one in alike(talk, self.whole, taken, language))
            return
        spelt = _Spellings(talk, words, self.names, load_ear(language))
        for first in sorted(spelt.begins - taken):
            for stop in range(first + 1, min(first + _LONGEST, len(words)) + 1):
                if stop - 1 in taken:
                    break
                side = spelt.side(first, stop)
                if side is not None:
                    yield first, stop, side
                    break


class _Spellings:
    """The words of a talk with capitals, to be asked whether they are a name in another spelling.

    ``begins`` are the words that may begin one: an everyday word only where it is written like one.
    """

    def __init__(self, talk: Talk, words: list[str], names: tuple[tuple[str, str], ...], ear: Ear) -> None:
        self._words, self._ear = words, ear
        self._heard = [(name, side, ear.word(name)[0]) for name, side in names if len(name) >= _SHORTEST]
        self._well = frozenset(name for name, _ in names if words.count(name) >= _WELL_SPELT)
        self._lengths = {
            len(name) + apart
            for name, _, _ in self._heard
            for apart in range(-_LENGTHS_APART, _LENGTHS_APART + 1)
        }
        self._strange = {word for word in set(words) if ear.level(word) < _PLAIN and not word.isdigit()}
        self._unheard = {word for word in self._strange if not ear.level(word)}
        self._capitals = frozenset(talk.capitals)
        self.begins = self._capitals.union(
            [index for index, word in enumerate(words) if word in self._strange]
        )
        # The same words come again and again in a talk.
        self._met: dict[tuple[str, bool], str | None] = {}

    def side(self, first: int, stop: int) -> str | None:
        """The side whose name the words most likely are; None where they are none."""
        words, capital = self._words[first:stop], first in self._capitals
        length = sum([len(word) for word in words])
        if length < _SHORTEST or length not in self._lengths:
            return None
        key = " ".join(words), capital
        if key not in self._met:
            least = _least(words, capital, self._strange, self._unheard)
            self._met[key] = _likeliest(words, self._heard, self._well, self._ear, least)
        return self._met[key]


def _least(words: list[str], capital: bool, strange: set[str], unheard: set[str]) -> float:
    """How like a name the words must be: the less English they are, the less."""
    if strange.isdisjoint(words) and not (capital and len(words) == 1):
        return _NEAR_PLAIN
    unknown = len(words) == 1 and words[0] in strange and (capital or words[0] in unheard)
    return _NEAR_UNKNOWN if unknown else _NEAR


def _likeliest(
    words: list[str], heard: list[tuple[str, str, str]], well: frozenset[str], ear: Ear, least: float
) -> str | None:
    """The side whose name the words are likest to, in letters or also in sounds; None below the least.

    Whoever spells a name ``well`` does not write something unlike it for the same name.
    """
    text = "".join(words)
    # With less in letters no sounds come near enough, nor within the margin of what does.
    floor = 2 * (least - _MARGIN) - 100
    found = process.extract(
        text, [one[0] for one in heard], scorer=fuzz.ratio, score_cutoff=floor, limit=None
    )
    near = [
        (*heard[at], letters) for name, letters, at in found if abs(len(name) - len(text)) <= _LENGTHS_APART
    ]
    if not near:
        return None
    sound = "".join([ear.word(word)[0] for word in words])
    best: dict[str, float] = {}
    for name, side, sounds, letters in near:
        likeness = max(letters, 0.5 * letters + 0.5 * fuzz.ratio(sound, sounds))
        if likeness >= (max(least, _NEAR) if name in well else least):
            best[side] = max(best.get(side, 0.0), likeness)
    ranked = sorted(best, key=lambda side: -best[side])
    if not ranked:
        return None
    clear = len(ranked) == 1 or best[ranked[0]] - best[ranked[1]] >= _MARGIN
    return ranked[0] if clear else None


def colours_of(sheet: Sheet, words: list[str], speech: Speech) -> tuple[str, str]:
    """The two sides' colours: the sheet's, else those said most, else what is worn in the sport talked of.

    Red and blue when in doubt.
    """
    if len(sheet.competitors) == 2:
        return sheet.competitors[0].side, sheet.competitors[1].side
    counts = {side: sum(words.count(name) for name in names) for side, names in speech.actors.colours.items()}
    if counts.get("white", 0) != counts.get("red", 0):
        return ("white" if counts.get("white", 0) > counts.get("red", 0) else "red"), "blue"
    dressed = sum(word in speech.actors.dress.get("white", ()) for word in words)
    return ("white" if dressed >= _DRESSED else "red"), "blue"


def roster_of(sheet: Sheet, speech: Speech, language: str = "en") -> Roster:
    """Every way of naming the sheet's competitors; words that would fit both sides are left out."""
    ear = load_ear(language)
    by_phrase: dict[str, set[str]] = {}
    names: dict[str, set[str]] = {}
    for one in sheet.competitors:
        places = own_places(one)
        for phrase, how in _ways(one, speech, ear):
            by_phrase.setdefault(phrase, set()).add(f"{one.side}|{how}")
            if (how == "name" and " " not in phrase) or phrase in places:
                names.setdefault(phrase, set()).add(one.side)
    phrases: dict[str, list[str]] = {}
    for phrase, groups in by_phrase.items():
        if len({group.split("|")[0] for group in groups}) == 1:
            phrases.setdefault(min(groups), []).append(phrase)
    single = tuple((name, min(sides)) for name, sides in names.items() if len(sides) == 1)
    return Roster({group: tuple(found) for group, found in phrases.items()}, single)


def _ways(one: Competitor, speech: Speech, ear: Ear) -> Iterator[tuple[str, str]]:
    if one.name:
        parts = split_words(one.name)
        yield " ".join(parts), "name"
        for part in parts:
            if len(part) > 2:
                yield part, "name"
    for alias in one.aliases:
        parts = split_words(alias)
        # A word the language does not know is a name, not what somebody is like.
        strange = len(parts) == 1 and len(parts[0]) > 2 and ear.level(parts[0]) < _PLAIN
        yield " ".join(parts), "name" if strange else "epithet"
    for place in (one.nation or "").split(","):
        parts = split_words(place)
        if not parts:
            continue
        yield " ".join(parts), "nation"
        # Of a place or club of several words, each that is no word of the language names it too.
        if len(parts) > 1:
            yield from ((part, "nation") for part in parts if len(part) > 2 and ear.level(part) < _PLAIN)
        for people in speech.nations.get(" ".join(parts), ()):
            yield people, "nation"
        for people in _peoples(parts[-1], speech.actors.demonym_endings):
            yield people, "nation"


def _peoples(place: str, endings: tuple[str, ...]) -> Iterator[str]:
    """Likely words for the people of a place: "Norvania" gives "norvanian", "norvanians", "norvanish" …"""
    for ending in endings:
        yield place + ending
        if place[-1] in "aeiouy" and len(place) > 4:
            yield place[:-1] + ending
            if place[-2] in "aeiouy":
                yield place[:-2] + ending


def own_places(one: Competitor) -> set[str]:
    """The single words of a competitor's places, without the words for their people."""
    return {" ".join(split_words(place)) for place in (one.nation or "").split(",")}


def split_words(text: str) -> list[str]:
    """A name's words as the talk's tokens would have them."""
    cleaned = "".join(letter.lower() if letter.isalnum() else " " for letter in text)
    return cleaned.split()
