"""The labels of skeins on one sheet, to cut apart: the number to find each by, and what it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from stash.rendering import figures
from stash.rendering.amounts import colour_name, counted, dye_lot
from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import look_of
from stash.rendering.held import held
from stash.rendering.printed import as_html, safe

if TYPE_CHECKING:
    from stash.actions.skein_labels import SkeinLabel

#: Labels beside each other, and on a page.
_BESIDE, ON_A_PAGE = 3, 24
#: A name is cut off after so many letters, so that a label stays what it is.
_LONGEST = 44
#: The sample of its colour, in pixels.
_CHIP = Shown(48, 26)
#: Eight rows of 31.5 mm stand on A4 (ISO 216) and on US letter (11 in) within 10 mm margins.
STYLE = """
.label { width: 61.3mm; height: 31.5mm; padding: 2mm 3mm; border: 1px dashed #777;
         margin: 0 -1px -1px 0; overflow: hidden; font: 9pt/1.2 Arial, 'Noto Sans', sans-serif; }
.label p { margin: 0; overflow: hidden; white-space: nowrap; text-overflow: ellipsis; }
.label .top { display: flex; gap: 3mm; margin-bottom: 1mm; min-height: 15mm; }
.label .what { flex: 1; min-width: 0; }
.label .number { font-size: 22pt; line-height: 1.1; font-weight: bold; overflow: visible; }
.label svg { display: block; }
.label .colour, .label .left { font-weight: bold; }
.label .yarn { white-space: normal; max-height: 2.4em; overflow-wrap: anywhere; }
.label .weighed, .label .place { font-size: 8pt; }
.yarn-outline, .yarn-end, .yarn-empty { stroke: #000; } .yarn-ask { fill: #000; }
.defs { position: absolute; }
.screen { text-align: center; margin: 4mm; font-family: Arial, 'Noto Sans', sans-serif; }
@media print { .screen { display: none; } }
"""


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


def labels_html(labels: Sequence[SkeinLabel], back: str) -> str:
    """The sheet to print from a browser, with the way `back` that is not printed."""
    pages = [labels[at : at + ON_A_PAGE] for at in range(0, len(labels), ON_A_PAGE)]
    said = f"{counted(len(labels), 'label')} on {counted(len(pages), 'sheet')}"
    way = f'Print with your browser, or <a href="{safe(back)}">go back</a>.'
    screen = f'<p class="screen">{said}. {way}</p>'
    defs = page_defs([look_of(one.lot) for one in labels])
    return as_html("Labels", "\n".join([screen, defs, *map(_page, pages)]), STYLE)


def _page(labels: Sequence[SkeinLabel]) -> str:
    rows = [labels[at : at + _BESIDE] for at in range(0, len(labels), _BESIDE)]
    lines = "\n".join(f'<div class="row">\n{"".join(map(_label, row))}</div>' for row in rows)
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
