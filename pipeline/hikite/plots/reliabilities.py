"""Whether confidences mean what they say: the share that was right against the probability told."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from hikite.evaluate.calibrations import Bin, Guess, calibration_error, reliability
from hikite.numbers.rates import wilson
from hikite.plots.drawings import INK, SECOND, Drawing

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_ABREAST = 3


def reliabilities(guesses: Sequence[Guess]) -> Drawing:
    """A panel for every kind of confidence: its tenths with Wilson's 95 % interval, and the diagonal."""
    kinds = sorted({guess.about for guess in guesses})
    rows = max(1, -(-len(kinds) // _ABREAST))

    def draw(figure: "Figure") -> None:
        panels = figure.subplots(rows, _ABREAST, squeeze=False, sharex=True, sharey=True).ravel()
        for at, axes in enumerate(panels):
            if at < len(kinds):
                _panel(axes, kinds[at], [guess for guess in guesses if guess.about == kinds[at]])
            else:
                axes.set_visible(False)

    return Drawing("Probability told and share that was right", 8.4, 0.6 + 2.9 * rows, draw)


def _panel(axes: "Axes", kind: str, guesses: list[Guess]) -> None:
    tenths = reliability(guesses)
    axes.plot([0, 1], [0, 1], color="#888888", linestyle=":", linewidth=1)
    told, right = [one.probability for one in tenths], [one.right for one in tenths]
    reach = list(zip(*map(_ends, tenths), strict=True))
    axes.errorbar(told, right, yerr=reach, fmt="none", ecolor=INK, elinewidth=0.8, capsize=2)
    axes.plot(told, right, "o", color=SECOND, markersize=5, gid=f"tenths-{kind}")
    axes.set_title(f"{kind}\n{len(guesses):,}, off by {calibration_error(guesses):.3f}", fontsize=9)
    axes.set_xlim(-0.03, 1.03)
    axes.set_ylim(-0.03, 1.03)
    axes.set_aspect("equal")
    axes.set_xlabel("told")
    axes.set_ylabel("right")


def _ends(tenth: Bin) -> tuple[float, float]:
    """How far the interval reaches below and above."""
    rate = wilson(tenth.right * tenth.guesses, tenth.guesses)
    assert rate is not None
    return tenth.right - rate.low, rate.high - tenth.right
