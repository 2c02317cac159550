"""Techniques and grips that are told, not named: what is done, with what, to what and from where."""

import tomllib
from bisect import bisect_left
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from pydantic import BaseModel, ValidationError

from hikite.errors import LexiconError
from hikite.mentions.covers import Found, Option
from hikite.mentions.pieces import Pieces, Span
from hikite.mentions.streams import Stream
from hikite.terms import Terms
from hikite.terms.places import lexicon_root

# A description is worth its letters, more with each piece that fits, less with each word in between.
_WORTH_OF_LETTER, _EACH, _PIECE, _GAP = 0.5, 1.0, 0.5, 0.3
# It is the surer the more words tell it. The steps are rough, from a count over talk that was read; how sure
# a claim is that rests on it is fitted.
_SURE, _EACH_WORD, _SUREST = 0.4, 0.05, 0.8
_WIDEST = 16
# So many other techniques or grips are kept that the same words may tell of.
_RIVALS = 2
_BUT = " but "


class Wordings(BaseModel, frozen=True, extra="forbid"):
    """The typed content of ``lexicon/<lang>/descriptions.toml``.

    ``pieces`` are words that say the same by the name of their set: ``~`` in one is one to three words,
    ``his/her`` either of the two, ``throw+`` the verb in the forms that ``verbs`` tells. ``gap`` is how many
    other words may stand between two of them, taken all together, none of ``breaks`` among them ("across, no,
    wait, under the arm" tells of two things). ``told`` gives, by concept, the sets that
    together tell of it in any order; what stands behind "but" must not be among them.
    """

    gap: int = 0
    breaks: tuple[str, ...] = ()
    verbs: dict[str, str] = {}
    pieces: dict[str, tuple[str, ...]] = {}
    told: dict[str, tuple[str, ...]] = {}


class Rule(NamedTuple):
    """One description: a concept, the sets that tell of it, and those that tell of something else."""

    concept: str
    text: str
    wanted: tuple[str, ...]
    but: tuple[str, ...]


@cache
def load_descriptions(language: str) -> Wordings:
    """The descriptions of one language, none where it has no file; LexiconError on a broken file."""
    file = lexicon_root() / language / "descriptions.toml"
    if not file.is_file():
        return Wordings()
    try:
        wordings = Wordings.model_validate(tomllib.loads(file.read_text("utf-8")))
    except (tomllib.TOMLDecodeError, ValidationError) as problem:
        raise LexiconError(str(problem), file=str(file)) from problem
    words = {word for phrases in wordings.pieces.values() for phrase in phrases for word in phrase.split()}
    unknown = {word[:-1] for word in words if word.endswith("+")}.difference(wordings.verbs)
    if unknown:
        raise LexiconError(f"no such verb, {min(unknown)}", file=str(file))
    return wordings


class Descriptions:
    """The descriptions of one language, found in a stream of words."""

    def __init__(self, language: str, terms: Terms) -> None:
        wordings = load_descriptions(language)
        self._gap, self._breaks = wordings.gap, frozenset(wordings.breaks)
        self._pieces = Pieces(wordings.pieces, wordings.verbs, wordings.breaks)
        self._rules = tuple(_rules(wordings, terms, language))
        self._kinds = {rule.concept: terms.concepts[rule.concept].kind for rule in self._rules}

    def find(self, stream: Stream, names: set[int]) -> list[Found]:
        """Every description that stands there, overlapping ones too; the closest of each at each place.

        ``names`` are the words that belong to a name: no description runs over one.
        """
        spans = self._pieces.find(stream.words)
        sections = stream.sections.tolist()
        found: list[Found] = []
        for rule in self._rules:
            if all(name in spans for name in rule.wanted):
                found.extend(self._of(rule, spans, sections, stream))
        free = [one for one in found if names.isdisjoint(range(one.first, one.stop))]
        begun: dict[int, list[Found]] = {}
        for one in free:
            begun.setdefault(one.first, []).append(one)
        return [self._with_rivals(one, begun) for one in free]

    def _with_rivals(self, told: Found, begun: dict[int, list[Found]]) -> Found:
        """A description with what else of its kind most of its words tell, sharing the chance left."""
        best = told.candidates[0]
        rivals: dict[str, Found] = {}
        near = range(told.first - _WIDEST, told.stop)
        for one in (one for at in near for one in begun.get(at, ())):
            other = one.candidates[0].concept
            common = min(told.stop, one.stop) - max(told.first, one.first)
            kin = other != best.concept and self._kinds[other] == self._kinds[best.concept]
            if kin and 2 * common > told.stop - told.first and 0 < one.worth <= told.worth:
                rivals[other] = max(rivals.get(other, one), one, key=lambda find: find.worth)
        most = sorted(rivals.values(), key=lambda find: -find.worth)[:_RIVALS]
        total = max(told.worth, 0.0) + sum(one.worth for one in most)
        left = [round((1 - best.probability) * one.worth / total, 4) for one in most]
        return told._replace(
            candidates=(
                best,
                *(one.candidates[0]._replace(probability=p) for one, p in zip(most, left, strict=True)),
            )
        )

    def _of(
        self, rule: Rule, spans: dict[str, list[Span]], sections: list[int], stream: Stream
    ) -> Iterator[Found]:
        rarest = min(rule.wanted, key=lambda name: len(spans[name]))
        others = list(rule.wanted)
        others.remove(rarest)
        for anchor in spans[rarest]:
            chosen = [anchor]
            for name in others:
                nearest = self._nearest(spans[name], chosen, sections)
                if nearest is None:
                    break
                chosen.append(nearest)
            else:
                first, stop = min(one for one, _ in chosen), max(two for _, two in chosen)
                inside = {at for one, two in chosen for at in range(one, two)}
                between = [stream.words[at] for at in range(first, stop) if at not in inside]
                near = len(between) <= self._gap * len(others) and self._breaks.isdisjoint(between)
                if near and not self._told_otherwise(rule, spans, chosen):
                    yield self._found(rule, chosen, first, stop, stream)

    def _nearest(self, places: list[Span], chosen: list[Span], sections: list[int]) -> Span | None:
        """The place nearest to those chosen, in the same sentence, within reach and over none of them."""
        first, stop = min(one for one, _ in chosen), max(two for _, two in chosen)
        reach = slice(bisect_left(places, (stop - _WIDEST,)), bisect_left(places, (first + _WIDEST,)))
        fit = [
            (max(stop, two) - min(first, one), one, two)
            for one, two in places[reach]
            if two <= first + _WIDEST
            and sections[one] == sections[first]
            and sections[two - 1] == sections[first]
            and all(two <= low or high <= one for low, high in chosen)
        ]
        return min(fit)[1:] if fit else None

    def _told_otherwise(self, rule: Rule, spans: dict[str, list[Span]], chosen: list[Span]) -> bool:
        """Whether what must not be there stands among the pieces or beside them, not as a part of one."""
        first, stop = min(one for one, _ in chosen), max(two for _, two in chosen)
        return any(
            first - 2 <= one
            and two <= stop + 2
            and not any(low <= one and two <= high for low, high in chosen)
            for name in rule.but
            for one, two in spans.get(name, ())
        )

    def _found(self, rule: Rule, chosen: list[Span], first: int, stop: int, stream: Stream) -> Found:
        said = sum(len(word) for one, two in chosen for word in stream.words[one:two])
        between = stop - first - sum(two - one for one, two in chosen)
        worth = _WORTH_OF_LETTER * said + _PIECE * len(chosen) - _EACH - _GAP * between
        sure = min(_SURE + _EACH_WORD * (stop - first - between), _SUREST)
        option = Option(concept=rule.concept, probability=round(sure, 4), form=rule.text, how="near")
        return Found(first, stop, worth, (option,), told=True)


def as_sure(told: list[Found], written: list[Found]) -> list[Found]:
    """The descriptions, each as sure as a form of the lexicon inside it that says the same."""
    wanted = {one.candidates[0].concept for one in told}
    written = [find for find in written if not find.weak and find.candidates[0].concept in wanted]
    return [
        max(
            (
                one._replace(candidates=find.candidates)
                for find in written
                if one.first <= find.first
                and find.stop <= one.stop
                and find.candidates[0].concept == one.candidates[0].concept
            ),
            key=lambda find: find.candidates[0].probability,
            default=one,
        )
        for one in told
    ]


def _rules(wordings: Wordings, terms: Terms, language: str) -> Iterator[Rule]:
    for concept, texts in wordings.told.items():
        if concept not in terms.concepts:
            raise LexiconError(f"no such concept, {concept}", file=f"{language}/descriptions.toml")
        for text in texts:
            wanted, _, but = text.partition(_BUT)
            rule = Rule(concept, text, tuple(wanted.split()), tuple(but.split()))
            unknown = {*rule.wanted, *rule.but}.difference(wordings.pieces)
            if unknown:
                raise LexiconError(
                    f"{concept}: no such set of words, {min(unknown)}", file=f"{language}/descriptions.toml"
                )
            yield rule
