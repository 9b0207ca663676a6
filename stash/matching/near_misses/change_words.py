"""A piece that is made otherwise, in words, with the figure that changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.matching.amounts import counted
from stash.measures.length import INCH_UM, Length
from stash.requirements.design.bands import Rows
from stash.requirements.design.piece import Piece
from stash.requirements.design.shapes import TOPS
from stash.requirements.fit.fit_to_yarn import band_in_cells
from stash.requirements.fit.recoloured import Recoloured
from stash.requirements.yarn.by_rows import by_rows, finished
from stash.requirements.yarn.design_context import DesignContext

_CENTIMETRE_UM = 10_000
_ORDINALS = ("first", "second", "third", "fourth")


@dataclass(frozen=True, slots=True)
class Plan:
    """The kept plan behind a need with all that is known of it; in which unit sizes are told."""

    known: DesignContext
    inches: bool = False

    def size(self, length: Length) -> str:
        """A length of fabric to the tenth of a centimetre or an inch."""
        return f"{self._number(length)} {self._unit}"

    def sizes(self, lengths: Sequence[Length]) -> str:
        """Several of them: `2 and 1.5 cm`."""
        return f"{' and '.join(map(self._number, lengths))} {self._unit}"

    @property
    def _unit(self) -> str:
        return "in" if self.inches else "cm"

    def _number(self, length: Length) -> str:
        return f"{round(length.um / (INCH_UM if self.inches else _CENTIMETRE_UM), 1):g}"


def bands(plan: Plan, role: str, made: Piece) -> str:
    """A role's bands as they would be: `a band of 1.5 cm (4 rows) instead of 1.8 cm (5)`."""
    own = [at for at, band in enumerate(made.bands) if band.role == role]
    named = "a band" if len(own) == 1 else f"bands of {role}"
    now, unit = _widths(plan, made, own)
    before, _ = _widths(plan, plan.known.piece, own)
    return f"{named} of {now.format(unit)} instead of {before.format('')}"


def _widths(plan: Plan, piece: Piece, at: Sequence[int]) -> tuple[str, str]:
    """How wide some bands are, with a place for what they are counted in, and what that is."""
    found = [band_in_cells(piece, index) for index in at]
    counts = [count for count, _, _ in found]
    unit = found[0][1]
    one = {"rows": "row", "stitches": "stitch"}.get(unit)
    told = f" ({' and '.join(map(str, counts))}{{}})" if one else ""
    widths = plan.sizes([width for _, _, width in found])
    return f"{widths}{told}", f" {one if counts == [1] else unit}"


def brimless(plan: Plan, brim: Length) -> str:
    """The piece without what is folded up of it."""
    return f"without the fold-up brim of {plan.size(brim)}"


def top(plan: Plan, found: Recoloured, lot: str = "") -> str:
    """The top in another colour, of another lot if need be: `the crown in B from 15 cm up`."""
    shape = plan.known.piece.shape
    assert shape is not None
    role, above = found.role, plan.size(found.above)
    other = f", with {lot} as {role}" if lot else ""
    return f"the {TOPS[shape]} in {role} from {above} up ({_cells(found)}){other}"


def stripe(plan: Plan, found: Recoloured, lot: str, colours: int) -> str:
    """A stripe of a colour more: `a third colour: 6 rows of C from L7 (rust), 8 cm up`."""
    above = "" if found.upright else f", {plan.size(found.above)} up"
    return f"a {_ORDINALS[colours]} colour: {_cells(found)} of {found.role} from {lot}{above}"


def side(plan: Plan, made: Piece, index: int) -> str:
    """One side that is shorter: `19 cm tall instead of 21 cm (5 rows fewer)`."""
    before, now = finished(plan.known.piece).sides[index], finished(made).sides[index]
    word = made.build.words[index]
    return f"{plan.size(now)} {word} instead of {plan.size(before)}{_fewer(plan.known.piece, made)}"


def sides(plan: Plan, made: Piece) -> str:
    """All sides smaller: `51 cm around and 19 cm tall instead of 56 and 21 cm`."""
    words = made.build.words
    now = zip(finished(made).sides, words, strict=False)
    before = finished(plan.known.piece).sides[: len(words)]
    told = " and ".join(f"{plan.size(length)} {word}" for length, word in now)
    return f"{told} instead of {plan.sizes(before)}"


def _fewer(planned: Piece, made: Piece) -> str:
    """How many rows fewer, or stitches where they run up the piece; nothing where not known."""
    before, now = by_rows(planned), by_rows(made)
    if before is None or now is None:
        return ""
    if now.layout.sideways:
        count = before.layout.body.widest - now.layout.body.widest
        return f" ({_stitches(count)} fewer in each row)"
    count = len(before.layout.body.rows) - len(now.layout.body.rows)
    return f" ({counted(count, 'row')} fewer)"


def _cells(found: Recoloured) -> str:
    extent = found.extent
    if isinstance(extent, Rows):
        return counted(extent.count, "row")
    return f"{_stitches(extent.count)} in each row"


def _stitches(count: int) -> str:
    return "1 stitch" if count == 1 else f"{count} stitches"
