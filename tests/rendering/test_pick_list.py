"""The list one walks along the shelf with."""

from __future__ import annotations

from dataclasses import replace
from random import Random

from hypothesis import given
from hypothesis import strategies as st
from shelves import a_lot

from stash.measures.length import metres
from stash.measures.mass import NO_MASS, grams
from stash.measures.put_up import PutUp
from stash.rendering.amounts import Page
from stash.rendering.pick_list import Fetch, fetch_keys, list_keys, list_lines, natural, pick_list
from stash.stock.yarn import FullFrom, Pair

LOT = a_lot(1, (100, 100, 100, 40), opened=(3,))  # skeins 10-13 of 100 g / 200 m


def fetch(number: int, m: int, role: str = "A", place: str = "shelf", strand: int = 1) -> Fetch:
    skein = replace(next(s for s in LOT.skeins if s.number == number), place=place)
    assert skein.pair.put_up is not None
    mass = skein.pair.put_up.mass_covering(metres(m))
    return Fetch(role, skein, LOT.lot, mass, metres(m), strand)


def lines(*takes: Fetch, yards: bool = False) -> list[str]:
    found = pick_list(takes)
    return list_lines(found, Page())


def test_places_come_as_one_counts_them_and_an_unknown_one_last() -> None:
    places = ["box 10", "", "Box 2", "attic", "box 2b", "2nd shelf", "10th shelf"]
    Random(3).shuffle(places)
    takes = [fetch(10, 5, place=place) for place in places]
    found = pick_list([replace(t, role=f"{i}") for i, t in enumerate(takes)])

    assert [place for place, _ in found.places] == [
        "2nd shelf", "10th shelf", "attic", "Box 2", "box 2b", "box 10", "",
    ]  # fmt: skip
    assert list_keys(found)["places"][-1]["place"] is None


@given(st.integers(0, 999), st.integers(0, 999), st.sampled_from(["box {}", "{} left", "B{}a"]))
def test_numbers_in_a_place_are_counted(one: int, other: int, place: str) -> None:
    assert (natural(place.format(one)) < natural(place.format(other).upper())) is (one < other)


taken = st.lists(
    st.tuples(st.integers(10, 13), st.integers(1, 40), st.sampled_from("AB"), st.integers(1, 2)),
    unique_by=lambda take: (take[0], take[2], take[3]),
    min_size=1,
)


@given(taken)
def test_nothing_is_lost_or_told_twice(takes: list[tuple[int, int, str, int]]) -> None:
    found = pick_list([fetch(n, m, role, strand=strand) for n, m, role, strand in takes])
    keys = [(f.role, f.skein.number) for f in found.fetches]

    assert len(keys) == len(set(keys))
    assert sum(f.length.m for f in found.fetches if f.length) == sum(m for _, m, _, _ in takes)
    assert sum((f.mass for f in found.fetches), NO_MASS) == sum(
        (fetch(n, m).mass for n, m, _, _ in takes), NO_MASS
    )
    assert sum(w.joins + w.ends for w in found.roles) == len(takes)


def test_a_line_tells_ticket_role_amount_and_lot() -> None:
    """L* of the blue #204060 is 26 (CIE 15, by the standard formula)."""
    assert lines(fetch(10, 150), fetch(13, 80)) == [
        "shelf",
        "  [ ] skein 10  A  150 m, 75 g of its 100 g  blue (dark), yarn 1, lot 7 (L1)",
        "  [ ] skein 13  A  all 80 m, 40 g            blue (dark), yarn 1, lot 7 (L1)",
        "A: use skeins 10, 13, 1 join",
    ]


def test_several_ends_are_named_and_one_skein_needs_no_such_line() -> None:
    two = lines(fetch(10, 50), fetch(11, 50, strand=2))

    assert two[-1] == "A: use skeins 10-11, 2 strands held together"
    assert len(lines(fetch(10, 50))) == 2


def test_grams_that_are_only_inferred_are_not_shown() -> None:
    lot = a_lot(2, (100,), pair=Pair(PutUp(grams(100), metres(200)), FullFrom.ASSUMED))
    take = Fetch("A", lot.skeins[0], lot.lot, grams(20), metres(40))

    keys = fetch_keys(pick_list([take]).fetches[0])
    assert (keys["take_g"], keys["held_g"], keys["take_m"]) == (None, None, 40)
    assert " g" not in lines(take)[1]


def test_an_unknown_place_is_said_once_and_not_at_all_where_none_is_known() -> None:
    some = lines(fetch(10, 5), fetch(11, 5, "B", place=""), fetch(12, 5, "C", place=""))
    none = lines(fetch(10, 5, place=""), fetch(11, 5, "B", place=""))

    assert [line for line in some if not line.startswith("  ")] == ["shelf", "Place not known"]
    assert all(line.startswith("  [ ] skein") for line in none)
