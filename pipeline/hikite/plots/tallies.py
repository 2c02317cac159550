"""Tables of numbers as bars."""

from typing import TYPE_CHECKING

from hikite.numbers import Table
from hikite.plots.drawings import FIRST, INK, SECOND, THIRD, Drawing

if TYPE_CHECKING:
    from matplotlib.figure import Figure

MOST = 20
_PARTS = (
    ("scored", FIRST, ""),
    ("completed, no score", THIRD, "//"),
    ("did not come off", "white", ".."),
)


def outcomes(table: Table) -> Drawing:
    """A table by technique as bars: how many tries scored, came off without a score, did not come off."""
    lines = table.lines[:MOST]

    def draw(figure: "Figure") -> None:
        axes = figure.subplots()
        places = range(len(lines))
        left = [0.0] * len(lines)
        for part, (name, colour, hatch) in enumerate(_PARTS):
            many = [_parts(line.counts)[part] for line in lines]
            bars = axes.barh(
                places, many, left=left, color=colour, hatch=hatch, edgecolor=INK, linewidth=0.6, label=name
            )
            for at, bar in enumerate(bars):
                bar.set_gid(f"bar-{at + 1}-{part + 1}")
            left = [before + now for before, now in zip(left, many, strict=True)]
        axes.set_yticks(list(places), [line.labels[0] for line in lines])
        axes.invert_yaxis()
        axes.set_xlabel(f"tries\n{_wrapped(table.basis)}")
        axes.grid(axis="x", color="#dddddd")
        axes.legend(frameon=False, loc="lower right")

    return Drawing("Techniques and what became of them", 8.0, 1.8 + 0.28 * max(len(lines), 4), draw)


def minutes(table: Table) -> Drawing:
    """A table of the scores by minute as columns; minutes in which none fell are there, empty."""

    def draw(figure: "Figure") -> None:
        axes = figure.subplots()
        played = {int(line.keys[0]): line for line in table.lines if line.keys[0] != "1000"}
        names = [f"{at - 1}–{at}" for at in range(1, max(played, default=0) + 1)]
        many = [played[at].counts["scores"] if at in played else 0.0 for at in range(1, len(names) + 1)]
        for line in table.lines:
            if line.keys[0] == "1000":
                names.append("golden")
                many.append(line.counts["scores"])
        bars = axes.bar(range(len(many)), many, width=1.0, color=SECOND, edgecolor="white")
        for at, bar in enumerate(bars):
            bar.set_gid(f"minute-{at + 1}")
        axes.bar_label(bars, fmt="%.1f" if table.ask.weighted else "%.0f")
        axes.set_xticks(range(len(names)), names)
        axes.set_xlabel(f"minute of the bout, by the match clock\n{_wrapped(table.basis)}")
        axes.set_ylabel("lines of the score")

    return Drawing("When in the bout scores fall", 8.0, 3.6, draw)


def _parts(counts: dict[str, float]) -> tuple[float, float, float]:
    scored, completed = counts["scored"], counts["completed"]
    return scored, completed - scored, counts["tries"] - completed


def _wrapped(text: str) -> str:
    from textwrap import fill

    return fill(text, 110)
