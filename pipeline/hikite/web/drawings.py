"""Plots as SVG that say the same in black and white: patterns and labels, never colour alone."""

from collections.abc import Sequence
from typing import NamedTuple

from markupsafe import Markup, escape

_ROW, _LABEL, _WIDTH, _TAIL = 26, 240, 420, 90


class Bar(NamedTuple):
    """A bar of two parts, the first of the second: ``label``, how many of how many."""

    label: str
    part: int
    whole: int


def bars(title: str, rows: Sequence[Bar], part: str, rest: str) -> Markup:
    """Horizontal bars: the part filled, the rest hatched, the figures beside."""
    most = max((row.whole for row in rows), default=1) or 1
    height = _ROW * len(rows) + 34
    lines = [_head(title, _LABEL + _WIDTH + _TAIL, height)]
    lines.append(_key(part, rest))
    for at, row in enumerate(rows):
        top = 32 + at * _ROW
        filled, whole = round(_WIDTH * row.part / most, 1), round(_WIDTH * row.whole / most, 1)
        lines.append(
            f'<text x="{_LABEL - 8}" y="{top + 14}" text-anchor="end">{escape(_short(row.label))}</text>'
            f'<rect class="rest" x="{_LABEL}" y="{top}" width="{whole}" height="18"/>'
            f'<rect class="part" x="{_LABEL}" y="{top}" width="{filled}" height="18"/>'
            f'<text x="{_LABEL + whole + 8}" y="{top + 14}">{row.part} of {row.whole}</text>'
        )
    return Markup("\n".join([*lines, "</svg>"]))


def columns(title: str, rows: Sequence[tuple[str, int]], below: str) -> Markup:
    """Upright columns with their figures on top."""
    most = max((count for _, count in rows), default=1) or 1
    step = max(64, 9 * max((len(label) for label, _ in rows), default=0))
    lines = [_head(title, step * len(rows) + 40, 210)]
    for at, (label, count) in enumerate(rows):
        left, tall = 20 + at * step, round(130 * count / most, 1)
        middle = left + step / 2
        lines.append(
            f'<rect class="part" x="{left + 6}" y="{160 - tall}" width="{step - 12}" height="{tall}"/>'
            f'<text x="{middle}" y="{154 - tall}" text-anchor="middle">{count}</text>'
            f'<text x="{middle}" y="178" text-anchor="middle">{escape(label)}</text>'
        )
    lines.append(f'<text class="axis" x="20" y="202">{escape(below)}</text>')
    return Markup("\n".join([*lines, "</svg>"]))


def against(title: str, points: Sequence[tuple[float, float, int]]) -> Markup:
    """Points (stated, found, of how many) in the unit square with its diagonal, larger for more."""
    lines = [_head(title, 340, 330)]
    lines.append('<path class="axis" d="M40 20V290H310"/><path class="ideal" d="M40 290L310 20"/>')
    for share in (0.0, 0.5, 1.0):
        x, y = 40 + 270 * share, 290 - 270 * share
        lines.append(
            f'<text x="{x}" y="306" text-anchor="middle">{share:.1f}</text>'
            f'<text x="32" y="{y + 4}" text-anchor="end">{share:.1f}</text>'
        )
    for stated, found, count in points:
        x, y, wide = 40 + 270 * stated, 290 - 270 * found, 4 + min(count, 64) ** 0.5
        lines.append(
            f'<circle class="part" cx="{x:.1f}" cy="{y:.1f}" r="{wide:.1f}"/>'
            f'<text x="{x + wide + 3:.1f}" y="{y + 4:.1f}">{count}</text>'
        )
    lines.append('<text class="axis" x="40" y="324">stated confidence, against the share that held</text>')
    return Markup("\n".join([*lines, "</svg>"]))


def _head(title: str, width: float, height: float) -> str:
    return (
        f'<svg class="plot" role="img" aria-label="{escape(title)}" viewBox="0 0 {width} {height}"'
        f' width="{width}" height="{height}"><defs><pattern id="hatch" width="5" height="5"'
        ' patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="line" d="M0 0V5"/>'
        "</pattern></defs>"
    )


def _key(part: str, rest: str) -> str:
    return (
        f'<rect class="part" x="{_LABEL}" y="6" width="14" height="12"/>'
        f'<text x="{_LABEL + 20}" y="16">{escape(part)}</text>'
        f'<rect class="rest" x="{_LABEL + 130}" y="6" width="14" height="12"/>'
        f'<text x="{_LABEL + 150}" y="16">{escape(rest)}</text>'
    )


def _short(label: str) -> str:
    return label if len(label) <= 30 else f"{label[:29]}…"
