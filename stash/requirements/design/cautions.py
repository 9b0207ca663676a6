"""What of an item can hurt whom it is for, said shortly and left to the rules of the place.

No rule is named, for those that come to mind do not cover these items, as their published scopes
read. Cords and drawstrings on children's clothing: EN 14682 leaves out gloves, hats, bonnets and
scarves (its scope, 2015; the draft of 2023 asks makers to judge these by its principles all the
same), the American ASTM F1816 covers upper outerwear such as jackets. Small parts: 16 CFR 1501.3(d)
leaves out children's clothing and accessories. The hazards are there whatever the scopes say.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.requirements.design.extras import SMALL_PARTS, Kind
from stash.requirements.design.shapes import Shape
from stash.requirements.design.stitches import Craft
from stash.requirements.design.whom import Whom

HAZARD = Note("child_hazard")
CHILD = Note("child_caution")
#: Where nothing says whom it is for.
PERHAPS_CHILD = Note("perhaps_child_caution")
#: Of what safe-sleep advice says (common practice, no source).
COT = Note("cot_caution")
#: Common practice, no source.
FLOATS = Note("floats_caution")
#: Standards for nightwear count raised and loose surfaces among what burns fast (from memory).
FLAME = Note("flame_caution")

#: Every caution there is, so that other notes can be left out.
ALL = (CHILD, PERHAPS_CHILD, COT, FLOATS, FLAME)

#: Yarns with a raised surface, by the words of their name and fibre (common practice, no source).
_BRUSHED = re.compile(
    r"\b(?:brushed|mohair|angora|fluffy|fuzzy|furry|fur|eyelash|chenille|boucl[eé]|plush)\b",
    re.IGNORECASE,
)


def cautions(design: Design, whom: Whom | None = None, yarns: str = "") -> tuple[Note, ...]:
    """What to mind of an item, the gravest first; nothing where nothing can hurt.

    `whom` it is for, where that is said at once; else as the plan says or its size tells. `yarns`
    are the names and fibres of the yarns in it, where they are known.
    """
    return tuple(_of(design, whom or design.wearer, yarns))


def warnings(design: Design, whom: Whom | None = None, yarns: str = "") -> tuple[Note, ...]:
    """What the tag itself says to whoever buys it; what only the maker can do is left out.

    Small parts are warned of on a grown-up's item too: a child may be near it.
    """
    minded = (one for one in cautions(design, whom, yarns) if one != FLOATS)
    on_tag = [HAZARD if one in (CHILD, PERHAPS_CHILD) else one for one in minded]
    parts = small_parts(design)
    if parts and HAZARD not in on_tag:
        on_tag.insert(0, Note("small_parts", parts=parts))
    return tuple(on_tag)


def small_parts(design: Design) -> tuple[Kind, ...]:
    """What hangs, catches or can come off, each kind once."""
    return tuple(dict.fromkeys(e.kind for e in design.extras if e.kind in SMALL_PARTS))


def brushed(yarns: str) -> bool:
    """Whether the words of a yarn name a raised surface."""
    return _BRUSHED.search(yarns) is not None


def _of(design: Design, whom: Whom | None, yarns: str) -> Iterator[Note]:
    parts = small_parts(design)
    if whom is None and parts:
        yield PERHAPS_CHILD
    # a scarf is itself a tie near the neck
    if whom in (Whom.BABY, Whom.CHILD) and (parts or design.shape is Shape.SCARF):
        yield CHILD
    if whom is Whom.BABY:
        yield COT
        if design.shape in (Shape.MITTEN, Shape.SOCK) and _floats(design):
            yield FLOATS
    if Kind.FRINGE in parts or brushed(yarns):
        yield FLAME


def _floats(design: Design) -> bool:
    """Whether a second colour runs loose along the inside: in crochet it lies in the stitches."""
    fabric = design.fabric
    if fabric is None or fabric.craft is not Craft.KNIT:
        return False
    stranded = any(stitch.carrying for stitch in fabric.stitches)
    return stranded or any(band.share is not None for band in design.bands)
