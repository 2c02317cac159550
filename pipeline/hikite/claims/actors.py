"""Who is pointed at: every word that names or stands for a competitor."""

from bisect import bisect_right

from hikite.claims.coachings import spoken_of, warned
from hikite.claims.introductions import learn
from hikite.claims.owners import owners
from hikite.claims.phrases import find_once, phrases_of
from hikite.claims.references import Reference
from hikite.claims.rosters import Roster, colours_of, roster_of
from hikite.records import Sheet, Talk
from hikite.records.spans import tokens_of
from hikite.sounds import load_ear
from hikite.terms.speech import Actors, Speech

# What stands for a competitor without naming one, and what ends a name set apart.
_STAND_IN = frozenset({"subject", "object", "possessive", "opponent", "both", "ours"})
_APART = frozenset(",.!?;")


def find_actors(
    talk: Talk, sheet: Sheet, speech: Speech, terms: set[int], language: str = "en"
) -> tuple[tuple[Reference, ...], Sheet]:
    """The references in the talk, in order and without overlap, and the sheet with what the talk added.

    ``terms`` are the tokens that belong to a term of the lexicon: they name nobody.
    """
    words = talk.texts
    sides = colours_of(sheet, words, speech)
    colours = _colours(talk, words, sides, speech)
    learnt = learn(talk, sheet, sides, colours, speech, terms, load_ear(language))
    roster = roster_of(learnt, speech, language)
    unnamed = not sheet.competitors
    named = _named(talk, words, roster, speech.actors, terms | tokens_of(colours), language, unnamed)
    stands_in = _pronouns(words, speech.actors)
    taken = terms | tokens_of((*named, *colours, *stands_in))
    owned = owners(talk, roster.whole, taken, speech, language)
    named += tuple(Reference(first, stop, side, "name") for first, stop, side in owned)
    references = _without_overlap((*named, *colours, *stands_in), len(words))
    references = tuple(spoken_of(talk, warned(talk, references, sides, speech.actors), sides, speech.actors))
    return _named_behind(talk, references, speech.actors), learnt


def _colours(talk: Talk, words: list[str], sides: tuple[str, str], speech: Speech) -> tuple[Reference, ...]:
    """The colours of the two sides where a competitor is meant, not a line or a belt."""
    actors = speech.actors
    worn = {word: side for side in reversed(sides) for word in actors.colours.get(side, ())}
    found = []
    for index, word in enumerate(words):
        side = worn.get(word)
        if side is None:
            continue
        following = words[index + 1] if index + 1 < len(words) else ""
        joined = index + 1 < len(words) and talk.tokens[index].after in ("", "-")
        if joined and following in actors.not_colours:
            continue
        before = words[index - 1] if index else ""
        noun = joined and following in actors.colour_nouns
        # "right on the red" is the edge of the mat; "the red jacket" and "the red" after a verb are people.
        if before in actors.articles and not noun and index > 1 and words[index - 2] in actors.places:
            continue
        first = index - 1 if before in actors.articles else index
        found.append(Reference(first=first, stop=index + 1 + noun, side=side, how="colour"))
    return tuple(found)


def _named(
    talk: Talk,
    words: list[str],
    roster: Roster,
    actors: Actors,
    terms: set[int],
    language: str,
    learnt: bool,
) -> tuple[Reference, ...]:
    """Names, nations and epithets, near spellings of names included; a nation as a language is nobody."""
    found = [
        Reference(first=one.first, stop=one.stop, side=roster.side(one.name), how=roster.how(one.name))
        for one in find_once(roster.phrases, words)
    ]
    kept = [one for one in found if one.how != "nation" or not _is_language(words, one, actors)]
    taken = terms | tokens_of(kept)
    near = [
        Reference(first=first, stop=stop, side=side, how="name")
        for first, stop, side in roster.near(talk, words, taken, language, learnt)
    ]
    return (*kept, *near)


def _is_language(words: list[str], one: Reference, actors: Actors) -> bool:
    """Whether "Russian" is a language or a habit here: "the Russian word for it", "in Russian"."""
    following = words[one.stop] if one.stop < len(words) else ""
    before = words[one.first - 1] if one.first else ""
    return following in actors.not_actors or before in actors.language_before


def _pronouns(words: list[str], actors: Actors) -> tuple[Reference, ...]:
    phrases = phrases_of(
        ("subject", actors.subjects),
        ("object", actors.objects),
        ("possessive", actors.possessives),
        ("opponent", (*actors.opponents, *actors.others)),
        ("both", actors.both),
    )
    return tuple(
        Reference(first=found.first, stop=found.stop, side="", how=found.name)
        for found in phrases.find(words)
    )


def _without_overlap(references: tuple[Reference, ...], length: int) -> tuple[Reference, ...]:
    """The longest references first, each token used once; those that know their side win a tie."""
    free = [True] * length
    kept = []
    for one in sorted(references, key=lambda one: (one.first - one.stop, not one.side, one.first)):
        if all(free[one.first : one.stop]):
            free[one.first : one.stop] = [False] * (one.stop - one.first)
            kept.append(one)
    return tuple(sorted(kept, key=lambda one: one.first))


def _named_behind(talk: Talk, references: tuple[Reference, ...], actors: Actors) -> tuple[Reference, ...]:
    """The references, a pronoun knowing its side where the name follows, set apart: "he's on the edge now,
    Torrick", "she turns in, does the Norvanian"."""
    found = list(references)
    ends = [one.stop for one in talk.utterances]
    for at, one in enumerate(found):
        if not one.side or one.how in _STAND_IN or not _set_apart(talk, one, actors):
            continue
        first = ends[bisect_right(ends, one.first) - 1] if one.first >= ends[0] else 0
        for back in range(at - 1, -1, -1):
            other = found[back]
            if other.first < first or other.side:
                break
            if other.how == "subject":
                found[back] = other._replace(side=one.side)
    return tuple(found)


def _set_apart(talk: Talk, one: Reference, actors: Actors) -> bool:
    """Whether nothing but a word that takes up the verb stands beside a name between two marks."""
    texts, marks = talk.texts, talk.marks
    opens = one.first - (one.first > 0 and texts[one.first - 1] in actors.articles)
    opens -= opens > 0 and texts[opens - 1] in actors.taking_up
    apart = opens > 0 and marks[opens - 1].startswith(",")
    return apart and (one.stop == len(texts) or marks[one.stop - 1].strip()[:1] in _APART)
