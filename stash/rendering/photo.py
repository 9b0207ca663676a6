"""Colours out of a photograph: each with its share and its nearest word, all of them as a yarn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.measures.colour import Colour, lab
from stash.measures.colour_clusters import ColourShare
from stash.measures.rounding import shared_out
from stash.rendering.amounts import lightness_words
from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.svg import element, picture_of
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import YarnLook, look_of
from stash.rendering.her_words import hers
from stash.stock.yarn import Dyed, Lot
from stash.trade.colour_words import nearest_word

#: A patch of one colour, in pixels.
_PATCH = 44


@dataclass(frozen=True, slots=True)
class ColourPatch:
    """One colour that was found: drawn, what to call it, and how much of the yarn it is."""

    hex: str
    drawn: str
    word: str
    light: str
    percent: int


def colour_patches(found: Sequence[ColourShare]) -> list[ColourPatch]:
    """Each colour; the percentages make 100."""
    shares = [round(1e6 * one.share) for one in found]
    percents = shared_out(100, shares) if shares else []
    return [
        ColourPatch(
            one.colour.hex,
            _patch(one.colour),
            nearest_word(one.colour),
            lightness_words(lab(one.colour).lightness),
            percent,
        )
        for one, percent in zip(found, percents, strict=True)
    ]


def words_for(found: Sequence[ColourShare]) -> str:
    """What a yarn of these colours could be called: their plain words, each once."""
    return " / ".join(dict.fromkeys(nearest_word(one.colour) for one in found))


def _patch(colour: Colour) -> str:
    side = _PATCH - 1
    square = element(
        "rect", x=0.5, y=0.5, width=side, height=side, rx=6, fill=colour.hex, class_="edge-line"
    )
    return picture_of((_PATCH, _PATCH), "", [square])


def drawn_in(colours: Sequence[Colour], lot: Lot | None) -> str:
    """A yarn as it looks in these colours, with what its drawing refers to; unknown with none."""
    look = look_of(replace(lot, colours=tuple(colours))) if lot else _plain(colours)
    shown = Shown(
        200, 100, title=hers("The yarn in these colours" if colours else "Colour not known")
    )
    return page_defs([look]) + yarn_swatch(look, Left.OPENED, shown)


def _plain(colours: Sequence[Colour]) -> YarnLook:
    dyed = Dyed.VARIEGATED if len(colours) > 1 else Dyed.SOLID
    return YarnLook(tuple(colour.hex for colour in colours), dyed)
