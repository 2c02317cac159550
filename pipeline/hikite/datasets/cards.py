"""The card of a dataset: what is in it, how it was made, what it is not good for."""

from collections import Counter
from collections.abc import Mapping

from hikite.datasets.counts import Counts
from hikite.datasets.plans import PARTS, Part, Plan
from hikite.outputs.phrases import CAUTION

_SHOWN = 25
_SUMS = ("recordings", "bouts", "hours", "words", "labels", "checked", "left out")
_LIMITS = (
    "The labels are a program's reading of what was said, not of what happened; only those that are"
    " `checked` were"
    " seen by a person. A speaker may be mistaken, and so may the speech recogniser.",
    "What is less sure than the threshold carries no label. A text without a label is not a text in which"
    " nothing"
    " was named.",
    "Confidences are calibrated on other recordings than these; see the program's own documentation.",
    "Parts are kept apart by athlete, as far as names tell: an athlete who is named differently in two"
    " recordings,"
    " or in none, may be in two parts. Speakers and events are not kept apart.",
    "Where labels overlap, `iob` and the entities of `documents` keep the longest; `lines`, `tables` and"
    " the span"
    " group of `documents` keep all.",
    "The words and the names are those of the recordings. Whether they may be passed on, their owners"
    " decide.",
)
_SHAPES = {
    "lines": "`lines/*.jsonl`: one recording a line; `text`, `tokens` (first character, character after"
    " the last,"
    " milliseconds), `spans` by characters",
    "iob": "`iob/*.iob`: token, concept, tag; an empty line between statements",
    "documents": "`documents/*/*.spacy`: spaCy documents with entities, sentences and the span group"
    " `hikite`",
    "tables": "`tables/*.parquet`: recordings, bouts, labels",
}


def card(counts: Counts, plan: Plan) -> str:
    """The card in Markdown; the same for the same archive and plan."""
    whose = (
        "by the program alone" if plan.machine else "by the program, with people's decisions where there are"
    )
    shares = " / ".join(f"{share:g}" for share in plan.shares)
    lines = [
        "# Timed commentary of grappling bouts, labelled",
        "",
        f"Labelled {whose}. Labels at least {plan.least:g} sure. Archive as of {counts.latest or 'no time'}.",
        "",
        f"> {CAUTION}",
        "",
        "## Counts",
        "",
        *_table(("", *PARTS, "all"), [(name, *_sums(counts, name)) for name in _SUMS]),
        "",
        *(f"The part `{part}` is empty: too much hangs together by its athletes.\n" for part in counts.empty),
        "## Labels",
        "",
        *_table(("kind", *PARTS, "all"), _by_part(counts.kinds)),
        "",
        f"The {_SHOWN} techniques, grips and holds named most:",
        "",
        *_table(("concept", *PARTS, "all"), _by_part(counts.concepts)[:_SHOWN]),
        "",
        "## Split",
        "",
        f"By recording and athlete, {shares} wanted, seed {plan.seed}. Recordings that share an athlete"
        " or a film, directly or"
        f" through others, are one group and stay together: {len(counts.groups)} groups. `recordings.csv`"
        " lists"
        " each recording with its group and part.",
        "",
        "## Files",
        "",
        *(f"- {_SHAPES[shape]}" for shape in dict.fromkeys(plan.shapes)),
        "- `recordings.csv`: every recording with its part, group, title, date, address and hash",
        "",
        "## Sources and versions",
        "",
        f"- formats read: {_listed(counts.formats)}; {counts.titled} recordings have a bout sheet's title",
        f"- read with: {_listed(counts.versions['tool'])}",
        f"- lexicon: {_listed(counts.versions['lexicon'])}",
        f"- rule sets, by bout: {_listed(counts.versions['rules'])}",
        "",
        "## Known limits",
        "",
        *(f"- {limit}" for limit in _LIMITS),
        "",
    ]
    return "\n".join(lines)


def _sums(counts: Counts, name: str) -> tuple[str, ...]:
    if name == "hours":
        hours = [counts.sums[part]["milliseconds"] / 3_600_000 for part in PARTS]
        return tuple(f"{each:.1f}" for each in (*hours, sum(hours)))
    each = [counts.sums[part][name] for part in PARTS]
    return tuple(f"{number:,}" for number in (*each, sum(each)))


def _by_part(found: Mapping[str, Counter[Part]]) -> list[tuple[str, ...]]:
    """A row a name, the most first."""
    ranked = sorted(found.items(), key=lambda item: (-item[1].total(), item[0]))
    return [
        (f"`{name}`", *(f"{each[part]:,}" for part in PARTS), f"{each.total():,}") for name, each in ranked
    ]


def _table(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> list[str]:
    lines = [head, ("---", *("---:" for _ in head[1:])), *rows]
    return [f"| {' | '.join(cells)} |" for cells in lines]


def _listed(found: Counter[str]) -> str:
    return ", ".join(f"{name} ({count:,})" for name, count in sorted(found.items())) or "none"
