"""The labels of skeins on one sheet, to cut apart: the number to find each by, and what it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from stash.rendering import figures
from stash.rendering.amounts import colour_name, dye_lot
from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import look_of
from stash.rendering.held import held
from stash.rendering.printed import safe

if TYPE_CHECKING:
    from stash.actions.skein_labels import SkeinLabel

#: Labels beside each other, and on a page.
_BESIDE, ON_A_PAGE = 3, 24
#: A name is cut off after so many letters, so that a label stays what it is.
_LONGEST = 44
#: The sample of its colour, in pixels.
_CHIP = Shown(48, 26)


def label_lines(one: SkeinLabel) -> Iterator[tuple[str, str]]:
    """The lines of a label, each with what it is; nothing of what is not known."""
    lot = one.lot
    yield "number", str(one.skein.number)
    yield "colour", _short(lot.colour or colour_name(lot))
    yield "yarn", _short(str(lot.yarn))
    yield "lot", _short(dye_lot(lot))
    yield "left", held([one.skein]).held.words()
    yield "weighed", _weighed(one)
    yield "place", _short(one.skein.place)


def _weighed(one: SkeinLabel) -> str:
    """When it was last on the scale; what it showed, where yarn was used since."""
    if one.weighed is None:
        return ""
    if one.weighed.net == one.skein.held:
        return f"weighed {one.weighed.on}"
    return f"weighed {one.weighed.on}: {figures.near(one.weighed.net)} then"


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1].rstrip()}…"


def labels_sheet(labels: Sequence[SkeinLabel]) -> str:
    """All pages of it, as HTML."""
    pages = [labels[at : at + ON_A_PAGE] for at in range(0, len(labels), ON_A_PAGE)]
    return "\n".join([page_defs([look_of(one.lot) for one in labels]), *map(_page, pages)])


def _page(labels: Sequence[SkeinLabel]) -> str:
    rows = [labels[at : at + _BESIDE] for at in range(0, len(labels), _BESIDE)]
    lines = "\n".join(f'<div class="labels">\n{"".join(map(_label, row))}</div>' for row in rows)
    return f'<div class="page">\n{lines}\n</div>'


def _label(one: SkeinLabel) -> str:
    lines = dict(label_lines(one))
    chip = yarn_swatch(look_of(one.lot), Left.CHIP, _CHIP)
    number = f'<div><p class="number">{lines["number"]}</p>{chip}</div>'
    what = _paragraphs(lines, ("colour", "yarn", "lot"))
    rest = _paragraphs(lines, ("left", "weighed", "place"))
    top = f'<div class="top">{number}<div class="what">{what}</div></div>'
    return f'<div class="label">\n{top}\n{rest}\n</div>\n'


def _paragraphs(lines: Mapping[str, str], kinds: Sequence[str]) -> str:
    return "".join(f'<p class="{kind}">{safe(lines[kind])}</p>' for kind in kinds if lines[kind])
