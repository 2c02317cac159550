"""How the score of a bout went, as two lines of steps."""

from typing import TYPE_CHECKING

from hikite.outputs.labels import shown_name
from hikite.outputs.phrases import stamp
from hikite.plots.drawings import FIRST, INK, SECOND, Drawing
from hikite.records import Bout, Event, Recording

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

SURE = 0.8
"""Lines of the score that are less sure have hollow marks."""
_STYLES = ((FIRST, "-", "o"), (SECOND, "--", "s"))


def score_timeline(recording: Recording) -> Drawing:
    """The scores of every bout of a recording, one panel below the other."""
    bouts = recording.ledger.bouts
    title = recording.testimony.sheet.title or "How the score went"

    def draw(figure: "Figure") -> None:
        panels = figure.subplots(max(len(bouts), 1), squeeze=False)
        for bout, (axes,) in zip(bouts, panels, strict=False):
            _panel(axes, bout)

    return Drawing(title, 8.0, 0.6 + 2.8 * max(len(bouts), 1), draw)


def _panel(axes: "Axes", bout: Bout) -> None:
    from matplotlib.ticker import FuncFormatter, MaxNLocator

    counted = [event for event in bout.events if event.counts and event.score_class != "shido"]
    in_classes = any(event.score_class for event in counted)
    for side, style in zip(bout.sides, _STYLES, strict=True):
        mine = [event for event in counted if event.side == side]
        _side(axes, bout, side, mine, style)
    axes.set_title(f"Bout {bout.number}, {bout.ruleset}", loc="left", fontsize=9)
    axes.set_xlabel("time of the recording; hollow: less than 80 % sure")
    axes.set_ylabel("scores" if in_classes else "points")
    axes.xaxis.set_major_formatter(FuncFormatter(lambda seconds, _: stamp(round(seconds * 1000))))
    axes.yaxis.set_major_locator(MaxNLocator(integer=True))
    axes.set_ylim(bottom=-0.4)
    axes.grid(axis="y", color="#dddddd")
    axes.legend(loc="upper left", frameon=False)


def _side(axes: "Axes", bout: Bout, side: str, mine: list[Event], style: tuple[str, str, str]) -> None:
    """One side: its line of steps, a mark and what it brought at each."""
    colour, stroke, mark = style
    name = next((shown_name(one) for one in bout.competitors if one.side == side and one.name), None)
    label = f"{name} ({side})" if name else side
    times, totals = [bout.start_ms / 1000], [0]
    for event in mine:
        times.append(event.start_ms / 1000)
        totals.append(totals[-1] + _worth(event))
    ends = [*times, max(bout.end_ms / 1000, times[-1])], [*totals, totals[-1]]
    axes.step(
        *ends, where="post", color=colour, linestyle=stroke, linewidth=1.8, gid=f"steps-{bout.number}-{side}"
    )
    # Both for the legend: who reads it in grey goes by stroke and mark.
    axes.plot([], [], color=colour, linestyle=stroke, marker=mark, label=f"{label}: {_final(mine)}")
    for number, (event, at, total) in enumerate(zip(mine, times[1:], totals[1:], strict=True), 1):
        axes.plot(
            [at], [total], marker=mark, linestyle="", color=colour, markersize=6,
            markerfacecolor=colour if event.confidence >= SURE else "white",
            gid=f"score-{bout.number}-{side}-{number}",
        )  # fmt: skip
        told = event.score_class or f"+{event.points or 0}"
        axes.annotate(
            told, (at, total), textcoords="offset points", xytext=(5, 4), color=INK, fontsize=7,
        )  # fmt: skip


def _worth(event: Event) -> int:
    """Points; in classes each score is one step up."""
    return 1 if event.score_class else event.points or 0


def _final(mine: list[Event]) -> str:
    classes = [event.score_class for event in mine if event.score_class]
    if classes:
        return ", ".join(f"{classes.count(each)} {each}" for each in dict.fromkeys(classes))
    return str(sum(event.points or 0 for event in mine))
