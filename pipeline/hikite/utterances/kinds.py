"""The kinds of word that tell what stands beside them."""

from hikite.terms.speech import load_speech

# Ends of words that tell their kind, of words longer than this.
_SHORT = 4


class Kinds:
    """The kinds of word that one language's way of commenting lists; a word may be of several or of none."""

    def __init__(self, language: str) -> None:
        speech = load_speech(language)
        actors, statements = speech.actors, speech.statements
        self._lists = {
            "colour": frozenset(name for names in actors.colours.values() for name in names),
            "article": frozenset(actors.articles),
            "subject": frozenset(actors.subjects),
            "possessive": frozenset(actors.possessives),
            "preposition": actors.prepositions,
            "person": actors.person_nouns,
            "joiner": statements.joiners,
            "opener": frozenset(statements.openers),
            "number": statements.numbers,
        }
        self._ends = statements.ends
        self._known: dict[str, tuple[str, ...]] = {}

    def of(self, word: str) -> tuple[str, ...]:
        """The kinds of a word, its ending last."""
        found = self._known.get(word)
        if found is None:
            listed = [kind for kind, words in self._lists.items() if word in words]
            figures = ["number"] if word.isdigit() else []
            ends = [end for end in self._ends if len(word) > _SHORT and word.endswith(end)]
            found = self._known[word] = (*listed, *figures, *ends[:1])
        return found
