"""Whether somebody wrote a talk who knows the names, or a recogniser what it heard of them."""

from collections import Counter
from collections.abc import Collection, Sequence

from hikite.records import Talk
from hikite.sounds import Ear

# A name that stands as written so often is spelt well by whoever wrote the talk.
_WELL_SPELT = 3
# Letters a name has at least, and how common no name is. A recogniser writes a name anew each time: of so
# many words written like one within a sentence, more than this part come only once in most recognised
# training bouts, in hardly any that somebody wrote.
_SHORTEST, _COMMON, _FEWEST, _ONCE = 3, 8, 6, 0.6


def well_spelt(talk: Talk, names: Sequence[tuple[str, str]]) -> bool:
    """Whether the names of the two sides stand in the talk as they are, and large."""
    own, words = {name for name, _ in names}, talk.texts
    return sum([words[at] in own for at in talk.capitals]) >= _WELL_SPELT


def each_time_anew(talk: Talk, ear: Ear, terms: Collection[int]) -> bool:
    """Whether most of what may be a name is never written so again.

    That is written large within a sentence; where nothing is, no English word at all. ``terms`` are the
    tokens that name something of the trade.
    """
    opens = {one.first for one in talk.utterances}
    inside = [at for at in talk.capitals if at not in opens]
    shortest, common = (_SHORTEST, _COMMON) if inside else (_SHORTEST + 1, 1)
    words = (talk.texts[at] for at in inside or range(len(talk.texts)) if inside or at not in terms)
    said = Counter(
        word for word in words if len(word) >= shortest and word.isalpha() and ear.level(word) < common
    )
    once = sum(often == 1 for often in said.values())
    return said.total() >= _FEWEST and once > _ONCE * said.total()
