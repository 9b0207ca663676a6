"""What is drawn on one page, in the yarns it takes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import count
from typing import TYPE_CHECKING

from markupsafe import Markup

from stash.rendering.drawing.bars import BarShown, skein_bar
from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.piece import Laid, PieceShown, piece, px_per_cm_for
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import YarnLook, look_of

if TYPE_CHECKING:
    from stash.stock.yarn import Lot

#: A small sample beside a name, in pixels.
_CHIP = (44, 32)


class Drawings:
    """The drawings of a page; `defs`, what they share, stands once on it."""

    def __init__(self) -> None:
        self._looks: list[YarnLook] = []
        self._again = map(str, count())

    def swatch(self, lot: Lot, left: Left, shown: Shown) -> Markup:
        """A yarn as its strand, what is left of it by its outline."""
        look = look_of(lot)
        self._looks.append(look.in_grey() if shown.grey else look)
        return Markup(yarn_swatch(look, left, shown))

    def chip(self, lot: Lot, *, grey: bool = False) -> Markup:
        """A small sample of it, silent beside its name."""
        shown = Shown(*_CHIP, grey=grey, again=next(self._again))
        return self.swatch(lot, Left.CHIP, shown)

    def piece(
        self,
        laid: Laid | None,
        lots: Mapping[str, Lot],
        scale: float,
        *,
        title: str = "",
        grey: bool = False,
    ) -> Markup:
        """A design in its yarns, so many pixels a centimetre; nothing where it has no rows."""
        if laid is None:
            return Markup()
        looks = {role: look_of(lot) for role, lot in lots.items()}
        shown = PieceShown(scale, grey=grey, title=title, again=next(self._again))
        return Markup(piece(laid, looks, shown))

    def together(
        self, pieces: Iterable[Laid | None], width: float, height: float, most: float = 14.0
    ) -> float:
        """The one scale at which pieces that are shown side by side fit their boxes."""
        known = [laid for laid in pieces if laid is not None]
        return min(most, px_per_cm_for(known, width, height)) if known else most

    def bar(self, free: float, aside: float, used: float, width: int, **more: object) -> Markup:
        """Free solid, set aside hatched, used empty."""
        mark, title = more.get("mark"), more.get("title", "")
        shown = BarShown(width, mark=mark if isinstance(mark, float) else None, title=str(title))
        return Markup(skein_bar(free, aside, used, shown))

    @property
    def defs(self) -> Markup:
        """Patterns and filters that these swatches refer to."""
        return Markup(page_defs(self._looks)) if self._looks else Markup()
