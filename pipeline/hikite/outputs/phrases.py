"""Times, scores, results and doubts in plain words."""

from hikite.outputs.entries import BoutEntries, Entry
from hikite.records import Clock, Tally

CAUTION = (
    "The rule book in force and the referee decide; this is a reading of what was said. "
    "Locks and chokes only under a qualified coach."
)
_SHORT = {"ippon": "I", "waza_ari": "W", "yuko": "Y", "koka": "K", "shido": "S"}
SHORT_MEANS = "I ippon, W waza-ari, Y yuko, K koka, S shido"
_BY = {
    "points": "on points",
    "superiority": "by superiority",
    "total-victory": "by total victory",
    "submission": "by submission",
    "fall": "by fall",
    "ippon": "by ippon",
    "waza-ari": "by waza-ari",
    "yuko": "by yuko",
    "koka": "by koka",
    "shido": "on fewer shidos",
    "decision": "by decision",
    "golden-score": "in golden score",
    "hansoku-make": "by hansoku-make",
    "disqualification": "by disqualification",
}
# A final score less sure than this is told with the others that are possible.
_UNSURE = 0.8
_DOUBTS = ((0.4, "doubtful: "), (0.65, "perhaps "))


def stamp(ms: int) -> str:
    """A time of the recording: ``m:ss``, from one hour on ``h:mm:ss``."""
    minutes, seconds = divmod(max(ms, 0) // 1000, 60)
    hours, rest = divmod(minutes, 60)
    return f"{hours}:{rest:02d}:{seconds:02d}" if hours else f"{minutes}:{seconds:02d}"


def clock_words(clock: Clock | None) -> str:
    """The match clock as best known: ``4:40``, ``~2:55`` where it may be off by over ten seconds, ``+0:41``
    in golden score; nothing where it is anybody's guess."""
    if clock is None or clock.high_s - clock.low_s > 150:
        return ""
    about = "~" if clock.high_s - clock.low_s > 20 else ""
    return f"{about}{'+' if clock.golden else ''}{stamp(round(clock.best_s) * 1000)}"


def tally_words(tally: Tally | None) -> str:
    """One side's score: ``4``, or in judo ``W1 S2``; ``–`` is nothing yet."""
    if tally is None:
        return "–"
    if tally.points is not None:
        return str(tally.points)
    shown = [f"{short}{count}" for name, short in _SHORT.items() if (count := getattr(tally, name))]
    return " ".join(shown) or "–"


def score_words(score: dict[str, Tally], sides: tuple[str, str]) -> str:
    """Both sides' scores in the order of ``sides``: ``4–2``, ``W1 : S1``."""
    one, two = (tally_words(score.get(side)) for side in sides)
    return f"{one}–{two}" if one.isdigit() and two.isdigit() else f"{one} : {two}"


def by_classes(bout: BoutEntries) -> bool:
    """Whether the bout is scored in judo's classes and not in points."""
    return any(tally.points is None for tally in bout.final.values())


def value_words(entry: Entry) -> str:
    """What a line of the score gave: ``4 points``, ``1 point``, ``waza-ari``."""
    if entry.score_class:
        return entry.score_class
    return "" if entry.points is None else f"{entry.points} point{'' if entry.points == 1 else 's'}"


def doubt(confidence: float) -> str:
    """What to put before words of low confidence, nothing before good ones."""
    return next((word for limit, word in _DOUBTS if confidence < limit), "")


def percent(confidence: float) -> str:
    """A probability in per cent; what is nearly certain is not called certain."""
    if confidence > 0.99:
        return "over 99 %"
    return "under 1 %" if confidence < 0.01 else f"{round(confidence * 100)} %"


def winner_words(bout: BoutEntries) -> str:
    """The result in one sentence with its probability, and that of the score."""
    result = bout.result
    score = f"Score {score_words(bout.final, bout.sides)} ({percent(bout.final_confidence)}){_else(bout)}."
    if result.winner is None or result.by is None:
        return f"No result is told. {score}"
    name = next((one.name for one in bout.competitors if one.side == result.winner and one.name), None)
    who = f"{name} ({result.winner})" if name else result.winner.capitalize()
    how = _BY.get(result.by, f"by {result.by}")
    return f"{who} wins {how} ({percent(result.confidence)}). {score}"


def _else(bout: BoutEntries) -> str:
    """The other final scores that are possible, where the one told is unsure."""
    if bout.final_confidence >= _UNSURE or not bout.other_finals:
        return ""
    others = (
        f"{score_words(one.final, bout.sides)} ({percent(one.probability)})" for one in bout.other_finals
    )
    return f", else {' or '.join(others)}"
