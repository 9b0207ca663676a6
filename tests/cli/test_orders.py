"""Orders as a seller types them, and what other commands make of them."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from unittest.mock import patch

import pytest
from commands import NONE, NUMBER, WORDS, Maker, at_a_terminal, keeps_its_keys, refused_in_one_line

from stash.actions import clock

TODAY = clock.today()
SOON, LATER = (str(TODAY + timedelta(days=days)) for days in (5, 20))
ORDER = {
    "number": (int,),
    "who": WORDS,
    "design": WORDS,
    "size": (*WORDS, NONE),
    "count": (int,),
    "filled": (int,),
    "by": WORDS,
    "price": (*NUMBER, NONE),
    "state": WORDS,
    "short": (list,),
}


@pytest.fixture
def seller(nobody: Maker) -> Maker:
    """Navy for two hats and a bit, oatmeal for several, a hat, and two orders of it."""
    nobody.does("add", "Fell Wool DK, 3 x 50g/120m, navy, lot 48213")
    nobody.does("add", "Hedgebell DK 50g/120m, oatmeal, lot 9")
    nobody.does(
        "design", "add", "Winter hat", "--stated", "A=150m", "--stated", "B=20m",
        "--thickness", "DK",
    )  # fmt: skip
    add = ("order", "add")
    nobody.does(*add, "market stall", "winter hat", "--by", LATER, "--colour", "A=navy")
    nobody.does(
        *add, "blue, collected Friday", "Winter hat", "--by", SOON, "--colour", "A=blue",
        "--price", "32 EUR", "--note", "ring first",
    )  # fmt: skip
    return nobody


def listed(maker: Maker) -> dict[int, dict[str, object]]:
    return {one["number"]: one for one in maker.ask("order", "list")}


def test_orders_keep_their_keys_and_stand_in_their_turn(seller: Maker) -> None:
    found = seller.ask("order", "list")

    for one in found:
        keeps_its_keys(one, ORDER)
    assert [one["number"] for one in found] == [2, 1]
    assert (found[0]["price"], found[0]["by"], found[0]["state"]) == (32.0, SOON, "open")
    assert found[0]["short"] == found[1]["short"] == []


def test_a_colour_that_is_no_longer_there_leaves_the_rest_of_an_order_to_be_changed(
    seller: Maker,
) -> None:
    seller.does("add", "Fell Wool DK, 50g/120m, Moonlight, lot 3")
    seller.does("order", "change", "1", "--colour", "A=moonlight")
    seller.does("gone", "5", "--why", "given")
    seller.does("order", "change", "1", "--count", "2")
    assert listed(seller)[1]["colours"] == {"A": "moonlight"}
    seller.does("order", "change", "1", "--colour", "A=blu")
    assert listed(seller)[1]["colours"] == {"A": "blue"}


def test_what_was_typed_is_said_back(seller: Maker) -> None:
    said = seller.does("order", "list").out

    assert (
        said.splitlines()[0].split()
        == (f"2 blue, collected Friday Winter hat, A blue by {SOON} €32.00 open").split()
    )
    assert "ring first" in said.splitlines()[1]


def test_csv_has_a_row_for_each_order(seller: Maker) -> None:
    rows = seller.does("order", "list", "--as", "csv").rows

    assert [(row["number"], row["colours"], row["short"]) for row in rows] == [
        ("2", "A=blue", ""),
        ("1", "A=navy", ""),
    ]


def test_no_orders_says_how_to_take_one_in(maker: Maker) -> None:
    assert "stash order add" in maker.does("order", "list").out
    assert maker.ask("order", "list") == []


def test_the_later_order_is_short_by_what_the_earlier_one_needs(seller: Maker) -> None:
    seller.does("order", "add", "aunt", "Winter hat", "--by", LATER, "--colour", "A=navy")

    found = listed(seller)
    assert found[2]["short"] == found[1]["short"] == []
    (lack,) = found[3]["short"]  # type: ignore[misc]
    assert lack["count"] == 1
    # 150 m and 10 % for each of three, 360 m on the shelf, a join in each of the first two
    assert lack["short_m"] == pytest.approx(3 * 150 * 1.1 - 360, abs=10)
    assert "3  aunt" in seller.does("order", "list").out
    assert "short: A: L1 (navy) has " in seller.does("order", "list").out


def test_a_colour_that_is_not_there_is_what_an_order_lacks(seller: Maker) -> None:
    seller.does("order", "add", "aunt", "Winter hat", "--by", LATER, "--colour", "A=red")

    (lack,) = listed(seller)[3]["short"]  # type: ignore[misc]
    assert lack["roles_without_yarn"] == ["A"]
    assert lack["words"] == (
        "A: none of your yarn is red; or: add yarn in red, or ask for another colour for A"
    )
    seller.does("aside", "--note", "socks", "--skein", "4", "50g")  # and hardly any is left for B
    (other,) = listed(seller)[3]["short"]  # type: ignore[misc]
    assert other["words"] == lack["words"]


def test_a_batch_makes_orders_first_and_names_them(seller: Maker) -> None:
    seller.does("order", "add", "aunt", "Winter hat", "--by", LATER, "--colour", "A=navy")

    found = seller.ask("batch", "--want", "Winter hat=2 at 90")
    assert {made["order"]: made["count"] for made in found["made"]} == {2: 1, 1: 1}
    assert [(one["order"], one["count"]) for one in found["unmet"]] == [(3, 1), (None, 2)]
    assert {cut["order"] for skein in found["skeins"] for cut in skein["cuts"]} == {1, 2}
    said = seller.does("batch", "--want", "Winter hat=2").out
    assert f"order 2  blue, collected Friday  Winter hat, A blue  by {SOON}" in said
    assert "order 3 (aunt) cannot be met: short: A: L1 (navy) has " in said


def test_a_batch_of_orders_needs_no_want(seller: Maker) -> None:
    assert {made["order"] for made in seller.ask("batch")["made"]} == {1, 2}
    refused_in_one_line(seller("batch", "--no-orders"), 2, "--want")


def test_without_orders_the_batch_is_what_is_wanted(seller: Maker) -> None:
    found = seller.ask("batch", "--want", "Winter hat=2", "--no-orders")

    assert [(made["order"], made["count"]) for made in found["made"]] == [(None, 2)]
    assert "order" not in seller.does("batch", "--want", "Winter hat=2", "--no-orders").out


def test_a_saved_batch_fills_its_orders(seller: Maker, tmp_path: Path) -> None:
    plan = str(tmp_path / "plan.json")
    seller.does("batch", "--save", plan)
    seller.does("batch", "--aside", plan)

    assert {one["state"] for one in listed(seller).values()} == {"filled"}
    seller.does("undo")
    assert {one["state"] for one in listed(seller).values()} == {"open"}
    seller.does("order", "drop", "1")
    refused_in_one_line(seller("batch", "--aside", plan), 4, "dropped")


def test_hours_are_what_an_order_lacks_where_they_are_short(seller: Maker) -> None:
    seller.does("settings", "hours-winter-hat", "3")

    found = seller.ask("batch", "--hours", "4")
    assert {made["order"] for made in found["made"]} == {2}
    assert [one["short"]["hours"] for one in found["unmet"]] == [2.0]
    assert "2 h more than the plan has" in seller.does("batch", "--hours", "4").out


def test_what_is_ordered_takes_its_hours(seller: Maker) -> None:
    """Hers of the design; where she has none, those that the batch says of the same design."""
    words = ("batch", "--want", "Winter hat=2 at 30 in 2h10")
    found = seller.ask(*words, "--hours", "4")
    assert ({made["order"] for made in found["made"]}, found["items"]) == ({2}, 1)
    assert (found["hours"], found["without_hours"]) == (pytest.approx(130 / 60), [])
    seller.does("settings", "hours-winter-hat", "1")
    found = seller.ask(*words, "--hours", "4")
    assert ({made["order"] for made in found["made"]}, found["hours"]) == ({1, 2}, 2.0)


def test_limits_count_what_is_ordered_and_the_rest_has_its_reason(seller: Maker) -> None:
    """Two blue ones are ordered, so no more are made of what is wanted; an order goes beyond."""
    seller.does("add", "Fell Wool DK, 6 x 50g/120m, navy, lot 48213")
    words = ("batch", "--want", "Winter hat=6 at 90", "--per-colour")
    for most in (2, 1):
        found = seller.ask(*words, str(most))
        blue = [one for one in found["made"] if one["roles"]["A"]["lot_ref"] == "L1"]
        assert {one["order"] for one in blue} == {1, 2}
        assert [one["reasons"] for one in found["unmet"]] == [["limit"]]
        said = seller.does(*words, str(most)).out
        assert "missing; your limits on pairs, colours or mixes leave none" in said
        assert "do not go together" not in said


def test_what_takes_hours_that_nobody_knows_is_said(seller: Maker) -> None:
    found = seller.ask("batch", "--hours", "1")
    assert ([one["order"] for one in found["without_hours"]], found["hours"]) == ([2, 1], 0)
    said = seller.does("batch", "--hours", "1").out.splitlines()
    assert "no hours known: Winter hat (order 2), Winter hat (order 1); `stash" in said[1]
    seller.does("settings", "hours-winter-hat", "30 min")
    assert "no hours known" not in seller.does("batch", "--hours", "1").out
    seller.does("settings", "hours-winter-hat", "usual")
    assert "no hours known" not in seller.does("batch").out  # nor are any asked for


def test_a_take_that_leaves_an_order_short_is_said_on_standard_error(seller: Maker) -> None:
    for words in (("match", "Winter hat"), ("ideas",), ("ideas", "L1"), ("ideas", "navy")):
        quiet = seller.does(*words)
        assert quiet.err.count("note: ") == 1, words
        assert f"would leave order 1 (market stall), for {LATER}, short: A: L1" in quiet.err
        assert "order 1" not in quiet.out
    assert "order 2" not in seller.does("match", "Winter hat").err  # that one still has enough
    said = seller.does("aside", "Winter hat")
    assert f"note: this leaves order 1 (market stall), for {LATER}, short: A: L1" in said.err


def test_yarn_taken_for_the_order_itself_leaves_nobody_short(seller: Maker) -> None:
    said = seller.does("aside", "--order", "2")

    assert said.err == ""
    assert "item 1 (Winter hat), order 2" in said.out
    assert listed(seller)[2]["items"] == [1]


def test_a_later_order_that_takes_an_earlier_ones_yarn_is_said(seller: Maker) -> None:
    seller.does("aside", "--order", "1")
    assert seller("aside", "Winter hat").status == 0  # nobody is waiting but order 2
    assert "short" in seller.does("order", "list").out
    seller.does("undo")
    seller.does("order", "add", "aunt", "Winter hat", "--by", LATER)
    assert "note: this leaves order 2" in seller.does("aside", "--order", "3").err


def test_what_a_skein_or_lot_cannot_become_takes_nothing_from_an_order(seller: Maker) -> None:
    """Skein 1 holds 120 m of the 150 m that colour A takes; oatmeal is enough for all."""
    assert seller.does("ideas", "1").err == ""
    assert seller.does("ideas", "L2").err == ""


@pytest.mark.parametrize("words", [("match", "Hat"), ("ideas",), ("ideas", "L1"), ("aside", "Hat")])
def test_without_orders_nothing_is_said(maker: Maker, words: tuple[str, ...]) -> None:
    maker.does("release", "1")

    assert "order" not in maker.does(*words).err


def test_a_late_order_is_said(seller: Maker) -> None:
    then = date.fromisoformat(SOON) + timedelta(days=1)

    with patch.object(clock, "today", lambda: then):
        assert listed(seller)[2]["state"] == "late"
        said = seller.does("batch")
    assert f"order 2 (blue, collected Friday) is late: it was for {SOON}, 1 day ago" in said.err
    assert f"by {SOON} (late)" in said.out


def test_sold_proposes_the_price_of_the_order(seller: Maker) -> None:
    seller.does("aside", "--order", "2")
    seller.does("done", "1", "--as-planned")

    refused_in_one_line(seller("sold", "1"), 4, "order 2", "--for", "32.00")
    status, screen = at_a_terminal(seller.file, "-", "sold", "1")
    assert status == 4, screen
    status, screen = at_a_terminal(seller.file, "1", "sold", "1")
    assert status == 0, screen
    assert "Sold item 1 (Winter hat) for €32.00" in screen


def test_an_item_changes_its_order(seller: Maker) -> None:
    seller.does("aside", "Winter hat")
    seller.does("change", "item", "1", "--order", "1")
    assert listed(seller)[1]["state"] == "filled"
    seller.does("change", "item", "1", "--order", "none")
    assert listed(seller)[1]["filled"] == 0
    seller.does("done", "1", "--as-planned", "--order", "1")
    assert listed(seller)[1]["items"] == [1]


def test_a_design_that_changed_since_leaves_the_other_orders_alone(seller: Maker) -> None:
    """A size that the design cannot be made at any more is told with the order."""
    shape = ("--shape", "round hat", "--fabric", "1 hdc", "--thickness", "DK")
    seller.does("design", "add", "Beanie", *shape, "--size", "woman")
    seller.does("order", "add", "aunt", "Beanie", "--size", "child 4 years", "--by", SOON)
    assert listed(seller)[3]["size"] == "child 4 years"
    seller.does("design", "change", "Beanie", "--shape", "scarf", "--wide", "20cm", "--long", "1m")

    (fault,) = listed(seller)[3]["short"]  # type: ignore[misc]
    assert fault["words"]
    said = seller.does("batch")
    assert "note: order 3 (aunt) is left out: " in said.err
    assert "no. 1" in said.out


def test_a_size_is_planned_as_it_was_ordered(seller: Maker, tmp_path: Path) -> None:
    shape = ("--shape", "round hat", "--fabric", "1 hdc", "--thickness", "DK")
    seller.does("design", "add", "Beanie", *shape, "--size", "woman")
    seller.does("order", "add", "aunt", "Beanie", "--size", "baby 6 months", "--by", SOON)
    plan = str(tmp_path / "plan.json")
    seller.does("batch", "--save", plan)
    seller.does("batch", "--aside", plan)

    assert listed(seller)[3]["state"] == "filled"
    # kept by the batch at that size, so that the next one is set aside so by itself
    seller.does("order", "change", "3", "--count", "2")
    seller.does("release", "2")
    assert seller.ask("aside", "--order", "3")["design"] == "Beanie, baby 6 months"


@pytest.fixture
def sized(seller: Maker) -> Maker:
    """A hat kept for a woman, ordered for a man twice and for a woman once."""
    seller.does("add", "Hedgebell DK 400g/960m, teal, lot 2")
    shape = ("--shape", "round hat", "--fabric", "1 hdc", "--thickness", "DK")
    seller.does("design", "add", "Beanie", *shape, "--size", "woman")
    for size, count in (("man", "2"), ("woman", "1")):
        order = ("order", "add", "aunt", "Beanie", "--size", size)
        seller.does(*order, "--count", count, "--by", SOON)
    return seller


@pytest.mark.parametrize("words", [(), ("Beanie",), ("Beanie", "1"), ("Beanie", "--skeins", "A=5")])
def test_yarn_set_aside_for_an_order_makes_the_size_ordered(
    sized: Maker, words: tuple[str, ...]
) -> None:
    """However the yarn is chosen; what it takes is what the size takes."""
    made = sized.ask("aside", *words, "--order", "3")

    assert made["design"] == "Beanie, man"
    assert listed(sized)[3]["items"] == [1]
    needs = [sized.ask("need", name) for name in ("Beanie", "Beanie, man")]
    woman, man = (need["roles"]["A"]["set_aside_m"] for need in needs)
    taken = sum(one["take_m"] for place in made["places"] for one in place["skeins"])
    assert woman < man <= taken < man + 2
    assert sized.ask("aside", "--order", "4")["design"] == "Beanie"


def test_a_size_is_set_aside_without_an_order_and_undone_with_its_entry(sized: Maker) -> None:
    assert sized.ask("aside", "Beanie", "--size", "man")["design"] == "Beanie, man"
    assert sized.ask("aside", "Beanie", "--size", "woman")["design"] == "Beanie"
    sized.does("undo")
    sized.does("undo")
    assert [one["design"] for one in sized.ask("design", "list")] == ["Beanie", "Winter hat"]
    refused_in_one_line(sized("aside", "Beanie", "--size", "tall"), 2, "tall")
    refused_in_one_line(sized("aside", "3m", "--note", "x", "--skein", "1", "--size", "man"), 2)


@pytest.mark.parametrize(
    "words", [("done", "1", "--as-planned", "--order"), ("change", "item", "1", "--order")]
)
def test_an_item_of_another_size_does_not_fill_an_order(
    sized: Maker, words: tuple[str, ...]
) -> None:
    sized.does("aside", "Beanie")

    refused_in_one_line(sized(*words, "3"), 4, "asks for man", "stash aside --order 3")
    sized.does(*words, "4")
    sized.does("aside", "Beanie", "--size", "man")
    sized.does("change", "item", "2", "--order", "3")
    assert (listed(sized)[3]["items"], listed(sized)[4]["items"]) == ([2], [1])
    wrong = sized("aside", "Beanie", "--size", "child 4 years", "--order", "3")
    refused_in_one_line(wrong, 4, "is for Beanie, man")


@pytest.mark.parametrize(
    ("words", "status", "way_out"),
    [
        (("aunt", "Winter hat", "--by", "2020-01-31"), 4, "a day from today on"),
        (("aunt", "Winter hat"), 2, "--by"),
        (("aunt", "Winter hat", "--by", "someday"), 2, "2024-01-12"),
        (("aunt", "Mitten", "--by", LATER), 3, "stash design add"),
        (("aunt", "Winter hat", "--by", LATER, "--count", "0"), 2, "--count"),
        (("aunt", "Winter hat", "--by", LATER, "--colour", "blue"), 2, "--colour A=blue"),
        (("aunt", "Winter hat", "--by", LATER, "--colour", "D=blue"), 3, "try A or B"),
        (("aunt", "Winter hat", "--by", LATER, "--colour", "A=bule"), 3, "did you mean blue"),
        (("aunt", "Winter hat", "--by", LATER, "--colour", "B=teal,greeen"), 3, "mean green"),
        (("aunt", "Winter hat", "--by", LATER, "--colour", "A=zxq"), 3, "try navy or oatmeal"),
        (("aunt", "Winter hat", "--by", LATER, "--price", "lots"), 2, "3.20"),
        (("aunt", "Winter hat", "--by", LATER, "--price", "£3"), 2, "EUR"),
        (("aunt", "Winter hat", "--by", LATER, "--size", "woman"), 4, "--shape"),
        ((" ", "Winter hat", "--by", LATER), 2, "stash order add"),
    ],
)
def test_what_cannot_be_ordered_is_one_line_with_a_way_out(
    seller: Maker, words: tuple[str, ...], status: int, way_out: str
) -> None:
    before = seller.entries()

    refused_in_one_line(seller("order", "add", *words), status, way_out)
    assert seller.entries() == before


@pytest.mark.parametrize(
    ("words", "status", "way_out"),
    [
        (("order", "change", "9", "--count", "2"), 3, "try 2 (blue"),
        (("order", "change", "blue", "--count", "2"), 2, "stash order list"),
        (("order", "change", "1"), 2, "--count"),
        (("order", "change", "1", "--colour", "A=nayv"), 3, "did you mean navy?"),
        (("order", "change", "1", "--by", "2020-01-31"), 4, "a day from today on"),
        (("order", "drop", "9"), 3, "try 2 (blue"),
        (("order", "delete", "1"), 2, "stash order drop 2"),
        (("aside", "Winter hat", "--order", "9"), 3, "try 2 (blue"),
        (("aside", "Winter hat", "--order", "blue"), 2, "stash order list"),
        (("aside", "--note", "socks", "--skein", "1", "--order", "1"), 2, "--note"),
        (("change", "item", "1"), 2, "--order 2"),
        (("change", "1", "--order", "2"), 2, "change item 3 --order 2"),
        (("orders",), 2, "stash order list"),
    ],
)
def test_a_slip_about_orders_is_one_line_with_a_way_out(
    seller: Maker, words: tuple[str, ...], status: int, way_out: str
) -> None:
    before = seller.entries()

    refused_in_one_line(seller(*words), status, way_out)
    assert seller.entries() == before


@pytest.fixture
def two_done(seller: Maker) -> Maker:
    """Items 1 and 2, done for orders 1 and 2, of which the second alone has a price."""
    for number in ("1", "2"):
        seller.does("aside", "Winter hat", "--order", number)
    seller.does("done", "1-2", "--as-planned")
    return seller


def test_several_are_sold_for_what_each_order_says(two_done: Maker) -> None:
    before = two_done.entries()
    refused_in_one_line(two_done("sold", "1-2"), 2, "item 1", "--for 28.00")
    assert two_done.entries() == before
    two_done.does("order", "change", "1", "--price", "30")
    before = two_done.entries()
    refused_in_one_line(two_done("sold", "1-2"), 4, "items 1-2", "--for", "agreed")
    assert two_done.entries() == before

    two_done.does("sold", "1-2", "--for", "agreed")
    assert [row["price"] for row in two_done.ask("sales")["rows"]] == [30.0, 32.0]
    assert two_done.entries() == before + 1


def test_several_agreed_prices_are_asked_in_one_question(two_done: Maker) -> None:
    two_done.does("order", "change", "1", "--price", "30")
    status, screen = at_a_terminal(two_done.file, "1", "sold", "1-2")

    assert status == 0, screen
    assert [row["price"] for row in two_done.ask("sales")["rows"]] == [30.0, 32.0]


def test_one_order_is_filled_by_several_that_are_done(seller: Maker) -> None:
    seller.does("order", "change", "1", "--count", "2")
    for _ in range(2):
        seller.does("aside", "Winter hat")
    seller.does("done", "1-2", "--as-planned", "--order", "1")

    assert listed(seller)[1]["items"] == [1, 2]
    before = seller.entries()
    refused_in_one_line(seller("change", "item", "1-2", "--order", "2"), 4, "item 2", "order 2")
    assert seller.entries() == before


def test_a_design_that_is_ordered_is_not_dropped(seller: Maker) -> None:
    refused_in_one_line(seller("design", "drop", "Winter hat"), 4, "2 (blue", "stash order drop 2")
    seller.does("order", "drop", "1")
    seller.does("order", "drop", "2")
    seller.does("design", "drop", "Winter hat")
    assert seller.ask("design", "list") == []
