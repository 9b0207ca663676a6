"""What is printed on paper, as plain text and as one HTML file with nothing from outside."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable, Sequence
from hashlib import sha256
from html import escape

from stash.rendering.figures import size_in
from stash.rendering.printable import plain
from stash.requirements.design.shapes import BUILDS, Shape, Size

#: Lines of a sheet of plain text at ten to the inch, less a margin (common practice, no source).
LINES_OF_A_PAGE = 60
#: A page of A4 (ISO 216: 210 x 297 mm) or US letter (8.5 x 11 in), whichever is in the printer:
#: what stands on it fits both within 10 mm margins.
_STYLE = """
@page { margin: 10mm; }
* { box-sizing: border-box; }
body { font: 10pt/1.3 Georgia, 'Times New Roman', serif; color: #000; background: #fff; margin: 0; }
.page { width: 184mm; margin: 0 auto; break-after: page; page-break-after: always; }
.page:last-child { break-after: auto; page-break-after: auto; }
.row { display: flex; break-inside: avoid; page-break-inside: avoid; }
.tag { width: 92mm; min-height: 85mm; padding: 5mm; border: 1px dashed #777;
       margin: 0 -1px -1px 0; overflow-wrap: anywhere; }
.tag p { margin: 0 0 1.5mm; }
.tag .name { font-size: 14pt; font-weight: bold; }
.tag .price { font-size: 16pt; font-weight: bold; }
.tag .warning { font-weight: bold; font-size: 8pt; }
.tag .maker, .tag .number { font-size: 8pt; }
.long { font-size: 7.5pt; line-height: 1.2; }
table { border-collapse: collapse; width: 100%; }
th, td { border-bottom: 1px solid #999; padding: 1.2mm 2mm; text-align: left; }
td.figure, th.figure { text-align: right; white-space: nowrap; }
tr { break-inside: avoid; page-break-inside: avoid; }
thead { display: table-header-group; }
section { break-inside: avoid-page; }
h1 { font-size: 16pt; } h2 { font-size: 12pt; margin: 5mm 0 1mm; }
@media screen { body { background: #eee; } .page { background: #fff; margin: 5mm auto; } }
"""


def policy(style: str = "") -> str:
    """For a page that is such a file: its own style and nothing else (CSP 3, hashes)."""
    digest = b64encode(sha256((_STYLE + style).encode()).digest()).decode()
    return f"default-src 'none'; style-src 'sha256-{digest}'; frame-ancestors 'none'"


def as_html(title: str, body: str, style: str = "") -> str:
    """A whole file; `body` is HTML already, the title is not; `style` is of this paper alone."""
    return (
        f'<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f"<title>{safe(title)}</title>\n<style>{_STYLE}{style}</style>\n</head>\n"
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
