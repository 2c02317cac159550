"""The competitors' names, learnt from the talk alone: who is who as fits best all that is said of them."""

from collections import Counter, defaultdict
from collections.abc import Mapping
from itertools import product

from hikite.claims.handles import Handles, find_handles
from hikite.claims.kinships import Kinships, Points, load_kinships, meant_clues, tie_clues
from hikite.claims.references import Reference
from hikite.claims.spellings import each_time_anew
from hikite.claims.wearers import worn_at_first
from hikite.records import Competitor, Talk
from hikite.records.spans import tokens_of
from hikite.sounds import Ear
from hikite.terms.speech import Speech

# Log odds that the first named of the two wears the first colour: 37 of 42 labelled bouts.
_FIRST_NAMED = 2.0
# Log odds that the two names said most are two people's, and that both wear what they are introduced with.
_TWO, _INTRODUCED = 1.0, 2.0
# Log odds that the two nations said most are two competitors'.
_NATIONS = 2.0
# Where a recogniser wrote the names, who is named first tells less, and what is tied weakly to a side has
# none: a name tied wrongly costs more than one not known. Set on recognised bouts, some of the fit.
_FIRST_HEARD, _LEAST_HEARD = 1.0, 2.5
# The likeliest names are weighed together, the others by what ties them to these: at least so much.
_TOGETHER, _LEAST, _ROUNDS = 9, 0.8, 3
# In talk so long, of words, and without large letters, what is said but once is hardly a competitor's name.
_LONG = 150
Ties = dict[tuple[str, str], float]


def introduced(
    talk: Talk,
    sides: tuple[str, str],
    colours: tuple[Reference, ...],
    speech: Speech,
    terms: set[int],
    ear: Ear,
) -> tuple[Competitor, ...]:
    """The competitors with every name that the talk ties to a side, likeliest first."""
    taken = terms | tokens_of(colours)
    points = Points(talk, find_handles(talk, speech, taken, ear), colours, speech, terms)
    kinships = load_kinships()
    ties, best = _ties(points, sides, kinships)
    counts = Counter(one.who for one in points.handles.said)
    meant = {who: kinships.meant.pull(meant_clues(points, who, best[who], speech, ear)) for who in counts}
    nations = [who for who, _ in counts.most_common() if who in speech.nations][:2]
    if len(nations) > 1:
        ties[min(nations), max(nations)] -= _NATIONS
    owner = _owners(points.handles, ties, meant, sides, each_time_anew(talk, ear, terms))
    if not talk.capitals and len(talk.texts) >= _LONG:
        owner = {who: side for who, side in owner.items() if counts[who] > 1 or who in speech.nations}
    return tuple(_competitor(side, owner, points.handles, counts) for side in sides)


def _ties(points: Points, sides: tuple[str, str], kinships: Kinships) -> tuple[Ties, dict[str, float]]:
    """How strongly every two names, or a name and a side, are one; of each its strongest tie."""
    ties: Ties = defaultdict(float)
    best: dict[str, float] = defaultdict(float)
    for one, two in points.pairs():
        pull = kinships.tie.pull(tie_clues(points, one, two))
        ends = one.who or one.side, two.who or two.side
        ties[min(ends), max(ends)] += pull
        for end in ends:
            best[end] = max(best[end], pull)
    for who, side in worn_at_first(points, sides).items():
        for other in sides:
            ties[min(who, other), max(who, other)] += _INTRODUCED if other == side else -_INTRODUCED
        best[who] = max(best[who], _INTRODUCED)
    return ties, best


def _owners(
    handles: Handles, ties: Ties, meant: Mapping[str, float], sides: tuple[str, str], heard: bool
) -> dict[str, str]:
    """The side of each name that has one: the likeliest names at once, then each by all the others."""
    counts = Counter(one.who for one in handles.said)
    likely = sorted((who for who in counts if meant[who] > 0), key=lambda who: -counts[who])[:_TOGETHER]
    two = likely[:2]
    if len(two) > 1:
        ties[min(two), max(two)] -= _TWO
    first = next((one.who for one in handles.said if one.who in two), "")
    ties[min(first, sides[0]), max(first, sides[0])] += _FIRST_HEARD if heard else _FIRST_NAMED
    found = _best(likely, ties, {sides[0]: 1, sides[1]: -1})
    for _ in range(_ROUNDS):
        for who in counts:
            pull = _pull(who, found, ties)
            if _surely(abs(pull), meant[who], who in two, heard):
                found[who] = 1 if pull > 0 else -1
            else:
                found.pop(who, None)
    return {who: sides[sign < 0] for who, sign in found.items() if who in counts}


def _surely(pull: float, meant: float, chief: bool, heard: bool) -> bool:
    """Whether a name pulled so strongly to a side has it; ``chief`` are the two names said most."""
    if heard and pull < _LEAST_HEARD:
        return False
    return chief or (pull >= _LEAST and pull / 2 + meant > _LEAST)


def _best(names: list[str], ties: Ties, fixed: dict[str, int]) -> dict[str, int]:
    """The signs of the names that agree best with the ties: +1 goes with the first side."""
    known = {*names, *fixed}
    asked = [(one, two, pull) for (one, two), pull in ties.items() if one in known and two in known]

    def agreement(signs: dict[str, int]) -> float:
        return sum([pull * signs[one] * signs[two] for one, two, pull in asked])

    every = (dict(zip(names, signs, strict=True)) | fixed for signs in product((1, -1), repeat=len(names)))
    return max(every, key=agreement)


def _pull(who: str, found: Mapping[str, int], ties: Ties) -> float:
    """How strongly a name is pulled to the first side by those that have one."""
    ends = ((two if one == who else one, pull) for (one, two), pull in ties.items() if who in (one, two))
    return sum(pull * found.get(end, 0) for end, pull in ends)


def _competitor(
    side: str, owner: Mapping[str, str], handles: Handles, counts: Mapping[str, int]
) -> Competitor:
    """The competitor by the name said most, with the first or last name that stands beside it."""
    mine = sorted((who for who in owner if owner[who] == side), key=lambda who: -counts[who])
    own = [name for who in mine for name in handles.words[who]]
    people = [name for name in own if name not in handles.places]
    homes = ", ".join(handles.titles.get(name, name) for name in own if name in handles.places) or None
    people = [name for name in people if name not in (homes or "").split()]
    if not people:
        return Competitor(side=side, nation=homes)
    full = next((pair for pair in handles.whole if people[0] in pair and {*pair} <= {*people}), (people[0],))
    rest = tuple(name for name in people if name not in full)
    return Competitor(side=side, name=" ".join(full), nation=homes, aliases=rest)
