"""Which words look like a name: written large inside a sentence, or unknown to the language."""

from collections import Counter

from hikite.records import Talk
from hikite.sounds import Ear
from hikite.terms.speech import Speech

# Words this common in English (half decades of their count) are no names: those written large, unless so
# often and never small, and those that only wear a colour; words below the last level are hardly English.
_COMMON, _OFTEN, _RARE, _STRANGE = 9, 3, 8, 4
_SHORTEST, _SHORTEST_LARGE = 4, 3


def peoples(talk: Talk, speech: Speech) -> dict[str, str]:
    """Every word for a known nation or its people, with the nation, but those that are first names here."""
    known: dict[str, str] = {}
    for nation, people in speech.nations.items():
        for word in (nation, *people):
            known.setdefault(word, nation)
    for word in _given(talk, speech):
        known.pop(word, None)
    return known


def _given(talk: Talk, speech: Speech) -> set[str]:
    """The first names that name a nation's people as well: mostly said without an article, "Finn", they are
    names; "the Finn" is one from Finland."""
    words, actors = talk.texts, speech.actors
    alone: Counter[str] = Counter()
    for at, word in enumerate(words):
        if word in actors.first_names:
            alone[word] += -1 if at and words[at - 1] in actors.articles else 1
    return {word for word, more in alone.items() if more > 0}


def name_like(talk: Talk, speech: Speech, ear: Ear, terms: set[int]) -> dict[int, str]:
    """Tokens that look like a name, by place.

    Where the talk tells large from small, a name is written large inside a sentence; else it is unknown to
    the language. Both may be known by the colour they wear.
    """
    known = {word for words in speech.actors.colours.values() for word in words} | speech.actors.not_names
    nations = peoples(talk, speech).keys()
    known |= nations
    inside, small = _writings(talk, terms)
    # Those that name a nation's people and do not do so here.
    worn = _wearers(talk, speech, ear) | (speech.actors.first_names - nations)

    def is_name(word: str) -> bool:
        level = ear.level(word)
        large = level < _COMMON or (inside[word] >= _OFTEN and not small[word])
        unknown = len(word) >= _SHORTEST and not level and not _is_contraction(word, speech, ear)
        unknown = unknown and not _is_done(word, speech, ear)
        # Who writes hastily writes a name large once and small from then on.
        hasty = inside[word] and level < _STRANGE
        return (inside[word] > small[word] and large) or hasty or (unknown and not (inside and small[word]))

    names = {
        word
        for word in set(talk.texts) - known
        if len(word) >= _SHORTEST_LARGE and word.isalpha() and (word in worn or is_name(word))
    }
    return {at: word for at, word in enumerate(talk.texts) if word in names and at not in terms}


def _writings(talk: Talk, terms: set[int]) -> tuple[Counter[str], Counter[str]]:
    """How often each word of more than a letter is written large inside a sentence, and how often small.

    A lone letter ("I") is large in talk that otherwise knows no capitals.
    """
    words, tokens, large = talk.texts, talk.tokens, terms.union(talk.capitals)
    opens, firsts = {utterance.first for utterance in talk.utterances}, _firsts(talk)
    within = [at for at in talk.capitals if at not in terms and (at not in opens or at in firsts)]
    near = (at for at in within if at in firsts or tokens[at - 1].cue == tokens[at].cue)
    inside = Counter([words[at] for at in near if len(words[at]) > 1])
    return inside, Counter([word for at, word in enumerate(words) if at not in large])


def _firsts(talk: Talk) -> set[int]:
    """Words written large before the same large word more than once: first names, also where they begin a
    statement."""
    words, large = talk.texts, set(talk.capitals)
    pairs = [at for at in talk.capitals if at + 1 in large and not talk.tokens[at].after]
    said = Counter((words[at], words[at + 1]) for at in pairs)
    return {at for at in pairs if said[words[at], words[at + 1]] > 1}


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


def _is_done(word: str, speech: Speech, ear: Ear) -> bool:
    """Whether a word is a common one with an ending: "prising" somebody's hands open is done by somebody."""
    stems = [word.removesuffix(end) for end in speech.statements.ends if len(end) > 1 and word.endswith(end)]
    return any(
        max(map(ear.level, (stem, f"{stem}e", stem[:-1]))) >= _STRANGE for stem in stems if len(stem) > 2
    )
