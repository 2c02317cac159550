"""What the talk itself says about who is who: epithets, nicknames, "my lad in the white"."""

from collections.abc import Iterator

from hikite.claims.namings import introduced
from hikite.claims.phrases import find_once, phrases_of
from hikite.claims.references import Reference
from hikite.claims.rosters import roster_of, split_words
from hikite.records import Sheet, Talk
from hikite.sounds import Ear
from hikite.terms.speech import Actors, Speech

# A short form of a name ("Min" of Minna, "Tobes" of Tobin) begins like it, with so many letters.
_ROOT, _GROWN = 3, 1
# Everyday words from this level on are no names, unless written as one so often within a sentence.
_EVERYDAY, _OFTEN = 8, 2
# How many words may stand between "my lad" and who is meant, said before or behind.
_OWN_BEFORE, _OWN_BEHIND = 5, 0


def learn(
    talk: Talk,
    sheet: Sheet,
    sides: tuple[str, str],
    colours: tuple[Reference, ...],
    speech: Speech,
    terms: set[int],
    ear: Ear,
) -> Sheet:
    """The sheet with the names, if it had none, and the epithets that the talk ties to each side."""
    competitors = sheet.competitors or introduced(talk, sides, colours, speech, terms, ear)
    sheet = sheet.model_copy(update={"competitors": competitors})
    aliases = (*_aliases(talk, sheet, colours, speech), *_short_names(talk, sheet, terms, ear))
    competitors = tuple(
        one.model_copy(
            update={"aliases": (*one.aliases, *(alias for alias, side in aliases if side == one.side))}
        )
        for one in competitors
    )
    return sheet.model_copy(update={"competitors": competitors})


def _aliases(
    talk: Talk, sheet: Sheet, colours: tuple[Reference, ...], speech: Speech
) -> tuple[tuple[str, str], ...]:
    """Epithets with their sides; one that is tied to both sides is dropped."""
    words = talk.texts
    roster = roster_of(sheet, speech)
    pointers = [(one.first, one.stop, one.side) for one in colours]
    pointers += [(one.first, one.stop, roster.side(one.name)) for one in find_once(roster.phrases, words)]
    tied: dict[str, set[str]] = {}
    for alias, side in (
        *_appositions(talk, words, pointers, speech.actors),
        *_own(talk, words, pointers, speech.actors),
    ):
        tied.setdefault(alias, set()).add(side)
    tied |= {alias: {side} for alias, side in _nicknames(talk, words, pointers, speech.actors)}
    return tuple((alias, min(sides)) for alias, sides in sorted(tied.items()) if len(sides) == 1)


def _short_names(talk: Talk, sheet: Sheet, terms: set[int], ear: Ear) -> Iterator[tuple[str, str]]:
    """Words written like a name that begin as one competitor's first name does, and no other's."""
    firsts = {one.side: split_words(one.name)[0] for one in sheet.competitors if one.name}
    whole = {part for one in sheet.competitors for part in split_words(one.name or "")}
    met: dict[str, int] = {}
    for index in talk.capitals:
        if index not in terms:
            within = index > 0 and talk.marks[index - 1] in ("", ",", "-")
            met[talk.texts[index]] = met.get(talk.texts[index], 0) + within
    for word in sorted(met.keys() - whole):
        if len(word) < _ROOT or (ear.level(word) >= _EVERYDAY and met[word] < _OFTEN):
            continue
        like = [
            side
            for side, first in firsts.items()
            if word[:_ROOT] == first[:_ROOT] and len(word) <= len(first) + _GROWN
        ]
        if len(like) == 1:
            yield word, like[0]


def _appositions(
    talk: Talk, words: list[str], pointers: list[tuple[int, int, str]], actors: Actors
) -> Iterator[tuple[str, str]]:
    """ "Okesh, the islander", "blue is the islander", "the tall one, Tolvarin": the epithet and its side."""
    starts = {first: side for first, _, side in pointers}
    for _, stop, side in pointers:
        at = stop
        if at < len(words) and words[at] in ("is", "'s") and talk.tokens[at - 1].after == "":
            at += 1
        elif at >= len(words) or talk.tokens[at - 1].after != ",":
            continue
        noun = _noun_phrase(talk, words, at, actors) or _by_name(talk, words, at, actors)
        if noun:
            yield noun, side
    the = actors.articles[0]
    for index in [index for index, word in enumerate(words) if word == the]:
        noun = _noun_phrase(talk, words, index, actors)
        if noun:
            end = index + len(noun.split()) + (words[index] == "the")
            if talk.tokens[end - 1].after == "," and end in starts:
                yield noun, starts[end]


def _noun_phrase(talk: Talk, words: list[str], at: int, actors: Actors) -> str:
    """ "islander" of "the islander", "older man" of "the older man": empty where it is no person."""
    if at + 1 >= len(words) or words[at] != actors.articles[0]:
        return ""
    for stop in (at + 2, at + 3):
        if stop > len(words) or any(token.after for token in talk.tokens[at : stop - 1]):
            break
        if words[stop - 1] in actors.person_nouns:
            phrase = words[at + 1 : stop]
            return "" if phrase[-1:] == phrase and phrase[0] in actors.colour_nouns else " ".join(phrase)
    return ""


def _by_name(talk: Talk, words: list[str], at: int, actors: Actors) -> str:
    """ "sparrow" of ", the Sparrow,": written like a name and all that is said."""
    if at + 1 >= len(words) or words[at] != actors.articles[0]:
        return ""
    token = talk.tokens[at + 1]
    return token.text if token.capital and token.after and not talk.tokens[at].after else ""


def _own(
    talk: Talk, words: list[str], pointers: list[tuple[int, int, str]], actors: Actors
) -> Iterator[tuple[str, str]]:
    """ "That's my lad in the white, Jonty", "Tobin, my lad": then "my lad", "mine", "us" are white."""
    for own in phrases_of(("own", actors.own)).find(words):
        for first, stop, side in pointers:
            between = words[own.stop : first] if first >= own.stop else words[stop : own.first]
            near = len(between) <= (_OWN_BEFORE if first >= own.stop else _OWN_BEHIND)
            if near and _told(own.phrase, between, actors) and same_statement(talk, own.first, first):
                yield own.phrase, side
                for ours in _ours(own.phrase, actors):
                    yield ours, side
                break
    for first, _, side in pointers:
        if first and words[first - 1] in actors.owning:
            for ours in _ours("", actors):
                yield ours, side


def _ours(own: str, actors: Actors) -> tuple[str, ...]:
    """What else means the speaker's own competitor: "my lad", "us", and "I" where it is the speaker."""
    me = actors.myself if own in actors.myself else ()
    return (*actors.ours, *(one for one in actors.own if one not in actors.myself), *me)


def _told(own: str, between: list[str], actors: Actors) -> bool:
    """Whether an own competitor is told of: "mine's the small one in the red", not "ask me, red"."""
    linking = [word for word in between if word not in actors.articles]
    if not linking:
        return " " in own
    return linking[-1] in actors.wearing or all(word in actors.links for word in linking)


def _nicknames(
    talk: Talk, words: list[str], pointers: list[tuple[int, int, str]], actors: Actors
) -> Iterator[tuple[str, str]]:
    """ "… calls him Radio", "known as the Lighthouse": the nickname of the competitor pointed at last."""
    named = {index for first, stop, _ in pointers for index in range(first, stop)}
    for call in phrases_of(("call", actors.calling)).find(words):
        before = [side for first, _, side in pointers if first < call.first]
        article = call.stop < len(words) and words[call.stop] == actors.articles[0]
        at = call.stop + article
        if before and at < len(words) and at not in named and (article or talk.tokens[at].capital):
            yield words[at], before[-1]


def same_statement(talk: Talk, one: int, two: int) -> bool:
    """Whether no sentence ends between two tokens."""
    low, high = min(one, two), max(one, two)
    return not any(token.after and token.after in ".?!…" for token in talk.tokens[low:high])
