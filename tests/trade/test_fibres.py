"""Regain against Regulation (EU) No 1007/2011, Annex IX, as published in 2011."""

from __future__ import annotations

import re

import pytest

from stash.trade.fibres import (
    FIBRES,
    SAYS_FIBRE_ALONE,
    content,
    fibre_named,
    fibre_pattern,
    meant_by,
)


@pytest.mark.parametrize(
    ("name", "number", "regain"),
    [
        ("wool", 1, 17.00), ("silk", 4, 11.00), ("cotton", 5, 8.50), ("linen", 7, 12.00),
        ("hemp", 8, 12.00), ("ramie", 14, 8.50), ("acetate", 19, 9.00), ("modal", 22, 13.00),
        ("viscose", 25, 13.00), ("acrylic", 26, 2.00), ("polyamide", 30, 6.25),
        ("lyocell", 33, 13.00), ("polyester", 35, 1.50), ("elastane", 43, 1.50),
        ("paper", 48, 13.75),
    ],
)  # fmt: skip
def test_a_fibre_has_the_number_and_regain_of_the_annex(
    name: str, number: int, regain: float
) -> None:
    fibre = fibre_named(name)
    assert fibre is not None
    assert (fibre.number, fibre.regain) == (number, regain)


def test_combed_wool_and_filament_keep_the_second_printed_value() -> None:
    wool, cotton, nylon = (fibre_named(n) for n in ("wool", "cotton", "nylon"))
    assert wool is not None
    assert cotton is not None
    assert nylon is not None
    assert [f.other_regain for f in (wool, cotton, nylon)] == [18.25, 10.50, 5.75]


def test_every_number_of_the_annex_is_there() -> None:
    assert {fibre.number for fibre in FIBRES} == set(range(1, 49))


@pytest.mark.parametrize(
    ("typed", "name"),
    [("acr", "acrylic"), ("wl", "wool"), ("nyl", "nylon"), ("nylon", "nylon"),
     ("polyamid", "polyamide"),
     ("Merino", "merino wool"), ("bamboo", "viscose"), ("rayon", "viscose"), ("nyl.", "nylon"),
     ("kid mohair", "mohair"), ("baby  alpaca", "alpaca"), ("flax", "linen")],
)  # fmt: skip
def test_what_makers_write_is_understood(typed: str, name: str) -> None:
    # Abbreviations: common practice, no source. Bamboo is viscose under the Regulation's names.
    fibre = fibre_named(typed)
    assert fibre is not None
    assert fibre.name == name


def test_wool_and_hair_may_felt_and_nothing_else_does() -> None:
    # Annex I: numbers 1 to 3 are wool and animal hair; silk is animal but a filament.
    assert {f.number for f in FIBRES if f.animal} == {1, 2, 3}


def test_no_word_means_two_fibres() -> None:
    words = [word for fibre in FIBRES for word in {fibre.name, *fibre.words}]
    assert len(words) == len(set(words))


def test_words_that_speak_alone_are_fibres() -> None:
    assert all(fibre_named(word) for word in SAYS_FIBRE_ALONE)


def test_the_longest_name_is_found_first() -> None:
    found = re.search(fibre_pattern(), "superwash merino wool")
    assert found is not None
    assert found["fibre"] == "merino wool"


def test_what_is_no_fibre_is_none() -> None:
    assert fibre_named("navy") is None


@pytest.mark.parametrize(
    ("blend", "names", "whole"),
    [
        ("75% wool, 25% polyamide", {"wool", "polyamide"}, True),
        ("75% wool, 20% polyamide", {"wool", "polyamide"}, False),
        ("95% wool, 5% other fibre", {"wool"}, False),
        ("superwash merino and nylon", {"merino wool", "nylon"}, True),
        ("50% moonbeam, 50% silk", {"silk"}, False),
        ("", set(), False),
    ],
)
def test_a_blend_as_it_is_kept_tells_its_fibres(blend: str, names: set[str], whole: bool) -> None:
    found = content(blend)

    assert (found.names, found.whole) == (names, whole)


# Regulation (EU) No 1007/2011, Annex I: number 1 is wool, whatever the breed; 2 and 3 other hair.
def test_without_wool_is_without_merino_too_but_not_without_hair() -> None:
    assert meant_by("Wool") == {"wool", "merino wool"}
    assert meant_by("nylon") == meant_by("polyamide") == {"polyamide", "nylon"}
    assert {"alpaca", "silk", "wool"} <= meant_by("animal")
    assert meant_by("moonbeam") == frozenset()
