"""What is printed on paper, as plain text and as one HTML file with nothing from outside."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape

from stash.rendering.figures import size_in
from stash.rendering.printable import plain
from stash.requirements.design.shapes import BUILDS, Shape, Size

#: Lines of a sheet of plain text at ten to the inch, less a margin (common practice, no source).
LINES_OF_A_PAGE = 60
#: A page of A4 (ISO 216: 210 x 297 mm) or US letter (8.5 x 11 in), whichever is in the printer:
#: what stands on it fits both within 10 mm margins. On a screen too narrow for it the whole sheet
#: is shown smaller: all its lengths are made from one, `--mm`.
STYLE = """
@page { margin: 10mm; }
* { box-sizing: border-box; }
:root { --mm: 1mm; }
body { margin: 0; }
.page { --pt: calc(.3528 * var(--mm)); width: calc(184 * var(--mm)); margin: 0 auto; color: #000;
        background: #fff; font: calc(10 * var(--pt))/1.3 Georgia, 'Times New Roman', serif;
        color-scheme: light; break-after: page; page-break-after: always; }
.page:last-child { break-after: auto; page-break-after: auto; }
.tags { display: flex; break-inside: avoid; page-break-inside: avoid; }
.tag { width: calc(92 * var(--mm)); min-height: calc(85 * var(--mm)); padding: calc(5 * var(--mm));
       border: 1px dashed #777; margin: 0 -1px -1px 0; overflow-wrap: anywhere; }
.tag p { margin: 0 0 calc(1.5 * var(--mm)); }
.tag .name { font-size: calc(14 * var(--pt)); font-weight: bold; }
.tag .price { font-size: calc(16 * var(--pt)); font-weight: bold; }
.tag .warning { font-weight: bold; font-size: calc(8 * var(--pt)); }
.tag .maker, .tag .number { font-size: calc(8 * var(--pt)); }
.tag.long { font-size: calc(7.5 * var(--pt)); line-height: 1.2; }
.page table { border-collapse: collapse; width: 100%; font-size: inherit; }
.page th, .page td { border: 0; border-bottom: 1px solid #999; text-align: left;
                     padding: calc(1.2 * var(--mm)) calc(2 * var(--mm)); }
.page td.figure, .page th.figure { text-align: right; white-space: nowrap; }
.page tr { break-inside: avoid; page-break-inside: avoid; }
.page thead { display: table-header-group; }
.page section { break-inside: avoid-page; }
.page h1 { font-size: calc(16 * var(--pt)); }
.page h2 { font-size: calc(12 * var(--pt)); margin: calc(5 * var(--mm)) 0 calc(1 * var(--mm)); }
@media screen {
  :root { --mm: min(1mm, (100vw - 32px) / 210); }
  body { background: #eee; }
  .page { width: calc(210 * var(--mm)); padding: calc(13 * var(--mm)); margin-block: 16px; }
}
"""


def as_html(title: str, body: str) -> str:
    """A whole file; `body` is HTML already, the title is not."""
    return (
        f'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{safe(title)}</title>\n<style>{STYLE}</style>\n</head>\n"
        f"<body>\n{body}\n</body>\n</html>\n"
    )


def safe(text: str) -> str:
    """Whatever was typed, as text of an HTML file and of nothing else."""
    return escape(plain(text), quote=True)


def table_html(heads: Sequence[str], rows: Iterable[Sequence[str]], figures: Sequence[int]) -> str:
    """A table whose headings stand on every page; the columns numbered `figures` to the right."""

    def cells(tag: str, row: Sequence[str]) -> str:
        return "".join(
            f"<{tag}{' class=figure' if i in figures else ''}>{safe(cell)}</{tag}>"
            for i, cell in enumerate(row)
        )

    body = "\n".join(f"<tr>{cells('td', row)}</tr>" for row in rows)
    return (
        f"<table>\n<thead><tr>{cells('th', heads)}</tr></thead>\n<tbody>\n{body}\n</tbody></table>"
    )


def in_short(size: Size | None) -> str:
    """A size in both units in a column: `54 x 22 cm / 21 1/4 x 8 3/4 in`."""
    if size is None:
        return ""
    sides = [[size_in(side, unit).removesuffix(f" {unit}") for side in size.sides]
             for unit in ("cm", "in")]  # fmt: skip
    return " / ".join(
        f"{' x '.join(each)} {unit}" for each, unit in zip(sides, ("cm", "in"), strict=True)
    )


def both_units(shape: Shape | None, size: Size | None) -> list[str]:
    """A size in centimetres and in inches, for buyers of either: `54 cm around, 22 cm tall`."""
    if shape is None or size is None:
        return []
    words = BUILDS[shape].words
    return [
        ", ".join(
            f"{size_in(side, unit)} {word}" for side, word in zip(size.sides, words, strict=False)
        )
        for unit in ("cm", "in")
    ]
