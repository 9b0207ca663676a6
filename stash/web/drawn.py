"""What is drawn on one page, in the yarns it takes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from itertools import count
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from stash.rendering.drawing.bars import BarShown, NeedShown, cut_bar, need_axis, skein_bar
from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.piece import Laid, PieceShown, piece, px_per_cm_for
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import YarnLook, look_of

if TYPE_CHECKING:
    from stash.stock.yarn import Lot

#: A small sample beside a name, in pixels.
_CHIP = (44, 32)


class Drawings:
    """The drawings of a page; `defs`, what they share, stands once on it.

    A page's values are made twice, so that its figures have one step. Pieces are drawn once where
    the same drawings are used for both, from the first on (`once_more`).
    """

    def __init__(self) -> None:
        self._looks: list[YarnLook] = []
        self._again = map(str, count())
        self._pieces: dict[str, Markup] = {}

    def once_more(self) -> Drawings:
        """The same drawings, which come in the same order again."""
        self._again = map(str, count())
        return self

    def swatch(self, lot: Lot, left: Left, shown: Shown) -> Markup:
        """A yarn as its strand, what is left of it by its outline."""
        look = look_of(lot)
        self._looks.append(look.in_grey() if shown.grey else look)
        if not look.colours:  # it asks for its colour, in her spelling
            return Markup(yarn_swatch(look, left, shown))
        return _swatch(look, left, shown)

    def chip(self, lot: Lot, *, grey: bool = False, size: tuple[int, int] = _CHIP) -> Markup:
        """A small sample of it, silent beside its name."""
        shown = Shown(*size, grey=grey, again=next(self._again))
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
        return self.in_looks(laid, looks, scale, title=title, grey=grey)

    def in_looks(
        self, laid: Laid, looks: Mapping[str, YarnLook], scale: float, **how: Any
    ) -> Markup:
        """A design in looks that need be no lot's."""
        again = next(self._again)
        if again not in self._pieces:
            shown = PieceShown(scale, again=again, **how)
            self._pieces[again] = Markup(piece(laid, looks, shown))
        return self._pieces[again]

    def together(
        self, pieces: Iterable[Laid | None], width: float, height: float, most: float = 14.0
    ) -> float:
        """The one scale at which pieces that are shown side by side fit their boxes."""
        known = [laid for laid in pieces if laid is not None]
        return min(most, px_per_cm_for(known, width, height)) if known else most

    def mostly_together(self, pieces: Iterable[Laid | None], width: float, height: float) -> float:
        """The same without the few that are so large that all others would be dots beside them."""
        each = sorted(self.together([laid], width, height) for laid in pieces if laid is not None)
        middle = each[len(each) // 2] if each else 0.0
        return next((scale for scale in each if scale > middle / 2), middle)

    def bar(
        self, free: float, aside: float, used: float, width: int, *, mark: float | None = None
    ) -> Markup:
        """Free solid, set aside hatched, used empty; perhaps a mark at an amount."""
        shown = BarShown(width, mark=mark)
        return Markup(skein_bar(free, aside, used, shown))

    def axis(self, need: tuple[float, float, float], most: float, width: int) -> Markup:
        """What is expected, its spread, and what to set aside, on an axis that ends at `most`."""
        return Markup(need_axis(NeedShown(*need, most), width))

    def cuts(self, cuts: Sequence[float], left: float, width: int) -> Markup:
        """A skein with its cuts one after the other, and what is left of it."""
        return Markup(cut_bar(cuts, left, width))

    @property
    def defs(self) -> Markup:
        """Patterns and filters that these swatches refer to."""
        return Markup(page_defs(self._looks)) if self._looks else Markup()


@lru_cache(maxsize=2048)  # each is drawn twice for most pages, and again for the next
def _swatch(look: YarnLook, left: Left, shown: Shown) -> Markup:
    return Markup(yarn_swatch(look, left, shown))
