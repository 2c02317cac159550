"""Every mention of a lexicon concept in a talk: as written, nearly so, or by sound; the best set without overlap."""

import math
from dataclasses import dataclass

import numpy as np

from hikite.mentions.attributes import attributes_of, load_wordings
from hikite.mentions.contexts import Neighbourhood
from hikite.mentions.covers import best_cover
from hikite.mentions.evidence import load_weights, log_odds
from hikite.mentions.exact import Match, Spelt
from hikite.mentions.hearing import Heard
from hikite.mentions.soundings import Gatherer, Windows
from hikite.mentions.streams import Stream, stream_of
from hikite.records import Candidate, Mention, Talk
from hikite.sounds import load_ear
from hikite.terms import Name, Terms
from hikite.terms.words import normalised

# How sure a spelling makes us: as it stands, with an ending or a swapped piece, and where context must help.
_PLAIN, _ENDED, _WEAK = 0.97, 0.93, 0.8
_WORTH_OF_LETTER = 0.5
_RIVALRY = 14.0
_REACH = 8


@dataclass(frozen=True)
class _Find:
    first: int
    stop: int
    worth: float
    candidates: tuple[Candidate, ...]
    weak: bool = False


class Matcher:
    """An index of one lexicon, built once; ``find`` may be asked about any number of talks."""

    def __init__(self, terms: Terms, language: str = "en") -> None:
        self._terms, self._language = terms, language
        self._spelt = Spelt(terms.names)
        self._spoken = tuple(name for name in terms.names if self._heard_at_all(name))
        self._weights = load_weights(language)
        self._heard = Heard(self._spoken, load_ear(language), language)
        self._gatherer = Gatherer(self._spoken, self._heard, self._weights.guests, language)
        self._wordings = load_wordings(language)

    def _heard_at_all(self, name: Name) -> bool:
        """Family words and everyday words are taken as written only: too much English sounds like them."""
        return not name.weak and not self._terms.concepts[name.concept].generic and "~" not in name.form

    def find(self, talk: Talk) -> tuple[Mention, ...]:
        """Every mention of the talk in order, without overlap."""
        stream = stream_of(talk)
        if not stream.words:
            return ()
        near = Neighbourhood(stream, self._language)
        matches = self._spelt.find(stream)
        finds = self._written(matches, stream)
        windows = self._gatherer.gather(stream, self._heard.find(stream), matches, near)
        chosen = best_cover([*finds, *self._sounded(windows)])
        kept = [find for find in chosen if not find.weak or self._supported(find, chosen, near)]
        return tuple(self._mention(find, kept, at, talk) for at, find in enumerate(kept))

    def _written(self, matches: list[Match], stream: Stream) -> list[_Find]:
        spans: dict[tuple[int, int], list[Match]] = {}
        for match in matches:
            spans.setdefault((match.first, match.stop), []).append(match)
        return [self._written_find(span, found, stream) for span, found in spans.items()]

    def _written_find(self, span: tuple[int, int], found: list[Match], stream: Stream) -> _Find:
        names = [self._terms.names[match.name] for match in found]
        shares: dict[str, tuple[float, str, bool]] = {}
        for match, name in zip(found, names, strict=True):
            share = _PLAIN if match.plain else _ENDED
            if self._terms.concepts[name.concept].generic:
                share *= 0.5
            shares[name.concept] = max(
                shares.get(name.concept, (0.0, "", True)), (share, name.form, match.plain)
            )
        weak = all(name.weak for name in names)
        sure = _WEAK if weak else max(share for share, _, _ in shares.values())
        total = sum(share for share, _, _ in shares.values())
        ranked = sorted(
            shares.items(), key=lambda item: (-item[1][0], self._rank(item[1][1], item[0]), item[0])
        )
        candidates = tuple(
            Candidate(
                concept=concept,
                probability=round(sure * share / total, 4),
                form=form,
                how="exact" if plain else "near",
            )
            for concept, (share, form, plain) in ranked
        )
        letters = sum(len(word) for word in stream.words[span[0] : span[1]])
        return _Find(*span, (0.5 if weak else 2.0) + _WORTH_OF_LETTER * letters, candidates, weak)

    def _rank(self, form: str, concept: str) -> int:
        """The concept's place among those declared for an ambiguous form: the likelier stand first."""
        declared = self._terms.ambiguous.get(normalised(form), ())
        return declared.index(concept) if concept in declared else len(declared)

    def _sounded(self, windows: Windows) -> list[_Find]:
        odds = log_odds(windows.signs, self._weights)
        floor = math.log(self._weights.least / (1 - self._weights.least))
        finds = []
        for at in np.flatnonzero(odds > floor).tolist():
            finds.append(
                _Find(
                    int(windows.first[at]),
                    int(windows.stop[at]),
                    float(odds[at]) - floor,
                    self._rivals(windows.rivals[at], float(odds[at])),
                )
            )
        return finds

    def _rivals(self, rivals: list[tuple[int, float, int]], odds: float) -> tuple[Candidate, ...]:
        """The concepts a window may be; the nearest has the fitted probability, the others by their distance."""
        probability = 1 / (1 + math.exp(-odds))
        nearest = rivals[0][1]
        shares = [math.exp(-_RIVALRY * (distance - nearest)) for _, distance, _ in rivals]
        return tuple(
            Candidate(
                concept=self._gatherer.concepts[concept],
                probability=round(
                    probability * share if at == 0 else min(probability, 1 - probability) * share, 4
                ),
                form=self._spoken[self._heard.names[entry][0]].form,
                how="sound",
            )
            for at, ((concept, _, entry), share) in enumerate(zip(rivals, shares, strict=True))
        )

    def _supported(self, find: _Find, chosen: list[_Find], near: Neighbourhood) -> bool:
        """Whether an everyday word stands among talk of gripping and throwing."""
        if near.doing(find.first, find.stop) or near.actor(find.first, find.stop):
            return True
        return any(
            not other.weak and other.first < find.stop + _REACH and other.stop > find.first - _REACH
            for other in chosen
        )

    def _mention(self, find: _Find, kept: list[_Find], at: int, talk: Talk) -> Mention:
        concept = self._terms.concepts[find.candidates[0].concept]
        low = kept[at - 1].stop if at else 0
        high = kept[at + 1].first if at + 1 < len(kept) else len(talk.tokens)
        words = tuple(
            token.text for token in talk.tokens[max(low, find.first - 4) : min(high, find.stop + 5)]
        )
        shift = max(low, find.first - 4)
        return Mention(
            first=find.first,
            stop=find.stop,
            kind=concept.kind,
            candidates=find.candidates,
            generic=concept.generic,
            attributes=attributes_of(
                words, find.first - shift, find.stop - shift, 0, len(words), self._wordings
            ),
        )
