"""How rows, or stitches, share out the characters of a picture, stripe by stripe.

Looking at a picture's lines one by one would make a stripe of a row as wide as one of four, or
step over it, by where its edge happens to lie. So whole characters go to each stripe by its width.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

#: Of a stripe narrower than half a character every so many characters show, at the most.
_SPARSEST = 6


@dataclass(frozen=True, slots=True)
class Axis:
    """For each character along one way: from where to where it lies, in rows or stitches.

    `sparse`: the characters that hold a stripe narrower than half of one, and of how many along it
    one is to show. `mixed`: stripes are narrower than its characters, which show them together.
    """

    spans: tuple[tuple[float, float], ...]
    sparse: tuple[tuple[int, int], ...] = ()
    mixed: bool = False

    def at(self, share: float) -> float:
        """The row or stitch that lies so far along, from 0 to 1."""
        cell = min(int(share * len(self.spans)), len(self.spans) - 1)
        begins, ends = self.spans[cell]
        return begins + (ends - begins) * (share * len(self.spans) - cell)


def even_axis(total: float, cells: int, *, mixed: bool = False) -> Axis:
    """Every character as wide as every other."""
    spans = tuple((total * at / cells, total * (at + 1) / cells) for at in range(cells))
    return Axis(spans, mixed=mixed)


def axis_of(stripes: Sequence[int], cells: int) -> Axis:
    """The stripes, each so many rows or stitches, in whole characters: at least one for each.

    Where there are more stripes than that allows, a character holds several of them.
    """
    total = sum(stripes)
    exact = [stripe * cells / total for stripe in stripes]
    given = _balanced(exact, cells)
    if given is None:
        return even_axis(total, cells, mixed=True)
    spans: list[tuple[float, float]] = []
    sparse: list[tuple[int, int]] = []
    begins = 0.0
    for stripe, share, count in zip(stripes, exact, given, strict=True):
        if share < 0.5:
            sparse.append((len(spans), min(_SPARSEST, round(1 / share))))
        spans += [
            (begins + stripe * at / count, begins + stripe * (at + 1) / count)
            for at in range(count)
        ]
        begins += stripe
    return Axis(tuple(spans), tuple(sparse))


def _balanced(exact: Sequence[float], cells: int) -> list[int] | None:
    """Whole characters for each stripe that add up; the wide ones make up for the narrow ones.

    None where the narrow ones leave no room.
    """
    given = [max(1, round(share)) for share in exact]
    while (over := sum(given) - cells) != 0:
        step = -1 if over > 0 else 1
        able = [at for at, count in enumerate(given) if count + step >= 1 and exact[at] >= 1]
        if not able:
            return None
        at = min(able, key=lambda at: abs(given[at] + step - exact[at]) / exact[at])
        given[at] += step
    return None if _out_of_scale(exact, given) else given


def _out_of_scale(exact: Sequence[float], given: Sequence[int]) -> bool:
    """Whether a stripe came out at less than half of what it is, or a wide one at twice."""
    pairs = zip(exact, given, strict=True)
    return any(count < share / 2 or (share >= 1 and count > 2 * share) for share, count in pairs)
