"""Small pictures as SVG: how the score went, and whether confidences mean what they say.

Sides and figures differ in stroke and mark, not in colour alone, so that a print in grey reads as well
(W3C WCAG 2.2, 1.4.1); every picture has a title and a description (W3C SVG 2, 5.8).
"""

from collections.abc import Callable, Sequence
from html import escape
from textwrap import shorten
from typing import NamedTuple

from hikite.outputs.entries import BoutEntries, Entry
from hikite.outputs.phrases import percent, stamp, winner_words

WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM = 720, 260, 52, 150, 46, 34
_SURE, _NAME = 0.8, 16
_STROKES = ('stroke="#111" stroke-width="2.5"', 'stroke="#777" stroke-width="2.5" stroke-dasharray="7 4"')
_FILLS = ("#111", "#777")
_SHORT = {"ippon": "I", "waza-ari": "W", "yuko": "Y", "koka": "K", "shido": "S"}
_FONT = 'font-family="sans-serif" font-size="12" fill="#111"'


Place = Callable[[int], float]
"""Where a time of the recording lies across the picture."""


class Dot(NamedTuple):
    """One tenth of the guesses: the mean probability told, the share right, and how many they are."""

    told: float
    right: float
    many: int


def score_timelines(bouts: Sequence[BoutEntries]) -> str:
    """One SVG picture of how the scores of all ``bouts`` went, one below the other."""
    rows = [_bout(bout, number * HEIGHT) for number, bout in enumerate(bouts)]
    said = " ".join(winner_words(bout) for bout in bouts)
    return _picture(HEIGHT * max(1, len(bouts)), "How the score went", said, rows)


def reliability_plot(name: str, dots: Sequence[Dot]) -> str:
    """One SVG picture of the share right against the probability told, with the diagonal."""
    size = HEIGHT - TOP - BOTTOM

    def x(chance: float) -> float:
        return LEFT + chance * size

    def y(chance: float) -> float:
        return TOP + (1 - chance) * size

    shapes = [
        f'<rect x="{LEFT}" y="{TOP}" width="{size}" height="{size}" fill="none" stroke="#111"/>',
        f'<line x1="{x(0)}" y1="{y(0)}" x2="{x(1)}" y2="{y(1)}" stroke="#777" stroke-dasharray="4 4"/>',
    ]
    for part in (0.0, 0.5, 1.0):
        shapes.append(_text(x(part), TOP + size + 16, f"{part:g}", "middle"))
        shapes.append(_text(LEFT - 8, y(part) + 4, f"{part:g}", "end"))
    most = max((dot.many for dot in dots), default=1)
    for dot in dots:
        radius = 3 + 6 * (dot.many / most) ** 0.5
        about = f"told {dot.told:.2f}, right {dot.right:.2f}, {dot.many} of them"
        shapes.append(
            f'<circle cx="{x(dot.told):.1f}" cy="{y(dot.right):.1f}" r="{radius:.1f}" fill="#fff" '
            f'stroke="#111" stroke-width="2"><title>{about}</title></circle>'
        )
    shapes += [
        _text(LEFT, 20, name, "start", bold=True),
        _text(x(1) + 16, y(1) + 12, "across: probability told", "start"),
        _text(x(1) + 16, y(1) + 30, "up: share that was right", "start"),
        _text(x(1) + 16, y(1) + 48, "size: how many", "start"),
    ]
    said = "; ".join(f"told {dot.told:.2f}, right {dot.right:.2f}" for dot in dots)
    return _picture(HEIGHT, f"Reliability: {name}", said, ["".join(shapes)])


def _picture(height: int, title: str, said: str, parts: Sequence[str]) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{WIDTH}" height="{height}" '
        f'viewBox="0 0 {WIDTH} {height}">\n<title>{escape(title)}</title>\n<desc>{escape(said)}</desc>\n'
        f'<rect width="{WIDTH}" height="{height}" fill="#fff"/>\n' + "\n".join(parts) + "\n</svg>\n"
    )


def _text(x: float, y: float, said: str, anchor: str, *, bold: bool = False) -> str:
    weight = ' font-weight="bold"' if bold else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" {_FONT}{weight}>{escape(said)}</text>'


def _bout(bout: BoutEntries, down: int) -> str:
    """One bout's panel: steps of points, or in judo a lane of scores for each side."""
    counted = [entry for entry in bout.entries if entry.counts and entry.side in bout.sides]
    span = max(1, bout.end_ms - bout.start_ms)

    def x(ms: int) -> float:
        return LEFT + (WIDTH - LEFT - RIGHT) * (ms - bout.start_ms) / span

    shapes = [_text(LEFT, 20, winner_words(bout), "start", bold=True)]
    floor = HEIGHT - BOTTOM
    shapes.append(f'<line x1="{LEFT}" y1="{floor}" x2="{WIDTH - RIGHT}" y2="{floor}" stroke="#111"/>')
    for part in range(5):
        at = bout.start_ms + span * part // 4
        shapes.append(_text(x(at), floor + 18, stamp(at), "middle"))
    by_points = all(entry.points is not None for entry in counted)
    draw = _steps if by_points else _lanes
    for number, side in enumerate(bout.sides):
        name = next((one.name for one in bout.competitors if one.side == side and one.name), side)
        mine = [entry for entry in counted if entry.side == side]
        shapes.append(draw(bout, number, mine, x, f"{shorten(name, _NAME, placeholder='…')} ({side})"))
    return f'<g transform="translate(0 {down})">{"".join(shapes)}</g>'


def _steps(bout: BoutEntries, number: int, mine: list[Entry], x: Place, name: str) -> str:
    """One side's points as a line of steps, a mark at each."""
    top = max([1, *(tally.points or 0 for tally in bout.final.values())])

    def y(points: int) -> float:
        return HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * points / top

    total, path, marks = 0, [f"M{x(bout.start_ms):.1f} {y(0) - number:.1f}"], []
    for entry in mine:
        total += entry.points or 0
        path.append(f"H{x(entry.start_ms):.1f} V{y(total) - number:.1f}")
        marks.append(_mark(x(entry.start_ms), y(total) - number, number, entry))
    path.append(f"H{x(bout.end_ms):.1f}")
    last = _text(WIDTH - RIGHT + 8, y(total) + (4 if number else -4), f"{total}  {name}", "start")
    return f'<path d="{" ".join(path)}" fill="none" {_STROKES[number]}/>{"".join(marks)}{last}'


def _lanes(bout: BoutEntries, number: int, mine: list[Entry], x: Place, name: str) -> str:
    """One side's scores and penalties as marks with their letters along a line."""
    level = TOP + (HEIGHT - TOP - BOTTOM) * (0.3 + 0.4 * number)
    start, end = x(bout.start_ms), x(bout.end_ms)
    line = f'<path d="M{start:.1f} {level:.1f} H{end:.1f}" fill="none" {_STROKES[number]}/>'
    marks = [_mark(x(entry.start_ms), level, number, entry) for entry in mine]
    letters = [
        _text(x(entry.start_ms), level - 12, _SHORT.get(entry.score_class or "", "+"), "middle", bold=True)
        for entry in mine
    ]
    return line + "".join(marks) + "".join(letters) + _text(WIDTH - RIGHT + 8, level + 4, name, "start")


def _mark(x: float, y: float, number: int, entry: Entry) -> str:
    """A full mark where the line of the score is sure, a hollow one where it is not."""
    fill = _FILLS[number] if entry.confidence >= _SURE else "#fff"
    worth = entry.score_class or f"{entry.points or 0}"
    about = f"{stamp(entry.start_ms)} {entry.side} {worth}: {entry.label} ({percent(entry.confidence)})"
    shape = (
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5"'
        if number == 0
        else f'<rect x="{x - 5:.1f}" y="{y - 5:.1f}" width="10" height="10"'
    )
    tag = shape[1 : shape.index(" ")]
    style = f'fill="{fill}" stroke="{_FILLS[number]}" stroke-width="2"'
    return f"{shape} {style}><title>{escape(about)}</title></{tag}>"
