"""Two colours of a set side by side, for scripts.

What looks alike follows from the published simulation (Machado, Oliveira and Fernandes 2009), whose
own figures are checked in `tests/measures/test_vision.py`.
"""

from __future__ import annotations

import pytest
from shelves import a_lot, a_need, a_shelf

from stash.matching.match import match
from stash.matching.question.wish import Wish
from stash.measures.colour import Colour
from stash.rendering.pairs import pairs


def beside(*hexes: tuple[str, ...]) -> list[dict[str, object]]:
    roles = {"ABCD"[i]: 20.0 for i in range(len(hexes))}
    lots = [
        a_lot(i, (100 - i,), colours=tuple(map(Colour, each)))
        for i, each in enumerate(hexes, start=1)
    ]
    sets = match(a_shelf(*lots), a_need(4, **roles), Wish(top=None)).proposals
    key = "+".join(lot.lot.ref for lot in lots)
    (chosen,) = [one for one in sets if one.key == key]
    return pairs(chosen.roles)


@pytest.mark.parametrize(
    ("one", "other", "hue", "alike"),
    [
        ("#8a5a2a", "#5c6b2a", "colours close to each other", ["deutan"]),
        ("#000000", "#ffffff", "two greys", []),
        ("#777777", "#797979", "two greys", ["protan", "deutan", "tritan"]),
    ],
)
def test_a_pair_tells_hue_and_whom_it_looks_alike_to(
    one: str, other: str, hue: str, alike: list[str]
) -> None:
    (pair,) = beside((one,), (other,))

    assert (pair["roles"], pair["hue"]) == (["A", "B"], hue)
    assert set(alike) <= set(pair["look_alike_to"])  # type: ignore[call-overload]
    assert bool(alike) == bool(pair["look_alike_to"])


def test_what_is_not_known_is_null_and_looks_like_nothing() -> None:
    (pair,) = beside(("#8a5a2a",), ())

    assert (pair["lightness_gap"], pair["colour_difference"], pair["hue"]) == (None, None, None)
    assert (pair["repeats"], pair["look_alike_to"]) == (False, [])


def test_every_two_roles_make_a_pair() -> None:
    found = beside(("#1d2544",), ("#cfc1a5",), ("#bf2030",))

    assert [pair["roles"] for pair in found] == [["A", "B"], ["A", "C"], ["B", "C"]]


def test_a_partner_that_repeats_a_colour_is_marked() -> None:
    (pair,) = beside(("#1d2544", "#cfc1a5"), ("#cdbfa3",))

    assert pair["repeats"] is True


def test_one_role_has_no_pair() -> None:
    assert beside(("#1d2544",)) == []
