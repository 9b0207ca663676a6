"""An address as a QR code (ISO/IEC 18004), for a page and for a terminal."""

from __future__ import annotations

from io import StringIO

import segno

#: Dark on light whatever the scheme, with the quiet zone of four that the standard asks for.
_DARK, _LIGHT, _QUIET = "#111", "#fff", 4


def qr_svg(address: str) -> str:
    """The code as SVG; what it says stands beside it."""
    code = segno.make(address, error="m", micro=False)
    drawn = code.svg_inline(
        border=_QUIET, dark=_DARK, light=_LIGHT, omitsize=True, svgclass="qr", lineclass=None
    )
    return drawn.replace("<svg ", '<svg aria-hidden="true" ', 1)


def qr_text(address: str, *, paint: bool) -> str:
    """The code in half blocks, two of its rows a line; light is drawn, dark is left out.

    With `paint` it is white on black on a light terminal too; without, on a dark one alone.
    """
    out = StringIO()
    segno.make(address, error="m", micro=False).terminal(out, border=2, compact=True)
    lines = out.getvalue().splitlines()
    return "\n".join(f"\x1b[97;40m{line}\x1b[0m" if paint else line for line in lines)
