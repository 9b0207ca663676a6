"""A design or an item that is nearly named, or not named at all where only one can be meant."""

from __future__ import annotations

from typing import Any

import pytest
from commands import Maker, at_a_terminal, refused_in_one_line

#: A round hat of stated yarn, as every design here.
STATED = ("--stated", "A=20m", "--thickness", "DK")


@pytest.fixture
def designer(maker: Maker) -> Maker:
    """Besides the Hat, two designs whose names begin alike."""
    maker.does("design", "add", "Winter cowl", *STATED)
    maker.does("design", "add", "Winter mitten", *STATED)
    return maker


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("winter cowl", "Winter cowl"), ("cowl", "Winter cowl"), ("winter cwol", "Winter cowl"),
        ("Winter cowel", "Winter cowl"), ("mit", "Winter mitten"),
        ("wintermitten", "Winter mitten"), ("ha", "Hat"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("command", ["need", "match"])
def test_a_design_misspelt_or_shortened_is_found_and_named(
    designer: Maker, command: str, typed: str, name: str
) -> None:
    said = designer.does(command, typed)

    assert said.out == designer.does(command, name).out
    assert said.err == ("" if typed.casefold() == name.casefold() else f"design: {name}\n")


@pytest.mark.parametrize("command", ["need", "match", "design show"])
def test_a_name_that_fits_two_designs_is_asked_about(designer: Maker, command: str) -> None:
    refused = designer(*command.split(), "winter")

    refused_in_one_line(refused, 2, "Winter cowl", "Winter mitten")


def test_a_name_that_fits_no_design_is_not_found(designer: Maker) -> None:
    refused_in_one_line(designer("need", "blanket"), 3, "blanket")


@pytest.mark.parametrize("command", ["need", "match"])
def test_the_only_design_need_not_be_named(maker: Maker, command: str) -> None:
    said = maker.does(command)

    assert said.out == maker.does(command, "Hat").out
    assert said.err == "design: Hat\n"


@pytest.mark.parametrize("command", ["need", "match"])
def test_which_of_several_designs_is_asked(designer: Maker, command: str) -> None:
    refused_in_one_line(designer(command), 2, "which one?", "Hat", "Winter cowl", "Winter mitten")


def test_without_any_design_the_way_out_is_named(nobody: Maker) -> None:
    refused_in_one_line(nobody("need"), 4, "--shape")


@pytest.mark.parametrize("typed", ["", "ha"])
def test_the_only_item_need_not_be_named(maker: Maker, typed: str) -> None:
    words = [typed] if typed else []

    assert maker.does("begin", *words).err == "item 1 (Hat)\n"
    assert maker.does("done", *words, "--as-planned").err.startswith("item 1 (Hat)\n")
    assert maker.does("tag", *words).err == "item 1 (Hat)\n"
    if not words:  # a name is that of the next one to make
        assert maker.does("cost").err.startswith("item 1 (Hat)\n")


def test_what_is_set_aside_for_the_only_item_is_released(maker: Maker) -> None:
    assert maker.does("release").err == "item 1 (Hat)\n"


def test_which_of_several_items_is_asked_and_nothing_written(designer: Maker) -> None:
    designer.does("aside", "Winter cowl", "1")
    before = designer.file.read_bytes()

    refused_in_one_line(designer("begin"), 2, "which one?", "1 (Hat)", "2 (Winter cowl)")

    assert designer.file.read_bytes() == before


def test_only_an_item_that_the_command_can_mean_is_taken(designer: Maker) -> None:
    designer.does("aside", "Winter cowl", "1")
    designer.does("begin", "1")

    assert designer.does("begin").err == "item 2 (Winter cowl)\n"


def test_an_item_of_just_this_name_is_never_another_of_nearly_this_name(maker: Maker) -> None:
    maker.does("design", "add", "Hats", *STATED)
    maker.does("aside", "Hats", "1")
    maker.does("begin", "Hat")

    refused_in_one_line(maker("begin", "Hat"), 4)


def test_at_a_terminal_the_item_is_chosen_by_number(designer: Maker) -> None:
    designer.does("aside", "Winter cowl", "1")

    status, screen = at_a_terminal(designer.file, "2", "begin")

    assert status == 0, screen
    assert "2  2 (Winter cowl)" in screen
    assert designer.does("begin").err == "item 1 (Hat)\n"


def test_at_a_terminal_a_lot_or_an_option_is_asked_about_too(maker: Maker) -> None:
    status, screen = at_a_terminal(maker.file, "2", "show", "hedgebell")
    assert status == 0, screen
    assert "'hedgebell' can mean:" in screen

    status, screen = at_a_terminal(maker.file, "1", "add", "Wrackline 50g/120m", "--paid", "€3,200")
    assert status == 0, screen
    assert screen.count("which one") == 1


def test_at_a_terminal_enter_alone_changes_nothing(designer: Maker) -> None:
    before = designer.file.read_bytes()

    status, screen = at_a_terminal(designer.file, "-", "aside", "winter", "1")

    assert status == 2, screen
    assert designer.file.read_bytes() == before


def test_without_a_rank_the_first_set_is_set_aside(maker: Maker) -> None:
    first = maker.ask("match", "Hat", "--contrast", "any")["proposals"][0]

    assert lots_picked(maker.ask("aside", "Hat")) == {
        role: of["lot_ref"] for role, of in first["roles"].items()
    }


def lots_picked(aside: dict[str, Any]) -> dict[str, str]:
    """The lot of each colour on the list to pick by."""
    return {
        skein["role"]: skein["lot_ref"] for place in aside["places"] for skein in place["skeins"]
    }


@pytest.fixture
def two_navies(nobody: Maker) -> Maker:
    """A shelf whose best set is of two navies, the third yarn being newer."""
    for line in ("Fell Wool DK 50g/120m navy, lot 1", "Hedgebell DK 50g/120m navy, lot 2"):
        nobody.does("add", line, "--bought", "2020-01-01")
    nobody.does(
        "design", "add", "Hat", "--stated", "A=80m", "--stated", "B=80m", "--thickness", "DK"
    )
    return nobody


def test_a_first_set_of_colours_that_look_alike_is_asked_about(two_navies: Maker) -> None:
    before = two_navies.file.read_bytes()

    refused_in_one_line(two_navies("aside", "Hat"), 4, "look alike", "navy + navy", "L1+L2")

    assert two_navies.file.read_bytes() == before
    two_navies.does("aside", "Hat", "--contrast", "any")


def test_at_a_terminal_the_set_is_chosen(two_navies: Maker) -> None:
    two_navies.does("add", "Skerry DK 50g/120m white, lot 3")

    status, screen = at_a_terminal(two_navies.file, "2", "aside", "Hat")

    assert status == 0, screen
    assert "navy + navy" in screen
    assert "white" in two_navies.ask("log", "--newest", "1")[0]["words"]
    (white,) = two_navies.ask("shelf", "white")
    assert white["set_aside_m"] > 0
