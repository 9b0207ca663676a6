"""The options that describe a design, written once for the commands that take them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from stash.cli.shared_options import text as _text
from stash.cli.shared_options import texts as _texts
from stash.cli.shared_options import written_in

if TYPE_CHECKING:
    from stash.parsing.design.design import DesignWords


#: By the fields of `design_words.DesignWords`.
OPTIONS: dict[str, Any] = {
    "shape": _text(
        words="sideways hat, round hat, flat hat, headband, cowl, scarf, blanket, square, "
        "triangle, circle, mitten, sock."
    ),
    "size": _text(words="Whom it fits: woman, 'child 4 years', 56cm; or a name of your own."),
    "whom": _text("--for", words="Where its size cannot tell: baby, child or adult."),
    "ease": _text(words="With --size: -5%, -3cm; else what is usual."),
    "around": _text(words="Finished girth, as 52cm or 20in."),
    "tall": _text(words="Finished height, a fold-up brim included; of a sock its leg."),
    "brim": _text(words="How much of it is folded up; with --size it is added. Or none."),
    "wide": _text(words="Width of a flat design."),
    "long": _text(words="Length of a flat design, or of a foot."),
    "count": _text(words="How many squares, mittens or socks."),
    "gauge": _text(words="14 sts x 22 rows (to 4 in), or per 10cm."),
    "fabric": _text(words="Rows of one repeat: '1 hdc, 2 sl st blo', stockinette."),
    "bands": _texts("--band", "'B 2cm bottom', 'B 30% of 6cm middle' in one row; repeat it."),
    "stripes": _texts("--stripes", "'A 4 rows, B 2 rows', upright, from 3cm to 15cm."),
    "ends": _text(words="Of stripes: carried up the edge, or cut."),
    "thickness": _text("--thickness", words="Thickness class 0-7, or a name like DK."),
    "put_up": _text("--full", words="What a full skein holds, as 100g/180m."),
    "strands": _text(words="Strands held together."),
    "swatch": _text(words="A weighed swatch: '12g, 15cm x 14cm'."),
    "stated": _texts("--stated", "A pattern's figure: A=200yd, 'A=2 skeins'; repeat it."),
    "weighed": _text(words="One finished item by colour: A=71g,B=9g."),
    "terms": _text(words="us or uk names of stitches."),
    "seam": _text(words="How it is sewn up."),
    "crown": _text(words="How the top closes: flat, decreased, gathered."),
    "start": _text("--from", words="Where the work begins: brim, crown, centre, edge, toe…"),
    "extras": _texts("--extra", "'pompom B 6cm', 'cord A 40cm x 2', 'edging B'; repeat it."),
}


def describes_a_design(command: Callable[..., None]) -> Callable[..., None]:
    """The command with an option for every part of a design in place of its parameter `words`."""
    return written_in(command, OPTIONS, _gathered)


def _gathered(**typed: Any) -> DesignWords:
    from stash.parsing.design.design import DesignWords

    return DesignWords(**typed)
