"""The columns of a shelf's sheet, what people call them, and what one row of it tells."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date

from stash.measures.money import Money
from stash.stock.holding import HeldSkein
from stash.stock.yarn import Lot

#: Our own columns in the order they are written.
COLUMNS = (
    *("number", "yarn", "maker", "colour", "colour_no", "hex", "lot", "class", "fibre"),
    *("put_up", "pair_from", "count", "left", "tare", "place", "owner", "bought", "paid", "note"),
)

#: Columns that follow where a row has something to put there. `record` is the lot record: it holds
#: together the skeins of one line that no dye lot tells from others of their yarn.
MORE_COLUMNS = ("care", "hand_dyed", "record")

#: What people write above their columns, in small letters with single spaces (common practice, no
#: source). Bare "weight" is left out on purpose: it may be grams or a thickness class.
SYNONYMS = {
    "number": ("no", "nr", "#", "skein no", "skein number", "ticket"),
    "yarn": ("name", "yarn name", "quality"),
    "maker": ("brand", "made by", "mill", "spinner", "manufacturer", "company"),
    "colour": ("color", "colour name", "color name", "colourway", "colorway", "shade"),
    "colour_no": ("color no", "colour number", "color number", "shade no", "shade number"),
    "hex": ("hex code", "colour hex", "color hex", "rgb"),
    "lot": ("dye lot", "dyelot", "lot no", "lot number", "dye lot no", "batch", "batch no"),
    "class": ("weight class", "thickness", "thickness class", "yarn weight", "yarn class"),
    "fibre": ("fiber", "fibres", "fibers", "fibre content", "fiber content", "material", "content"),
    "put_up": ("putup", "band", "on the band", "label", "full skein", "per skein", "ball size"),
    "pair_from": (),
    "count": ("qty", "quantity", "how many", "skeins", "balls", "pieces", "pcs"),
    "left": ("remaining", "remainder", "amount left", "what is left", "still there"),
    "tare": ("core", "cone weight", "empty cone"),
    "place": ("location", "where", "box", "bin", "storage", "kept in"),
    "owner": ("whose", "belongs to"),
    "bought": ("date", "date bought", "bought on", "purchase date", "purchased"),
    "paid": ("price", "cost", "price paid"),
    "note": ("notes", "remark", "remarks", "comment", "comments"),
    "care": ("washing", "care instructions"),
    "hand_dyed": (),
    "record": (),
}


def plain(heading: str) -> str:
    """A heading without case, underscores, spare spaces or a bracket such as "(EUR)"."""
    bare = re.sub(r"\(.*?\)|\[.*?\]", " ", heading)
    return " ".join(re.sub(r"[_\s.:-]+", " ", bare).split()).casefold()


_COLUMN_OF = {
    plain(word): column
    for column in (*COLUMNS, *MORE_COLUMNS)
    for word in (column, *SYNONYMS[column])
}


def column_of(heading: str) -> str | None:
    """Which of our columns a heading means, or None where it means none of them."""
    return _COLUMN_OF.get(plain(heading))


@dataclass(frozen=True, slots=True)
class SheetSkein:
    """All that one row of a given-out sheet tells of one skein.

    `paid` is for this one skein, None where it is not known.
    """

    lot: Lot
    skein: HeldSkein
    bought: date | None = None
    paid: Money | None = None
    note: str = ""
