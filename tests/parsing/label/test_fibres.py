"""Blends; names under Regulation (EU) No 1007/2011, abbreviations common practice, no source."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stash.errors import Ambiguous, Unreadable
from stash.measures.note import Note
from stash.parsing.label import read


@pytest.mark.parametrize(
    ("line", "fibre"),
    [
        ("75 acr 20 wl 5 other", "75% acrylic, 20% wool, 5% other fibre"),
        ("75% wool, 25% nylon", "75% wool, 25% nylon"),
        ("25% nylon 75% wool", "75% wool, 25% nylon"),
        ("cotton 60%, acrylic 40%", "60% cotton, 40% acrylic"),
        ("cotton 60% acrylic 40%", "60% cotton, 40% acrylic"),
        ("85% wool/15% nylon", "85% wool, 15% nylon"),
        ("80/20 wool/nylon", "80% wool, 20% nylon"),
        ("wool nylon 75/25", "75% wool, 25% nylon"),
        ("75/20/5 acrylic/wool/nylon", "75% acrylic, 20% wool, 5% nylon"),
        ("25% silk, rest merino", "75% merino wool, 25% silk"),
        ("100% superwash merino", "100% merino wool"),
        ("47,5% silk 52,5% kid mohair", "52.5% mohair, 47.5% silk"),
        ("100% viscose from bamboo", "100% viscose"),
    ],
)
def test_a_blend_is_read_largest_first(line: str, fibre: str) -> None:
    assert read(f"Fern, {line}, 50g").incoming.fibre == fibre


@pytest.mark.parametrize(
    ("words", "fibre"),
    [
        ("superwash wool", "wool"),
        ("wool superwash", "wool"),
        ("Superwash Merino", "merino wool"),
        ("superwash-wool", "wool"),
        ("super wash wool", "wool"),
        ("pure superwash wool", "100% wool"),
        ("superwash merino/nylon 75/25", "75% merino wool, 25% nylon"),
        ("75/25 superwash merino/nylon", "75% merino wool, 25% nylon"),
        ("75% super-wash wool, 25% nylon", "75% wool, 25% nylon"),
        ("wool 75%, nylon 25%, superwash", "75% wool, 25% nylon"),
    ],
)
def test_superwash_is_care_wherever_it_stands_in_a_blend(words: str, fibre: str) -> None:
    found = read(f"Puddle Aran 100g/180m navy {words} lot 3").incoming

    assert found.fibre == fibre
    assert found.care.lower().replace(" ", "").replace("-", "") == "superwash"
    assert (found.colour, found.lot) == ("navy", "3")


def test_superwash_in_a_name_is_care_too() -> None:
    found = read("Puddle superwash aran 100g/180m navy").incoming

    assert (found.name, found.care) == ("Puddle superwash aran", "superwash")


def test_what_is_said_of_the_wash_is_kept_as_care() -> None:
    assert read("Fern, 75% superwash merino, 25% nylon, 50g").incoming.care == "superwash"
    assert read("Fern, care: dry flat; 100% superwash wool, 50g").incoming.care == (
        "superwash, dry flat"
    )


def test_shares_that_do_not_fill_a_hundred_are_pointed_out_and_kept() -> None:
    found = read("Fern, 60% cotton 38% acrylic")
    assert found.incoming.fibre == "60% cotton, 38% acrylic"
    assert Note("odd_blend", percent=Fraction(98)) in found.notes


def test_shares_without_fibres_are_asked_about() -> None:
    with pytest.raises(Ambiguous):
        read("Fern, 80/20")
    with pytest.raises(Unreadable):
        read("Fern, 50/50")


def test_numbers_beside_fibres_are_no_blend_unless_they_fill_it() -> None:
    with pytest.raises(Ambiguous):
        read("Fern, 20 wool, 50 g")


def test_a_fibre_without_a_share_is_taken_with_a_doubt() -> None:
    found = read("Fern, merino, 50g")
    assert found.incoming.fibre == "merino wool"
    assert Note("fibre_without_shares", fibre="merino wool") in found.notes


def test_of_a_blend_with_a_fibre_not_understood_none_is_kept_as_a_share() -> None:
    found = read("Fern, 60% wool 40% stardust")
    assert (found.incoming.fibre, found.incoming.note) == ("", "60% wool 40% stardust")
    assert Note("unknown_fibre", fibre="stardust") in found.notes


def test_a_discount_is_no_fibre() -> None:
    assert read("Fern, 10% off, 50g").incoming.fibre == ""
