"""One language's phrases as they are looked up: said anywhere, right before or right after a place."""

from collections.abc import Iterable
from functools import cache

from hikite.claims.said.matching import Hit, Matcher
from hikite.claims.said.wording import Entry, Group, Wording, load_wording
from hikite.records import Mention
from hikite.terms.kept import kept

# Cues are looked up only beside what they are cues of; everything else is sought through the whole talk.
_BEFORE: tuple[Group, ...] = (
    "attack_before", "award_before", "award_dress",
    "class_before", "class_not_before", "clock_before", "count_before", "count_not_before",
    "figure_before",
    "landing_before", "list_owner", "penalty_before", "penalty_paid", "penalty_reason",
    "penalty_towards",
    "sum_before", "sum_is", "sum_owner", "tally_before", "tally_in",
    "tally_never_before", "total_before",
)  # fmt: skip
_AFTER: tuple[Group, ...] = (
    "award_after", "award_anew", "award_asked", "award_instead", "award_lowered", "award_unit",
    "award_withdrawn",
    "class_after", "class_count", "class_not_after", "clock_after",
    "count_after", "count_each", "count_mark", "count_more", "count_not_after", "count_of_all",
    "number_or_attack", "penalty_after", "penalty_withdrawn", "righted",
    "sum_join", "tally_in", "tally_never_after", "tally_supposed", "tally_withdrawn", "unit",
)  # fmt: skip


class Phrasebook:
    """The matchers of one language and the entries that concepts of the lexicon stand for."""

    def __init__(self, wording: Wording) -> None:
        self.wording = wording
        self.said = Matcher(wording, [group for group in wording.groups if group not in (*_BEFORE, *_AFTER)])
        self.before = {group: Matcher(wording, [group], backwards=True) for group in _BEFORE}
        self.after = {group: Matcher(wording, [group]) for group in _AFTER}
        self.closed = frozenset(wording.closed)
        self._named: dict[str, list[tuple[str, Entry]]] = {}
        for group, entries in wording.groups.items():
            for entry in entries:
                for name in entry.names:
                    self._named.setdefault(name, []).append((group, entry))

    def named(self, mentions: Iterable[Mention]) -> tuple[Hit, ...]:
        """The mentions whose concept or form an entry lists, as if its phrase had been said."""
        return tuple(
            Hit(mention.first, mention.stop, group, entry, ())
            for mention in mentions
            for name in dict.fromkeys((mention.concept, mention.candidates[0].form))
            for group, entry in self._named.get(name, ())
        )


@cache
def load_phrasebook(language: str) -> Phrasebook:
    """The phrasebook of one language; LexiconError as by ``load_wording``."""
    return kept("phrasebook", language, Phrasebook, lambda: Phrasebook(load_wording(language)), {})
