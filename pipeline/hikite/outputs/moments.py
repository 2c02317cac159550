"""A bout's moments: entries that tell of one action, a throw, its landing and its points, put together."""

from collections.abc import Callable

from pydantic import BaseModel

from hikite.ledger import UNNAMED_HOLDS
from hikite.outputs.entries import BoutEntries, Entry
from hikite.outputs.phrases import doubt, score_words, value_words
from hikite.records import Clock

_TALK = frozenset({"recalled", "supposed", "described", "denied"})
_ACTIONS = frozenset({"technique", "hold", "penalty"})
_SHOWN = frozenset({"technique", "grip", "hold", "penalty", "result"})
_LANDS_MS = 15_000
_AGAIN_MS = 15_000
# Who wins is told so long before the last line of the score at most.
_HARDLY_MS = 30_000
# What brings points without being anybody's action on the other.
_PAID = frozenset({"step-out", "push-out", "lost-challenge"})


Same = Callable[[str, str], bool]


class Moment(BaseModel, frozen=True, extra="forbid", defer_build=True):
    """One line of a bout sheet; ``entries`` are the ids of what it tells, ``quote`` the statement spoken.

    ``how`` tells in words how it went, doubts included; ``score`` is empty where it did not change.
    ``words`` are the part of the quote that names the action.
    """

    start_ms: int
    end_ms: int
    clock: Clock | None
    side: str | None
    who: str
    kind: str
    what: str
    how: str
    score: str
    counts: bool
    quote: str
    words: str
    confidence: float
    entries: tuple[str, ...]


def moments_of(bout: BoutEntries, everything: bool = False, same: Same = str.__eq__) -> tuple[Moment, ...]:
    """The moments in time order; with ``everything`` also recaps, suppositions, clocks and stated scores.

    ``same`` tells whether two concepts are one: what is named twice in a row is told once.
    """
    early = set() if everything else _too_early(bout)
    told_so = [entry for entry in bout.entries if entry.id not in early]
    groups = _groups(tuple(told_so), everything)
    groups.sort(key=lambda group: group[0].start_ms)
    told: list[tuple[list[Entry], int]] = []
    for group in groups:
        if told and _again(told[-1][0], group, same):
            times = told[-1][1] + (group[0].kind != "hold")
            told[-1] = (_together(told[-1][0], group), times)
        else:
            told.append((group, 1))
    return tuple(_moment(group, times, bout) for group, times in told)


def _too_early(bout: BoutEntries) -> set[str]:
    """The ids of what the talk went back on: starts but the first, ends of the bout but the last, and results
    but the first of the bout's own that is told after the end, else after the last line of the score or
    hardly before it."""
    told = [entry for entry in bout.entries if entry.status not in _TALK]
    calls = [entry for entry in told if entry.kind == "stoppage" and entry.of is None]
    starts = [entry for entry in calls if entry.concept == "start"]
    ends = [entry for entry in calls if entry.concept == "end"]
    results = [entry for entry in told if entry.kind == "result"]
    right = [entry for entry in results if _agrees(entry, bout)]
    scored = max((entry.start_ms for entry in told if entry.counts), default=0)
    since = (*(one.start_ms for one in ends[-1:]), scored, scored - _HARDLY_MS)
    after = (next((one for one in right if one.start_ms >= at), None) for at in since)
    kept = next((one for one in after if one is not None), None)
    early = [*starts[1:], *ends[:-1], *(one for one in results if one is not kept)]
    return {one.id for one in early}


def _agrees(entry: Entry, bout: BoutEntries) -> bool:
    """Whether a result that was named is the one the bout had."""
    return entry.concept == bout.result.by and entry.side in (None, bout.result.winner)


def _groups(entries: tuple[Entry, ...], everything: bool) -> list[list[Entry]]:
    """Entries that belong together, the action first, then landings, then the score."""
    scores = [entry for entry in entries if entry.kind == "score" and entry.counts]
    owner: dict[str, int] = {}
    for number, score in enumerate(scores):
        places = {(quote.spans, quote.start_ms) for quote in score.quotes}
        for entry in entries:
            if entry.kind in _ACTIONS and entry.quotes and entry.id not in owner:
                own = entry.quotes[0]
                if (own.spans, own.start_ms) in places and entry.status not in _TALK:
                    owner[entry.id] = number
    groups: list[list[Entry]] = [[] for _ in scores]
    counted = {entry.concept for entry in entries if entry.kind == "penalty" and entry.counts}
    for entry in entries:
        if entry.id in owner:
            groups[owner[entry.id]].append(entry)
        elif entry.kind == "landing" and (thrown := _thrown(groups, entry)) is not None:
            thrown.append(entry)
        elif not (entry.kind == "score" and entry.counts) and (everything or _shows(entry, counted)):
            groups.append([entry])
    for number, score in enumerate(scores):
        groups[number].append(score)
    return groups


def _thrown(groups: list[list[Entry]], landing: Entry) -> list[Entry] | None:
    """The latest throw of the other side that the landing may be of."""
    near = [
        group
        for group in groups
        if group
        and group[0].kind == "technique"
        and group[0].status not in _TALK | {"failed"}
        and group[0].side != landing.side
        and 0 <= landing.start_ms - group[0].start_ms <= _LANDS_MS
    ]
    return max(near, key=lambda group: group[0].start_ms, default=None)


def _shows(entry: Entry, counted: set[str]) -> bool:
    """Whether an entry is part of the bout; of penalties that count, only those counted are."""
    if entry.kind == "penalty" and entry.concept in counted and not entry.counts:
        return False
    shown = entry.concept in ("start", "end") if entry.kind == "stoppage" else entry.kind in _SHOWN
    return shown and entry.status not in _TALK


def _again(before: list[Entry], now: list[Entry], same: Same) -> bool:
    """Whether a speaker only named again, perhaps in another tradition's words, what was named last."""
    one, two = [entry for entry in before if entry.kind == before[0].kind][-1], now[0]
    if before[-1].counts or now[-1].counts:
        return before[-1].counts != now[-1].counts and two.repeats in {entry.id for entry in before}
    soon = (one.kind, one.side) == (two.kind, two.side) and two.start_ms - one.end_ms <= _AGAIN_MS
    if one.kind == "hold":
        return soon and one.status in ("running", two.status)
    again = same(one.concept, two.concept) or two.repeats == one.id
    return soon and one.status == two.status and again


def _together(before: list[Entry], now: list[Entry]) -> list[Entry]:
    """Two namings of one action: the one that counted tells whose it is, its score stands last."""
    if now[-1].counts:
        return [now[0], *before, *now[1:]]
    return [*before[:-1], *now, before[-1]] if before[-1].counts else [*before, *now]


def _moment(group: list[Entry], times: int, bout: BoutEntries) -> Moment:
    first, last = group[0], group[-1]
    line = last if last.counts else first
    begun = min((entry for entry in group if entry.kind == first.kind), key=lambda entry: entry.start_ms)
    said = next((entry.quotes[0] for entry in (begun, *group) if entry.quotes), None)
    return Moment(
        start_ms=begun.start_ms,
        end_ms=max(entry.end_ms for entry in group),
        clock=begun.clock,
        side=first.side,
        who=_who(first),
        kind=first.kind,
        what=_what(_naming(group)),
        how="; ".join([*_how(group), *([f"said {times} times"] if times > 1 else [])]),
        score=score_words(line.score_after, bout.sides) if line.counts else "",
        counts=line.counts,
        quote=said.statement if said else "",
        words=said.words if said else "",
        confidence=line.confidence,
        entries=tuple(entry.id for entry in group),
    )


def _naming(group: list[Entry]) -> Entry:
    """The entry that names the action: the first that says which hold, or which technique, it is."""
    alike = (entry for entry in group if entry.kind == group[0].kind)
    return next((one for one in alike if not one.generic and one.concept not in UNNAMED_HOLDS), group[0])


def _who(entry: Entry) -> str:
    if entry.side is None:
        return ""
    return f"{entry.side}?" if entry.side_confidence < 0.65 else entry.side


def _what(entry: Entry) -> str:
    """The action's label with its attributes in front, and a word of doubt where it may be another."""
    if entry.kind == "score" and entry.concept not in _PAID:
        return "points" if entry.points is not None else entry.score_class or "score"
    if entry.kind == "stated_score":
        return "score stated"
    if entry.kind == "clock":
        of = f"{entry.of.replace('-', ' ')} " if entry.of else ""
        return f"{of}clock, {entry.seconds} s {'gone' if entry.elapsed else 'left'}"
    if entry.kind == "result":
        return f"win: {entry.label}"
    named = set(entry.label.replace("-", " ").split())
    qualities = [word for word in entry.attributes if ":" not in word and not named & set(word.split("-"))]
    words = [word.replace("-", " ") for word in qualities]
    unsure = doubt(entry.confidence) if not entry.counts else ""
    return unsure + " ".join([*words, entry.label])


def _how(group: list[Entry]) -> list[str]:
    """How it went, how it landed and what it brought, each with its doubts."""
    first, last = group[0], group[-1]
    gone = [entry for entry in group if entry.kind == first.kind]
    # How a hold went is told by its last word, what was named more than once by the surest.
    how = gone[-1] if first.kind == "hold" else max(gone, key=lambda entry: entry.status_confidence)
    words = []
    if first.kind in ("technique", "grip", "hold") or first.status in _TALK:
        words.append(doubt(how.status_confidence) + how.status)
    if first.kind == "hold" and (seconds := max(entry.seconds or 0 for entry in gone)):
        words.append(f"{seconds} s")
    words += _landings(group)
    if last.kind == "score" and last.counts:
        words.append(_points(last, first.side))
    elif first.counts:
        words += [f"{doubt(first.confidence)}given"] if doubt(first.confidence) else []
    return words


def _landings(group: list[Entry]) -> list[str]:
    landings = [entry for entry in group if entry.kind == "landing"]
    words = [entry.label for entry in landings if entry is not group[0] and entry.label != "landing"]
    if any(entry.fell for entry in landings):
        words.append("both down")
    elif any(entry.fell is False for entry in landings):
        words.append("thrower stayed up")
    return list(dict.fromkeys(words))


def _points(score: Entry, actor: str | None) -> str:
    """What the score brought; to whom where it is not the one who acted, and whether anybody said so."""
    told = doubt(score.confidence) + value_words(score)
    told += f" to {score.side}" if score.side != actor else ""
    return f"{told}, not heard called" if score.unspoken else told
