"""The competitors' names, learnt from the talk alone: whoever is named beside a colour wears it."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from itertools import combinations, product
from typing import TYPE_CHECKING

from rapidfuzz import fuzz

from hikite.records import Competitor, Talk
from hikite.sounds import Ear
from hikite.terms.speech import Actors, Speech

if TYPE_CHECKING:
    from hikite.claims.actors import Reference

# Names are one name from this likeness of letters on, 0 to 100.
_ONE_NAME = 75.0
# A name is introduced within this many tokens of its colour, or of a name already known.
_NEAR, _LINKED = 6, 3
# Both are introduced at one of the first places of each colour, so near each other; alike is likelier.
_FIRST, _BREATH, _ALIKE, _STOPS = 3, 40, 1.5, ".;?!…"
# A word this common in English (half decades of its count) is no name; one written large may be commoner.
_COMMON, _RARE, _SHORTEST = 5, 8, 4
# A further name belongs to a side with this many votes, and with this many times the other side's.
_ENOUGH, _CLEARLY, _ROUNDS = 6, 2, 3


def introduced(
    talk: Talk,
    sides: tuple[str, str],
    colours: tuple["Reference", ...],
    speech: Speech,
    terms: set[int],
    ear: Ear,
) -> tuple[Competitor, ...]:
    """The competitors with every name that stands by their colour or by a name of theirs, likeliest first."""
    written = {index: name for index, name in _names(talk, speech, ear) if index not in terms}
    persons = _persons(talk, written)
    names = {index: persons[name] for index, name in written.items()}
    pointers = [(one.first, one.stop, one.side) for one in colours]
    owner = _opening(talk, names, pointers, speech.actors, sides)
    owner = owner or _first_names(names, _votes(talk, names, pointers, speech.actors), sides)
    for _ in range(_ROUNDS):
        known = [(index, index + 1, owner[name]) for index, name in names.items() if name in owner]
        found = _further(names, _votes(talk, names, [*pointers, *known], speech.actors), owner, sides)
        if found == owner:
            break
        owner = found
    counts = Counter(written.values())
    owned = {name: owner[person] for name, person in persons.items() if person in owner}
    places = {name for index, name in written.items() if index and _is_origin(talk, index, speech)}
    whole = [(one, two) for one, two in _beside(talk, written) if not places.intersection((one, two))]
    return tuple(_competitor(side, owned, counts, places, whole) for side in sides)


def _is_origin(talk: Talk, index: int, speech: Speech) -> bool:
    """Whether a name tells where somebody comes from: "of Velmark"."""
    return talk.tokens[index - 1].text in speech.actors.origins and not talk.tokens[index - 1].after


def _persons(talk: Talk, written: Mapping[int, str]) -> dict[str, str]:
    """Each name with the first of the names it is said together with: "Callum" and "Dray" are one person."""
    persons = {name: name for name in written.values()}
    for name, following in (*_beside(talk, written), *_alike(persons)):
        keep, drop = persons[name], persons[following]
        persons = {key: keep if person == drop else person for key, person in persons.items()}
    return persons


def _alike(names: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Names that are one name as a recogniser wrote it: "halberth", "halbrett"."""
    for one, two in combinations(names, 2):
        if one[0] == two[0] and fuzz.ratio(one, two) >= _ONE_NAME:
            yield one, two


def _beside(talk: Talk, written: Mapping[int, str]) -> Iterator[tuple[str, str]]:
    """The names said side by side, as first and last name are."""
    for index, name in written.items():
        following = written.get(index + 1)
        one = talk.tokens[index]
        if (
            following is not None
            and following != name
            and not one.after
            and one.cue == talk.tokens[index + 1].cue
        ):
            yield name, following


def _competitor(
    side: str,
    owner: Mapping[str, str],
    counts: Mapping[str, int],
    places: set[str],
    whole: list[tuple[str, str]],
) -> Competitor:
    """The competitor by the name said most, with the first or last name that stands beside it."""
    own = [name for name in owner if owner[name] == side]
    own.sort(key=lambda name: (name in places, -counts[name]))
    if not own:
        return Competitor(side=side)
    full = next((pair for pair in whole if own[0] in pair and {*pair} <= {*own}), (own[0],))
    return Competitor(side=side, name=" ".join(full), aliases=tuple(name for name in own if name not in full))


def _opening(
    talk: Talk,
    names: Mapping[int, str],
    pointers: list[tuple[int, int, str]],
    actors: Actors,
    sides: tuple[str, str],
) -> dict[str, str]:
    """Who wears what as the competitors are first told of, both in one breath; empty where nobody tells.

    Whoever names the wearer before one colour most likely does so before the other too.
    """
    worn = [[one for one in pointers if one[2] == side][:_FIRST] for side in sides]
    best, owner = 0.0, {}
    for one, other in product(*worn):
        if abs(one[0] - other[0]) > _BREATH:
            continue
        for before, too in product((True, False), repeat=2):
            (name, weight), (rival, against) = (
                _wearer(talk, names, one, before, actors),
                _wearer(talk, names, other, too, actors),
            )
            score = (weight + against) * (_ALIKE if before == too else 1.0)
            if weight and against and name != rival and score > best:
                best, owner = score, {name: sides[0], rival: sides[1]}
    return owner


def _wearer(
    talk: Talk, names: Mapping[int, str], colour: tuple[int, int, str], before: bool, actors: Actors
) -> tuple[str, int]:
    """The name next before or behind a colour and how closely it stands to it; no name and 0 without one."""
    first, stop, _ = colour
    gap, linked = 0, True
    for index in range(first - 1, -1, -1) if before else range(stop, len(talk.tokens)):
        word = talk.tokens[index].text
        cut = talk.tokens[index if before else index - 1].after
        if gap > _NEAR or word in actors.partings or any(mark in _STOPS for mark in cut):
            break
        name = names.get(index)
        if name is None:
            gap, linked = gap + 1, linked and word in actors.links
        elif not index or talk.tokens[index - 1].text not in actors.origins:
            apart = talk.tokens[index].cue != talk.tokens[first].cue
            return name, (_NEAR + 1 - gap) * (_LINKED if linked else 1) // (1 + apart)
    return "", 0


def _votes(
    talk: Talk, names: Mapping[int, str], pointers: list[tuple[int, int, str]], actors: Actors
) -> dict[str, Counter[str]]:
    """By name, how strongly its places in the talk tie it to each side."""
    votes: dict[str, Counter[str]] = {name: Counter() for name in names.values()}
    for first, stop, side in pointers:
        for index in range(max(first - _NEAR - 1, 0), stop + _NEAR + 1):
            name = names.get(index)
            gap = index - stop if index >= stop else first - index - 1
            if name is None or not 0 <= gap <= _NEAR or not same_statement(talk, first, index):
                continue
            low, high = (stop, index) if index >= stop else (index + 1, first)
            linked = all(talk.tokens[at].text in actors.links for at in range(low, high))
            votes[name][side] += (_NEAR + 1 - gap) * (_LINKED if linked else 1)
    return votes


def _first_names(
    names: Mapping[int, str], votes: Mapping[str, Counter[str]], sides: tuple[str, str]
) -> dict[str, str]:
    """One name a side: the one its colour speaks for most, else the commonest that is left.

    Where no colour speaks for anybody, the two commonest in the order they are named: the first side is
    called first (common practice, no source).
    """
    counts = Counter(names.values())
    if not any(votes.values()):
        two = [name for name, count in counts.most_common(2) if count > 1]
        return dict(zip(sorted(two, key=list(names.values()).index), sides, strict=False))
    owner: dict[str, str] = {}
    for side in sorted(sides, key=lambda side: -max((tally[side] for tally in votes.values()), default=0)):
        other = sides[sides[0] == side]
        ranked = [
            (tally[side] - tally[other], counts[name], name)
            for name, tally in votes.items()
            if tally[side] > 0 and name not in owner
        ]
        rest = [(0, count, name) for name, count in counts.items() if count > 1 and name not in owner]
        if ranked or rest:
            owner[max(ranked or rest)[2]] = side
    return owner


def _further(
    names: Mapping[int, str], votes: Mapping[str, Counter[str]], owner: dict[str, str], sides: tuple[str, str]
) -> dict[str, str]:
    """The names known so far and those that stand clearly by one side's."""
    found = dict(owner)
    for name in dict.fromkeys(names.values()):
        one, two = votes[name][sides[0]], votes[name][sides[1]]
        high, low = max(one, two), min(one, two)
        if name not in found and high >= _ENOUGH and high >= _CLEARLY * low:
            found[name] = sides[one < two]
    return found


def _names(talk: Talk, speech: Speech, ear: Ear) -> Iterator[tuple[int, str]]:
    """Tokens that look like a name: large inside a sentence, unknown to the language, or wearing a colour."""
    known = {word for words in speech.actors.colours.values() for word in words}
    opens = {utterance.first for utterance in talk.utterances}
    worn = _wearers(talk, speech, ear)
    for index, token in enumerate(talk.tokens):
        word = token.text
        if len(word) < _SHORTEST or word in known or word.isdigit():
            continue
        level = ear.level(word)
        unknown = level == 0 and not _is_contraction(word, speech, ear)
        if unknown or word in worn or (token.capital and index not in opens and level < _COMMON):
            yield index, word


def _wearers(talk: Talk, speech: Speech, ear: Ear) -> set[str]:
    """Words said to wear a colour, if they are rare: "barlow in blue", "norvik in the white"."""
    actors = speech.actors
    colours = {word for words in actors.colours.values() for word in words}
    nouns = {*actors.person_nouns, *actors.colour_nouns, *actors.objects, *actors.subjects}
    words, found = talk.texts, set()
    for index, linking in enumerate(words[1:-1]):
        if linking not in actors.wearing:
            continue
        at = index + 2 + (words[index + 2] in actors.articles)
        wears = at < len(words) and words[at] in colours
        if wears and words[index] not in nouns and ear.level(words[index]) < _RARE:
            found.add(words[index])
    return found


def _is_contraction(word: str, speech: Speech, ear: Ear) -> bool:
    """Whether a word is a common one and a clitic written without its apostrophe: "thats", "theyre"."""
    endings = (piece.replace("'", "") for piece in speech.clitics.pieces)
    return any(word.endswith(end) and ear.level(word.removesuffix(end)) >= _RARE for end in endings)


def same_statement(talk: Talk, one: int, two: int) -> bool:
    """Whether no sentence ends between two tokens."""
    low, high = min(one, two), max(one, two)
    return not any(token.after and token.after in ".?!…" for token in talk.tokens[low:high])
