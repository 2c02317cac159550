"""Matplotlib, only once something is drawn, and set so that the same numbers give the same bytes."""

import io
import os
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from hikite.errors import HikiteError

if TYPE_CHECKING:
    from matplotlib.figure import Figure

ENDINGS = (".svg", ".png")
_STYLE: dict[str, object] = {
    "svg.hashsalt": "hikite",  # ids of clips and marks are hashes with this, else random
    "svg.fonttype": "none",  # text stays text: it can be searched, read aloud and tested
    "path.simplify": False,
    "font.family": "sans-serif",
    "font.sans-serif": ["DejaVu Sans"],  # comes with Matplotlib, so that a PNG is the same everywhere
    "font.size": 9,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.axisbelow": True,
    "hatch.linewidth": 0.6,
    "text.parse_math": False,  # a dollar in a name is a dollar
}
INK, FIRST, SECOND, THIRD = "#1a1a1a", "#D55E00", "#0072B2", "#F0E442"
"""Vermilion, blue and yellow are told apart with any colour vision (M. Okabe, K. Ito, "Color Universal
Design", 2008). All that is drawn here also differs in stroke, mark or hatching (W3C WCAG 2.2, 1.4.1)."""


class PlotError(HikiteError):
    """A picture that cannot be drawn."""


class Drawing(NamedTuple):
    """A picture still to be drawn: its title, inches across and down, and what draws on the empty figure."""

    title: str
    across: float
    down: float
    draw: "Callable[[Figure], None]"


def save(drawing: Drawing, file: Path) -> None:
    """Draw into a file, ``.svg`` or ``.png``; it is there whole or not at all (PlotError)."""
    ending = file.suffix.lower()
    if ending not in ENDINGS:
        raise PlotError(f"pictures are {' or '.join(ENDINGS)}", file=str(file))
    body = _drawn(drawing, ending[1:])
    part = file.with_name(f".{file.name}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part.write_bytes(body)
        os.replace(part, file)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise PlotError(f"cannot be written: {error.strerror}", file=str(file)) from None


def _drawn(drawing: Drawing, form: str) -> bytes:
    try:
        from matplotlib import rc_context
        from matplotlib.figure import Figure
    except ImportError:
        raise PlotError("pictures need Matplotlib: pip install 'hikite[plots]'") from None
    # No dates and no version of the library: only what is drawn decides the bytes.
    unsaid = {"svg": {"Date": None, "Creator": None, "Title": drawing.title}, "png": {"Software": None}}
    body = io.BytesIO()
    with rc_context(_STYLE):  # type: ignore[arg-type]
        figure = Figure(figsize=(drawing.across, drawing.down), layout="constrained")
        figure.suptitle(drawing.title, fontsize=11)
        drawing.draw(figure)
        figure.savefig(body, format=form, dpi=144, metadata=unsaid[form])
    return body.getvalue()
