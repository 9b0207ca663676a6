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
    "shape": _text(words="beanie, mittens, shawl, cowl, scarf, baby blanket … as you say it."),
    "size": _text(words="Who it fits: ladies, 'child 5', 2T, 56cm, or a size of your own."),
    "whom": _text("--for", words="If the size does not say: baby, child or adult."),
    "ease": _text(words="Looser or tighter than --size: 5%, -3cm. Left out: as usual."),
    "around": _text(words="All the way around when finished, as 52cm or 20in."),
    "tall": _text(words="Height when finished, with a fold-up brim; a sock's leg."),
    "brim": _text(words="How much folds up, as 6cm, or none. --size adds it on top."),
    "wide": _text(words="Width when finished, as 90cm or 36in."),
    "long": _text(words="Length when finished; a sock's foot."),
    "count": _text(words="How many squares, mittens or socks, as 12."),
    "gauge": _text(words="'14 sts x 22 rows' over 4 in; or add 'per 10cm'."),
    "fabric": _text(words="The rows you repeat: '1 sc, 1 hdc', or stockinette."),
    "bands": _texts(
        "--band",
        "A band in another colour: 'B 2cm bottom', 'B 5 rows middle', or 'B 30% of 6cm middle' "
        "where both colours share a row. Repeat for more.",
    ),
    "stripes": _texts("--stripes", "'A 4 rows, B 2 rows'; add upright, or from 3cm to 15cm."),
    "ends": _text(words="Of stripes: carried up the side, or cut each time."),
    "thickness": _text("--thickness", words="A name or number: DK, worsted, '8 ply', 4."),
    "put_up": _text("--full", words="A full skein, as 100g/180m or 3.5oz/220yd."),
    "strands": _text(words="How many strands you hold together, as 2."),
    "swatch": _text(words="A swatch you weighed: '12g, 15cm x 14cm'."),
    "stated": _texts(
        "--stated", "What a pattern asks you to buy: A=200yd, 'A=2 skeins'. Repeat for more."
    ),
    "weighed": _text(words="A finished one, weighed by colour: A=71g,B=9g."),
    "terms": _text(words="Stitch names: us or uk."),
    "seam": _text(words="How you sew it up: mattress, whip, slip stitch … or none."),
    "crown": _text(words="How the top closes: flat, decreased or gathered."),
    "start": _text("--from", words="Where you start: brim, crown, centre, edge, toe …"),
    "extras": _texts("--extra", "'pompom B 6cm', 'cord A 40cm x 2', 'edging B'. Repeat for more."),
}


def describes_a_design(command: Callable[..., None]) -> Callable[..., None]:
    """The command with an option for every part of a design in place of its parameter `words`."""
    return written_in(command, OPTIONS, _gathered)


def _gathered(**typed: Any) -> DesignWords:
    from stash.parsing.design.design import DesignWords

    return DesignWords(**typed)
