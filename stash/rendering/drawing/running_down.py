"""How a ball runs down, row by row: what was weighed, what is likely, and where the work ends."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stash.rendering.drawing.bars import hatching
from stash.rendering.drawing.svg import HAIR, WASH, WOAD, element, number, picture_of, text_of

#: Room for the words at the left, at the right, above and below, in pixels.
_LEFT, _RIGHT, _ABOVE, _BELOW = 46.0, 16.0, 14.0, 34.0
#: Words in a picture, in pixels; about how wide a letter of them is.
_SMALL, _LETTER = 13, 7.0


@dataclass(frozen=True, slots=True)
class RunningDown:
    """Amounts left by row, all in one unit; the words are the caller's, in her units.

    `weighings` and `projection`: (row, amount), the projection from the last weighing on. `band`:
    (row, least, most). `keep`: what is kept back to finish off. `ticks`: (amount, words) on the
    axis, the largest on top. `row_words`: (row, words) below. `notes`: (row, amount, words) beside
    a dot.
    """

    weighings: Sequence[tuple[float, float]]
    projection: Sequence[tuple[float, float]] = ()
    band: Sequence[tuple[float, float, float]] = ()
    keep: float = 0.0
    last_row: float | None = None
    ticks: Sequence[tuple[float, str]] = ()
    row_words: Sequence[tuple[float, str]] = ()
    notes: Sequence[tuple[float, float, str]] = ()
    keep_words: str = ""
    last_words: str = ""


@dataclass(frozen=True, slots=True)
class _Plot:
    """Where rows and amounts lie in the picture."""

    size: tuple[float, float]
    rows: tuple[float, float]
    most: float

    @property
    def right(self) -> float:
        return self.size[0] - _RIGHT

    @property
    def floor(self) -> float:
        return self.size[1] - _BELOW

    def x(self, row: float) -> float:
        first, last = self.rows
        return _LEFT + (self.right - _LEFT) * (row - first) / (last - first)

    def y(self, amount: float) -> float:
        return self.floor - (self.floor - _ABOVE) * max(0.0, amount) / self.most

    def at(self, row: float, amount: float) -> str:
        return f"{number(self.x(row))} {number(self.y(amount))}"

    def line(self, points: Iterable[tuple[float, float]]) -> str:
        return "M" + "L".join(self.at(*point) for point in points)


def running_down(found: RunningDown, width: int, height: int, title: str = "") -> str:
    """The picture of whether a ball lasts: dots, line, dots onward, band, hatching, last row."""
    plot = _plot(found, (float(width), float(height)))
    drawn = [*_axes(found, plot)]
    if found.keep > 0:
        top = plot.y(found.keep)
        room = (plot.right - _LEFT, plot.floor - top)
        hatched = hatching((_LEFT, top), room)
        drawn.append(element("g", hatched, opacity="0.45"))
        drawn.append(_words(_LEFT + 8, top - 6, found.keep_words))
    drawn += _likely(found, plot)
    drawn += _last_row(found, plot)
    drawn += _weighed(found, plot)
    return picture_of((width, height), title, drawn)


def _plot(found: RunningDown, size: tuple[float, float]) -> _Plot:
    rows = [row for row, *_ in (*found.weighings, *found.projection, *found.band)]
    if found.last_row is not None:
        rows.append(found.last_row)
    first, last = min(rows, default=0.0), max(rows, default=1.0)
    room = max(last - first, 1.0) * 0.12
    amounts = [amount for _, amount in (*found.weighings, *found.projection)]
    amounts += [most for *_, most in found.band] + [amount for amount, _ in found.ticks]
    return _Plot(size, (first, last + room), max(amounts, default=0.0) or 1.0)


def _axes(found: RunningDown, plot: _Plot) -> list[str]:
    """Lines at the amounts with words, and the floor."""
    levels = "".join(
        f"M{number(_LEFT)} {number(plot.y(amount))}H{number(plot.right)}"
        for amount, _ in found.ticks
        if amount > 0
    )
    frame = f"M{number(_LEFT)} {number(_ABOVE)}V{number(plot.floor)}H{number(plot.right)}"
    drawn = [
        element("path", d=levels, fill="none", class_="hair", stroke=HAIR) if levels else "",
        element("path", d=frame, fill="none", stroke="currentColor", stroke_opacity="0.6"),
    ]
    drawn += [
        _words(_LEFT - 7, plot.y(amount) + 4, words, anchor="end") for amount, words in found.ticks
    ]
    return drawn + _row_words(found.row_words, plot)


def _row_words(named: Sequence[tuple[float, str]], plot: _Plot) -> list[str]:
    """Words under the floor, inside the picture, the later ones first where two would meet."""
    drawn = []
    free = plot.size[0]
    for row, words in sorted(named, reverse=True):
        half = len(words) * _LETTER / 2
        x = max(min(plot.x(row), free - half), half)
        if x + half <= free:
            drawn.append(_words(x, plot.floor + 22, words, anchor="middle"))
            free = x - half - 8
    return drawn


def _likely(found: RunningDown, plot: _Plot) -> list[str]:
    drawn = []
    if found.band:
        upper = [(row, most) for row, _, most in found.band]
        lower = [(row, least) for row, least, _ in reversed(found.band)]
        path = plot.line([*upper, *lower]) + "z"
        drawn.append(
            element("path", d=path, class_="wash-edge", fill=WASH, stroke=WOAD, stroke_opacity=".6")
        )
    if found.projection:
        drawn.append(
            element(
                "path", d=plot.line(found.projection), fill="none", stroke="currentColor",
                stroke_width=3, stroke_linecap="round", stroke_dasharray=".1 6",
            )
        )  # fmt: skip
    return drawn


def _last_row(found: RunningDown, plot: _Plot) -> list[str]:
    if found.last_row is None:
        return []
    x = plot.x(found.last_row)
    path = f"M{number(x)} {number(_ABOVE)}V{number(plot.floor + 6)}"
    line = element("path", d=path, class_="woad", stroke=WOAD, stroke_width=2.5)
    return [line, _words(x + 6, _ABOVE + 14, found.last_words)]


def _weighed(found: RunningDown, plot: _Plot) -> list[str]:
    if not found.weighings:
        return []
    line = element(
        "path", d=plot.line(found.weighings), fill="none", stroke="currentColor",
        stroke_width=2.5, stroke_linejoin="round",
    )  # fmt: skip
    dots = [
        element("circle", cx=plot.x(row), cy=plot.y(amount), r=5.5, fill="currentColor")
        for row, amount in found.weighings
    ]
    notes = [
        _words(plot.x(row) + 11, plot.y(amount) - 6, words) for row, amount, words in found.notes
    ]
    return [line, *dots, *notes]


def _words(x: float, y: float, words: str, anchor: str = "") -> str:
    if not words:
        return ""
    return element(
        "text", text_of(words), x=x, y=y, font_size=_SMALL, fill="currentColor", text_anchor=anchor
    )
