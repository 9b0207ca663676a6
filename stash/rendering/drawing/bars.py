"""Bars of amounts: what is free, set aside and used up, and what a role needs on its axis."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.rendering.drawing.svg import PAPER, WASH, WOAD, element, number, picture_of

#: Between two lines of a hatching, in pixels.
_HATCH_STEP = 5.0
#: How far the mark of an amount stands out above and below its bar.
_MARK_OVER = 2.0


@dataclass(frozen=True, slots=True)
class BarShown:
    """How a bar is shown: its size in pixels, a mark at an amount, what is said of it."""

    width: int = 182
    height: int = 10
    mark: float | None = None
    title: str = ""


def skein_bar(free: float, aside: float, used: float, shown: BarShown | None = None) -> str:
    """Free solid, set aside hatched, used up empty, together the whole bar; in any one unit.

    In the colour of the text around it. The mark is at an amount from the left, such as one need.
    """
    shown = shown or BarShown()
    total = free + aside + used
    room = _MARK_OVER if shown.mark is not None else 0.0
    bar = _Bar(shown.width - 1.0, shown.height - 1.0 - 2 * room, 0.5 + room)
    to_free = bar.width * free / total if total > 0 else 0.0
    to_aside = bar.width * (free + aside) / total if total > 0 else 0.0
    drawn = [bar.track()]
    if to_free > 0:
        drawn.append(element("path", d=bar.filled(to_free), fill="currentColor"))
    if to_aside - to_free > 0.5:
        size = (to_aside - to_free, bar.height - 1)
        drawn.append(hatching((0.5 + to_free, bar.top + 0.5), size))
    if shown.mark is not None and total > 0:
        x = min(max(bar.width * min(1.0, shown.mark / total), 2.5), bar.width - 2.5)
        line = f"M{number(x)} 0v{shown.height}"
        drawn.append(element("path", d=line, class_="bar-gap", stroke=PAPER, stroke_width=5))
        drawn.append(_woad_line(x, 0.0, shown.height))
    return picture_of((shown.width, shown.height), shown.title, drawn)


#: Between two cuts of a skein, in pixels.
_CUT = 2.0


def cut_bar(cuts: Sequence[float], left: float, width: int = 150, height: int = 11) -> str:
    """A skein with its cuts one after the other, solid, and what is left of it, empty."""
    total = sum(cuts) + left
    bar = _Bar(width - 1.0, height - 1.0, 0.5)
    drawn, end = [bar.track()], 0.0
    ends = [end := end + cut for cut in cuts]
    if ends and total > 0:
        filled = bar.filled(bar.width * ends[-1] / total)
        drawn.append(element("path", d=filled, fill="currentColor"))
        for at in ends[:-1]:
            x = number(0.5 + bar.width * at / total)
            line = f"M{x} 0v{height}"
            drawn.append(element("path", d=line, class_="bar-gap", stroke=PAPER, stroke_width=_CUT))
    return picture_of((width, height), "", drawn)


@dataclass(frozen=True, slots=True)
class _Bar:
    width: float
    height: float
    top: float

    def track(self) -> str:
        return element(
            "rect", x=0.5, y=self.top, width=self.width, height=self.height, rx=self.height / 2,
            class_="bar", fill="none", stroke="currentColor",
        )  # fmt: skip

    def filled(self, end: float) -> str:
        """From the left, round at that end and, where it is full, at the other."""
        r = min(self.height / 2, end)
        tall = number(self.height)
        arc = f"a{number(r)} {number(self.height / 2)} 0 0 1 "
        full = end > self.width - r
        right = number(0.5 + (self.width - r if full else end))
        turn = f"{arc}0 {tall}" if full else f"v{tall}"
        return (
            f"M{number(0.5 + r)} {number(self.top)}H{right}{turn}H{number(0.5 + r)}{arc}0-{tall}z"
        )


def hatching(at: tuple[float, float], size: tuple[float, float]) -> str:
    """Leaning lines that fill a rectangle, in the colour of the text around."""
    width, height = size
    rise = height + 2
    lines = int((width + rise) / _HATCH_STEP) + 1
    back = f"m{number(_HATCH_STEP - rise)} {number(rise)}l{number(rise)}-{number(rise)}"
    path = f"M{number(-rise)} {number(rise - 1)}l{number(rise)}-{number(rise)}" + back * lines
    line = element("path", d=path, fill="none", stroke="currentColor", stroke_width=2)
    return element("svg", line, x=at[0], y=at[1], width=width, height=height)


@dataclass(frozen=True, slots=True)
class NeedShown:
    """What a role needs, all in one unit: expected, its spread, what to set aside.

    `most`: where the axis ends, alike for all roles side by side.
    """

    expected: float
    spread: float
    set_aside: float
    most: float


def need_axis(need: NeedShown, width: int = 268, height: int = 22, title: str = "") -> str:
    """A need on its axis: a bar where it is expected, a wash over its spread, dashes set aside."""
    scale = (width - 4) / need.most if need.most > 0 else 0.0

    def place(amount: float) -> float:
        return 2 + min(max(amount, 0.0), need.most) * scale

    low, high = place(need.expected - need.spread), place(need.expected + need.spread)
    base = height - 2.0
    wash = element(
        "rect", x=low, y=base - 12, width=high - low, height=12, class_="wash", fill=WASH
    )
    axis = element(
        "path", d=f"M0 {number(base)}h{width}", class_="hair", stroke="currentColor",
        stroke_opacity="0.5",
    )  # fmt: skip
    bar = element(
        "path", d=f"M{number(place(need.expected))} {number(base)}v-16", stroke="currentColor",
        stroke_width=3,
    )  # fmt: skip
    dashes = _woad_line(place(need.set_aside), base - 20, base, dashes="4 2.5", width=3)
    return picture_of((width, height), title, [wash, axis, bar, dashes])


def _woad_line(x: float, top: float, low: float, dashes: str = "", width: float = 2) -> str:
    path = f"M{number(x)} {number(top)}V{number(low)}"
    return element(
        "path", d=path, class_="woad", stroke=WOAD, stroke_width=width, stroke_dasharray=dashes
    )
