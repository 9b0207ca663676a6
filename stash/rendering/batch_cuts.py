"""Where every skein of a planned batch is cut: what is free of it, its cuts, what is left."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from stash.planning.model.batch import Batch, CutSkein
from stash.rendering import figures
from stash.rendering.amounts import numbers
from stash.rendering.figures import Figure

USED_UP = "used up"


@dataclass(frozen=True, slots=True)
class SkeinShown:
    """A skein with its cuts in words; what is free less the cuts is what is left, as shown.

    `too_short`: so little is left that it is of no more use.
    """

    skein: CutSkein
    free: Figure
    cuts: tuple[str, ...]
    left: Figure
    too_short: bool


def skeins_shown(batch: Batch) -> Iterator[SkeinShown]:
    """Every skein that is cut, by its place."""
    for skein in sorted(batch.skeins, key=lambda s: (not s.place, s.place, s.number)):
        free = figures.down(sum((cut.length for cut in skein.cuts), skein.left))
        cuts, left = _shown_cuts(skein, free)
        too_short = bool(left) and skein.left < batch.useful_end
        yield SkeinShown(skein, free, tuple(cuts), left, too_short)


def _shown_cuts(skein: CutSkein, free: Figure) -> tuple[list[str], Figure]:
    """The cuts, like ones drawn together, and what is left; the last cut is at most the rest."""
    alike: dict[tuple[str, Figure], list[int]] = {}
    for cut in skein.cuts:
        length = min(figures.up(cut.length), free)
        free -= length
        alike.setdefault((cut.role, length), []).append(cut.item)
    words = [
        f"{f'{len(of)} x ' if of[1:] else ''}{length} {role} for no. {numbers([*{*of}])}"
        for (role, length), of in alike.items()
    ]
    return words, free
