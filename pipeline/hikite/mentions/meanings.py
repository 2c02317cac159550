"""What words may mean that stand there as written, or with a letter or two wrong."""

import math

from hikite.mentions.covers import Found, Option
from hikite.mentions.exact import Match
from hikite.mentions.slips import Slip
from hikite.mentions.spellings import SLOT
from hikite.mentions.streams import Stream
from hikite.sounds import Ear, squash
from hikite.terms import Name, Terms
from hikite.terms.words import normalised

# How sure a spelling makes us: as it stands, with an ending or a swapped piece, and where context must help.
_PLAIN, _ENDED, _WEAK = 0.97, 0.93, 0.8
# A find is worth its letters, less a little each, so that one long name outweighs the short ones inside it.
_WORTH_OF_LETTER, _EACH, _EVERYDAY, _HEARD = 0.6, 0.5, 1.0, 0.95
_SLIPPED, _SLIP_RIVALRY, _SEVERAL = 0.9, 30.0, 4
_NAMED = ("technique", "grip", "hold")


class Meanings:
    """The meanings of one lexicon's spellings; what has been met is remembered."""

    def __init__(self, terms: Terms, ear: Ear, language: str) -> None:
        self._terms, self._ear, self._language = terms, ear, language
        # No more than the lexicon has spellings.
        self._met: dict[tuple[tuple[int, bool], ...], tuple[tuple[Option, ...], bool]] = {}
        fronts = [name.form.replace("-", " ").partition(SLOT) for name in terms.names]
        self._slots = [
            (len(front.split()), len(back.split())) if slot else None for front, slot, back in fronts
        ]

    def written(self, matches: list[Match], stream: Stream) -> list[Found]:
        """One find for each range of words that spells names, overlapping ones too."""
        spans: dict[tuple[int, int], list[Match]] = {}
        for match in self._sound(matches, stream):
            spans.setdefault((match.first, match.stop), []).append(match)
        return [self._find(span, found, stream) for span, found in spans.items()]

    def slipped(self, slips: list[Slip]) -> list[Found]:
        """One find for each range spelt nearly as names; of names equally alike the lexicon's first leads."""
        spans: dict[tuple[int, int], dict[str, tuple[float, str]]] = {}
        for slip in slips:
            name = self._terms.names[slip.name]
            concepts = spans.setdefault((slip.first, slip.stop), {})
            if slip.likeness > concepts.get(name.concept, (0.0, ""))[0]:
                concepts[name.concept] = slip.likeness, name.form
        return [_slipped(span, concepts) for span, concepts in spans.items()]

    def _sound(self, matches: list[Match], stream: Stream) -> list[Match]:
        """The matches without split forms whose halves do not belong together.

        A halt or another name between the halves parts them, "he picks, and the ankle", and a name that fills
        the same words without a slot is the one that is meant.
        """
        split = [match for match in matches if self._slots[match.name]]
        if not split:
            return matches
        whole = [match for match in matches if not self._slots[match.name]]
        filled = {(match.first, match.stop) for match in whole}
        starts = {match.first for match in whole if self._names(match)}
        kept = [
            match
            for match in split
            if (match.first, match.stop) not in filled and self._joined(match, starts, stream)
        ]
        return [*whole, *kept]

    def _joined(self, match: Match, starts: set[int], stream: Stream) -> bool:
        front, back = self._slots[match.name] or (1, 1)
        inside = range(match.first + front, max(match.stop - back, match.first + front))
        halts = stream.breaks[match.first + front : match.stop - back + 1]
        return not halts.any() and starts.isdisjoint(inside)

    def _names(self, match: Match) -> bool:
        """Whether the match is a technique, grip or hold by a name that is no everyday word."""
        name = self._terms.names[match.name]
        concept = self._terms.concepts[name.concept]
        return concept.kind in _NAMED and not (concept.generic or name.weak)

    def _find(self, span: tuple[int, int], found: list[Match], stream: Stream) -> Found:
        met = tuple([(match.name, match.plain) for match in found])
        meaning = self._met.get(met)
        if meaning is None:
            meaning = self._met[met] = self._meaning(met)
        candidates, weak = meaning
        letters = sum([len(word) for word in stream.words[span[0] : span[1]]])
        worth = _WORTH_OF_LETTER * letters - (_EVERYDAY if weak else _EACH)
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
        weak = all(self._everyday(name) for name in names)
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

    def _everyday(self, name: Name) -> bool:
        """Whether a name is an everyday word of this commentary: no word of another script or unheard of."""
        if not name.weak or name.script != "latin":
            return False
        words = name.form.replace("-", " ").split()
        return name.language == self._language or any(self._ear.level(squash(word)) for word in words)

    def _rank(self, form: str, concept: str) -> int:
        """The concept's place among those declared for an ambiguous form: the likelier stand first."""
        declared = self._terms.ambiguous.get(normalised(form), ())
        return declared.index(concept) if concept in declared else len(declared)


def _slipped(span: tuple[int, int], concepts: dict[str, tuple[float, str]]) -> Found:
    ranked = sorted(concepts.items(), key=lambda item: -item[1][0])[:_SEVERAL]
    best = ranked[0][1][0]
    shares = [math.exp(-_SLIP_RIVALRY * (best - likeness)) for _, (likeness, _) in ranked]
    candidates = tuple(
        Option(concept=concept, probability=round(_SLIPPED * share / sum(shares), 4), form=form, how="near")
        for (concept, (_, form)), share in zip(ranked, shares, strict=True)
    )
    whole = _WORTH_OF_LETTER * len(squash(ranked[0][1][1])) - _EACH
    return Found(*span, _HEARD * whole * best, candidates, slipped=True)
