"""An afternoon with leftovers: from labels to a finished item, and all of it back again."""

from __future__ import annotations

import pytest
from commands import Maker, tables

LABELS = (
    "Barleygate DK, 2 x 50g/120m, navy, lot 48213, 100% wool",
    "Barleygate DK 50g/120m oatmeal, lot 77/B, 32g left",
    "Lindrel DK 50g/115m rust, 12g left",
)
HEADBAND = (
    "--shape", "headband", "--around", "50cm", "--tall", "9cm", "--gauge", "20 sts x 26 rows",
    "--fabric", "stockinette", "--thickness", "DK", "--band", "B 2cm middle",
)  # fmt: skip
WAYS = {
    "left": lambda a, b: ("--left", f"{a}={10}g", "--left", f"{b}={20}g"),
    "colours": lambda _a, _b: ("--weighed", "A=17g,B=5g"),
    "in all": lambda _a, _b: ("--weighed", "22g"),
    "planned": lambda _a, _b: ("--as-planned",),
}


@pytest.fixture
def workshop(nobody: Maker) -> Maker:
    for label in LABELS:
        nobody.does("add", label, "--place", "leftovers tin")
    nobody.does("design", "add", "Headband", *HEADBAND)
    return nobody


def test_have_i_enough_is_answered_yes_and_no(workshop: Maker) -> None:
    yes = workshop.ask("match", "Headband", "--with", "A=navy", "--with", "B=oatmeal")
    no = workshop.ask("match", "Headband", "--with", "A=rust", "--with", "B=oatmeal")

    assert [p["key"] for p in yes["proposals"]] == ["L1+L2"]
    assert no["proposals"] == []
    assert no["near_misses"][0]["short_m"] > 0
    assert no["near_misses"][0]["fixes"]


@pytest.mark.parametrize("way", WAYS)
def test_from_leftovers_to_an_item_and_back(workshop: Maker, way: str) -> None:
    shelf = workshop.ask("shelf")
    workshop.does("aside", "Headband", "L1+L2")
    picked = {line["role"]: line["skein"] for line in workshop.ask("shelf", "--aside")}
    workshop.does("begin", "Headband")
    workshop.does("weigh", str(picked["A"]), "40g", "--opened", "--for", "Headband")
    workshop.does("done", "Headband", *WAYS[way](picked["A"], picked["B"]))

    assert workshop.ask("show", "item", "1")["state"] == "done"
    assert workshop.ask("shelf", "--aside") == []
    assert workshop.ask("check")["ok"]
    expected = "gauge" if way == "planned" else "own items"
    assert workshop.ask("need", "Headband")["source"] == expected

    for _ in range(4):
        workshop.does("undo")

    assert workshop.ask("shelf") == shelf
    assert workshop.ask("need", "Headband")["source"] == "gauge"
    assert workshop.ask("check")["ok"]


def test_four_items_one_after_another_keep_the_books_true(nobody: Maker) -> None:
    nobody.does("add", "Barleygate DK, 6 x 50g/120m, navy, lot 48213")
    nobody.does("add", "Barleygate DK, 3 x 50g/120m, oatmeal, lot 77/B")
    nobody.does("design", "add", "Headband", *HEADBAND)
    used = 0.0
    for number, way in enumerate(WAYS, start=1):
        nobody.does("aside", "Headband", "L1+L2")
        ours = [x for x in nobody.ask("shelf", "--aside") if x["item"] == number]
        now = {x["role"]: (x["skein"], nobody.skein(x["skein"])["held_g"]) for x in ours}
        words = WAYS[way](now["A"][0], now["B"][0])
        if way == "left":
            words = tuple(
                w for s, held in now.values() for w in ("--left", f"{s}={round(held - 6)}g")
            )
        nobody.does("done", str(number), *words)
        moved = nobody.ask("show", "item", str(number))["movements"]
        used -= sum(move["change_g"] for move in moved)

    held = sum(lot["held_g"] for lot in nobody.ask("shelf"))

    assert held + used == pytest.approx(9 * 50)
    assert nobody.ask("check")["ok"]


def test_the_trace_goes_both_ways(workshop: Maker) -> None:
    workshop.does("aside", "Headband", "L1+L2")
    workshop.does("done", "Headband", "--weighed", "A=17g,B=5g")

    skeins = [skein["number"] for skein in workshop.ask("show", "item", "1")["skeins"]]

    assert len(skeins) == 2
    assert all(workshop.skein(number)["went_into"] == [1] for number in skeins)


def test_an_item_that_was_not_begun_can_be_given_back(workshop: Maker) -> None:
    shelf = workshop.ask("shelf")
    workshop.does("aside", "Headband", "1")
    workshop.does("release", "Headband")

    assert tables(workshop.ask("shelf")) == shelf
