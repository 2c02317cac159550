"""What may be a name in recognised speech, and what of it is one: spans with signs, labelled by the truth."""

from collections import Counter
from collections.abc import Callable, Iterable

import numpy as np
from contests import Contest
from spoken import Line

from hikite.mentions import Matcher
from hikite.mentions.contests import log_odds
from hikite.mentions.covers import Found
from hikite.mentions.evidence import SIGNS
from hikite.mentions.streams import Stream
from hikite.terms import Terms

# Where a right name is: the range of words, or None where only the neighbourhood is known.
Where = Callable[[int, int], float]
_HALF = 0.5


class Labels:
    """The spans of one stream: what is heard, each ``wrong`` until a truth is told, and what is written."""

    def __init__(self, matcher: Matcher, terms: Terms, stream: Stream) -> None:
        self._terms = terms
        self.named, self.heard, self.signs = matcher.contenders(stream)
        self.wrong = np.ones(len(self.heard), np.bool_)
        self.cores: set[int] = set()

    def tell(self, concepts: Iterable[str], share: Where) -> None:
        """Take in one truth: ``share`` tells how much a range of words agrees with its place, 0 to 1.

        Where the name stands as written, or only in part, what is heard there is neither right nor wrong.
        """
        right = tuple(concepts)
        shares = [(at, share(one.first, one.stop)) for at, one in self._of(self.heard, right)]
        self.wrong[[at for at, agreed in shares if agreed > 0]] = False
        good = [at for at, agreed in shares if agreed >= _HALF]
        written = any(share(one.first, one.stop) > 0 for _, one in self._of(self.named, right))
        if good and not written:
            covered = Counter(
                place for at in good for place in range(self.heard[at].first, self.heard[at].stop)
            )
            self.cores.add(max(covered, key=lambda place: (covered[place], -place)))

    def excuse(self, kinds: tuple[str, ...]) -> None:
        """Take names of other kinds for neither right nor wrong."""
        for at, one in enumerate(self.heard):
            if self._terms.concepts[one.candidates[0].concept].kind not in kinds:
                self.wrong[at] = False

    def contest(self, first: int, stop: int, weight: float) -> Contest:
        """The spans inside a range of words, ready for fitting."""
        mine = [at for at, one in enumerate(self.heard) if first <= one.first and one.stop <= stop]
        named = [one for one in self.named if first <= one.first and one.stop <= stop]
        spans = [(one.first, one.stop) for one in (*(self.heard[at] for at in mine), *named)]
        signs = np.concatenate([self.signs[mine], np.zeros((len(named), len(SIGNS)))])
        given = np.array([0.0] * len(mine) + [log_odds(one.chance) for one in named])
        cores = frozenset(core for core in self.cores if first <= core < stop)
        beside = [any(one.first <= core < one.stop for core in cores) for one in named]
        wrong = np.array([*self.wrong[mine].tolist(), *beside], np.bool_)
        order = sorted(range(len(spans)), key=spans.__getitem__)
        return Contest(
            tuple(spans[at] for at in order), signs[order], given[order], wrong[order], cores, weight
        )

    def _of(self, finds: list[Found], concepts: tuple[str, ...]) -> list[tuple[int, Found]]:
        same = self._terms.same
        return [
            (at, one)
            for at, one in enumerate(finds)
            if any(same(one.candidates[0].concept, each) for each in concepts)
        ]


def tell_lines(labels: Labels, lines: Iterable[Line]) -> None:
    """Take in the truths of recognised sentences."""
    for line in lines:
        for truth in line.truths:
            labels.tell(truth.concepts, _place(line, truth.first, truth.stop))


def _place(line: Line, first: int | None, stop: int | None) -> Where:
    """How much a range of words has in common with a truth's, a little where only its sentence is known."""

    def share(one: int, two: int) -> float:
        if first is None or stop is None:
            return 0.1 if line.first <= one and two <= line.stop else 0.0
        common = min(two, stop) - max(one, first)
        return max(common, 0) / (max(two, stop) - min(one, first))

    return share
