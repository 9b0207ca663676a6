"""How rows, or stitches, share out the characters of a picture, stripe by stripe.

Looking at a picture's lines one by one would make a stripe of a row as wide as one of four, or
step over it, by where its edge happens to lie. So whole characters go to each stripe by its width,
and as many to each of those that are alike.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, groupby
from math import floor

#: Of a stripe narrower than half a character every so many characters show, at the most.
_SPARSEST = 6
#: So many times as large as another may a stripe come out that is as wide (our choice).
_TRUE, _ROUGH = 1.7, 4.0


@dataclass(frozen=True, slots=True)
class Stripe:
    """So many rows or stitches that are alike, and what is like in them."""

    count: int
    alike: Hashable


@dataclass(frozen=True, slots=True)
class Axis:
    """For each character along one way: from where to where it lies, in rows or stitches.

    `sparse`: the characters that hold a stripe narrower than half of one, and of how many along it
    one is to show. `fewer`: there are more stripes than characters, so that not all are shown.
    """

    spans: tuple[tuple[float, float], ...]
    sparse: tuple[tuple[int, int], ...] = ()
    fewer: bool = False

    def at(self, share: float) -> float:
        """The row or stitch that lies so far along, from 0 to 1."""
        cell = min(int(share * len(self.spans)), len(self.spans) - 1)
        begins, ends = self.spans[cell]
        return begins + (ends - begins) * (share * len(self.spans) - cell)


def even_axis(total: float, cells: int) -> Axis:
    """Every character as wide as every other."""
    return Axis(tuple((total * at / cells, total * (at + 1) / cells) for at in range(cells)))


def axis_of(stripes: Sequence[Stripe], cells: int) -> Axis:
    """The stripes in whole characters, at least one for each, as many for those as wide.

    Fewer characters are taken than there are where the stripes come out true in them, but no less
    than half. Where there are more stripes than that allows, some of them stand for all.
    """
    widths = [stripe.count for stripe in stripes]
    # where there are few, each is worth showing though they come out less true to one another
    for apart in (_TRUE, _ROUGH) if len(stripes) <= cells // 2 else (_TRUE,):
        for fewer in range(cells, (cells - 1) // 2, -1):
            given = _balanced(widths, fewer, apart)
            if given is not None:
                return _one_by_one(widths, given)
    return _some_for_all(stripes, cells)


def _one_by_one(widths: Sequence[int], given: Sequence[int]) -> Axis:
    spans: list[tuple[float, float]] = []
    sparse: list[tuple[int, int]] = []
    rows_each = sum(widths) / sum(given)
    for begins, stripe, count in zip(_begins(widths), widths, given, strict=True):
        if stripe < rows_each / 2:
            sparse.append((len(spans), min(_SPARSEST, round(rows_each / stripe))))
        spans += [
            (begins + stripe * at / count, begins + stripe * (at + 1) / count)
            for at in range(count)
        ]
    return Axis(tuple(spans), tuple(sparse))


def _begins(widths: Sequence[int]) -> list[int]:
    return [0, *accumulate(widths)][:-1]


def _balanced(widths: Sequence[int], cells: int, apart: float) -> list[int] | None:
    """Whole characters for each stripe that add up, as many for one as for another as wide.

    The wide ones make up for the narrow ones; None where that does not come out.
    """
    exact = {width: width * cells / sum(widths) for width in widths}
    given = {width: max(1, floor(share + 0.5)) for width, share in exact.items()}
    while (over := sum(given[width] for width in widths) - cells) != 0:
        step = -1 if over > 0 else 1
        able = [
            width
            for width, share in exact.items()
            if share >= 1 and given[width] + step >= 1 and widths.count(width) <= abs(over)
        ]
        if not able:
            return None
        width = min(able, key=lambda width: abs(given[width] + step - exact[width]) / exact[width])
        given[width] += step
    return None if _out_of_scale(exact, given, apart) else [given[width] for width in widths]


def _out_of_scale(exact: dict[int, float], given: dict[int, int], apart: float) -> bool:
    """Whether a stripe came out too large for another, but for those that are dotted.

    None may be less than half of what it is, a wide one twice that, or less than a narrower one.
    """
    counts = [given[width] for width in sorted(exact)]
    scales = [given[width] / share for width, share in exact.items() if share >= 0.5]
    return (
        counts != sorted(counts)
        or any(
            given[width] < share / 2 or (share >= 1 and given[width] > 2 * share)
            for width, share in exact.items()
        )
        or max(scales, default=1) > apart * min(scales, default=1)
    )


# ---------------------------------------------------------------- more stripes than characters
def _some_for_all(stripes: Sequence[Stripe], cells: int) -> Axis:
    """What is narrow together in turns, by how much there is of each; what is wide by itself."""
    rows_each = sum(stripe.count for stripe in stripes) / cells
    parts = [[*part] for _, part in groupby(stripes, lambda stripe: stripe.count >= rows_each)]
    given = _balanced([sum(stripe.count for stripe in part) for part in parts], cells, _ROUGH)
    if given is None:
        parts, given = [[*stripes]], [cells]
    spans: list[tuple[float, float]] = []
    begins = 0
    for part, count in zip(parts, given, strict=True):
        spans += [(begins + first, begins + end) for first, end in _in_turns(part, count)]
        begins += sum(stripe.count for stripe in part)
    return Axis(tuple(spans), fewer=True)


def _in_turns(stripes: Sequence[Stripe], cells: int) -> Iterator[tuple[float, float]]:
    """For each character the nearest of the stripes whose kind has had too few of them so far."""
    begins = _begins([stripe.count for stripe in stripes])
    total = sum(stripe.count for stripe in stripes)
    kinds = dict.fromkeys(stripe.alike for stripe in stripes)
    rows = {kind: sum(s.count for s in stripes if s.alike == kind) for kind in kinds}
    shown = dict.fromkeys(kinds, 0)
    for cell in range(cells):
        kind = max(kinds, key=lambda kind: rows[kind] * (cell + 1) / total - shown[kind])
        shown[kind] += 1
        here = total * (cell + 0.5) / cells
        begin, stripe = min(
            ((b, s) for b, s in zip(begins, stripes, strict=True) if s.alike == kind),
            key=lambda one: abs(one[0] + one[1].count / 2 - here),
        )
        yield begin, begin + stripe.count
