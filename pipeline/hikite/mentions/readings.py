"""Names that stand as written, plainly or nearly so, and what each of them may mean."""

from hikite.mentions.covers import EACH, WORTH_OF_LETTER, Found, Option
from hikite.mentions.exact import Match, Spelt
from hikite.mentions.streams import Stream
from hikite.records.spans import tokens_of
from hikite.sounds import Ear, squash
from hikite.terms import Name, Terms
from hikite.terms.words import normalised

# How sure a spelling makes us: as it stands, with an ending or a swapped piece, and where context must help.
_PLAIN, _ENDED, _WEAK = 0.97, 0.93, 0.8
_EVERYDAY = 1.0
# A name of no more words fills one clause; longer ones tell of several things: "one over, one under".
_SHORT = 3


class Readings:
    """The names of a lexicon by their spelling; ``guests`` are the languages that commentary borrows from."""

    def __init__(self, terms: Terms, language: str, guests: tuple[str, ...], ear: Ear) -> None:
        self._terms, self._language, self._guests, self._ear = terms, language, guests, ear
        self._spelt = Spelt(terms.names)
        # What has been met so far; no more than the lexicon has spellings.
        self._meanings: dict[tuple[tuple[int, bool], ...], tuple[tuple[Option, ...], bool]] = {}

    def matches(self, stream: Stream) -> list[Match]:
        """Every name that stands there, overlapping ones too."""
        return [match for match in self._spelt.find(stream) if not self._torn(match, stream)]

    def _torn(self, match: Match, stream: Stream) -> bool:
        """Whether a short name of the own language goes on over a halt: "no sweep, the foot stays"."""
        own = self._terms.names[match.name].language == self._language
        return own and match.stop - match.first <= _SHORT and not stream.unbroken(match.first, match.stop)

    def finds(self, matches: list[Match], stream: Stream) -> list[Found]:
        """What may be meant at each place where names stand."""
        spans: dict[tuple[int, int], list[Match]] = {}
        for match in matches:
            spans.setdefault((match.first, match.stop), []).append(match)
        return [self._find(span, found, stream) for span, found in spans.items()]

    def proper(self, matches: list[Match]) -> set[int]:
        """The words of names proper: those of another language, those with a source."""
        return tokens_of(match for match in matches if self._proper(self._terms.names[match.name]))

    def _find(self, span: tuple[int, int], found: list[Match], stream: Stream) -> Found:
        met = tuple([(match.name, match.plain) for match in found])
        meaning = self._meanings.get(met)
        if meaning is None:
            meaning = self._meanings[met] = self._meaning(met)
        candidates, weak = meaning
        letters = sum([len(word) for word in stream.words[span[0] : span[1]]])
        worth = WORTH_OF_LETTER * letters - (_EVERYDAY if weak else EACH)
        return Found(*span, worth, candidates, weak)

    def _meaning(self, met: tuple[tuple[int, bool], ...]) -> tuple[tuple[Option, ...], bool]:
        """What words may mean that spell these names, plainly or not, and whether they are weak."""
        names = [self._terms.names[number] for number, _ in met]
        shares: dict[str, tuple[float, str, bool]] = {}
        for (_, plain), name in zip(met, names, strict=True):
            share = _PLAIN if plain else _ENDED
            if self._terms.concepts[name.concept].generic:
                share *= 0.5
            shares[name.concept] = max(shares.get(name.concept, (0.0, "", True)), (share, name.form, plain))
        weak = all(name.weak and not self._foreign(name) for name in names)
        sure = _WEAK if weak else max(share for share, _, _ in shares.values())
        total = sum(share for share, _, _ in shares.values())
        ranked = sorted(
            shares.items(), key=lambda item: (-item[1][0], self._rank(item[1][1], item[0]), item[0])
        )
        candidates = tuple(
            Option(
                concept=concept,
                probability=round(sure * share / total, 4),
                form=form,
                how="exact" if plain else "near",
            )
            for concept, (share, form, plain) in ranked
        )
        return candidates, weak

    def _foreign(self, name: Name) -> bool:
        """Whether no word of a name is one of this commentary: in another script, or borrowed and unknown."""
        ear, words = self._ear, name.form.replace("-", " ").split()
        borrowed = name.language != self._language and name.language in self._guests
        return name.script != "latin" or (borrowed and not any(ear.level(squash(word)) for word in words))

    def _rank(self, form: str, concept: str) -> int:
        """The concept's place among those declared for an ambiguous form: the likelier stand first."""
        declared = self._terms.ambiguous.get(normalised(form), ())
        return declared.index(concept) if concept in declared else len(declared)

    def _proper(self, name: Name) -> bool:
        return not name.weak and (name.language != self._language or bool(name.source))
