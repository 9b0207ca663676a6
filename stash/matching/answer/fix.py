"""A fix of a near miss: one change that lets its lots become the design."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.stock.holding import HeldLot

#: The same fix for each of several lots, one beside the other.
EACH_LOT = "each_lot"

#: The kinds of fixes in the order in which they are given: by how little the design changes.
#:
#: First what leaves the design as it is; then what changes one part of it: narrower, left out, in
#: the other colour; then a body that is shorter, then a colour more. Another size comes last of
#: these, since it no longer fits whom it was planned for. What is to be bought comes after all
#: that can be done with what is on the shelf.
_ORDER = (
    "other_skeins",
    "remnants_too",
    "let_skein_in",
    "measure_skeins",
    "lower_margin",
    "margin_by_skeins",
    "release_promised",
    "second_lot",
    "narrower_bands",
    "no_brim",
    "top_in_other_colour",
    "shorter",
    "one_colour_more",
    "smaller",
    "more_skeins",
)


class Fix(Note):
    """One change: its kind and facts.

    Where the design changes, `made` is the design as it would be made and `joining` the lots that
    join it, by role.
    """

    __slots__ = ("joining", "made")

    made: Design | None
    joining: tuple[tuple[str, HeldLot], ...]

    def __init__(
        self,
        kind: str,
        /,
        made: Design | None = None,
        joining: tuple[tuple[str, HeldLot], ...] = (),
        **facts: Any,
    ) -> None:
        super().__init__(kind, **facts)
        object.__setattr__(self, "made", made)
        object.__setattr__(self, "joining", joining)

    __hash__ = Note.__hash__

    def __reduce__(self) -> tuple[Any, ...]:
        return _again, (self.kind, self.made, self.joining, self.facts)

    def _all(self) -> tuple[Any, ...]:
        return self.kind, self.made, self.joining, self.facts

    @property
    def change(self) -> str:
        """What is changed: its kind, or the kind of what is done for each lot."""
        fixes: Sequence[Fix] = self.facts["fixes"] if self.kind == EACH_LOT else ()
        return fixes[0].kind if fixes else self.kind

    @property
    def buys(self) -> bool:
        """Whether it takes yarn that is not on the shelf."""
        return self.change == "more_skeins"


def _again(
    kind: str,
    made: Design | None,
    joining: tuple[tuple[str, HeldLot], ...],
    facts: dict[str, Any],
) -> Fix:
    return Fix(kind, made, joining, **facts)


def in_order(fixes: Iterable[Fix]) -> tuple[Fix, ...]:
    """The fixes by how little they change the design."""
    return tuple(sorted(fixes, key=lambda fix: _ORDER.index(fix.change)))
