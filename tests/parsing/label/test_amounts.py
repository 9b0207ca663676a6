"""Put-ups in a line. Ounces beside grams: NIST Handbook 44; counts of cones: ASTM D2260."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stash.errors import Ambiguous, Unreadable
from stash.measures.length import metres, yards
from stash.measures.mass import grams, ounces
from stash.measures.note import Note
from stash.parsing.label import read


@pytest.mark.parametrize(
    "line",
    ["50g/125m", "50 g, 125 m", "125m/50g", "50 gr = 125 mtr", "50g,125m", "50g per 125m",
     "50 g (1.75 oz) 125 m (137 yd)", "2.5 m/g, 50 g", "Nm 2/5, 50 g", "400 tex, 50 g"],
)  # fmt: skip
def test_a_full_skein_is_found_in_every_writing(line: str) -> None:
    found = read(f"Fern, {line}, navy").incoming
    assert (found.full_mass, found.full_length) == (grams(50), metres(125))


def test_a_cone_by_yards_a_pound_has_its_length() -> None:
    found = read("1 lb cone - 1200 ypp").incoming
    assert found.full_length == yards(1200)


@pytest.mark.parametrize(
    ("typed", "likely"),
    # HB 44: 50 g = 1.7637 oz and 100 g = 3.5274 oz, which bands print rounded.
    [("1.76 oz", 50), ("1.75 oz", 50), ("3.5 oz", 100), ("0.88 oz", 25)],
)
def test_rounded_ounces_are_kept_and_the_likely_weight_said(typed: str, likely: int) -> None:
    found = read(f"Fern, {typed}")
    assert found.incoming.full_mass == ounces(Fraction(typed.removesuffix(" oz")))
    assert [(n.kind, n.facts["likely_g"]) for n in found.notes] == [("rounded_ounces", likely)]


def test_honest_ounces_are_not_doubted() -> None:
    assert read("Fern, 4 oz").notes == ()


def test_about_marks_the_figure() -> None:
    assert read("Fern, about 200 yd").incoming.about
    assert not read("Fern, 200 yd").incoming.about


def test_two_weights_that_disagree_are_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        read("Fern, 100g/200m, 43g")
    assert asked.value.text == "100g/200m, 43g"
    assert asked.value.readings[0] == "43 g left of 100 g/200m,"


def test_a_range_is_asked_about() -> None:
    with pytest.raises(Ambiguous):
        read("Fern, 40-50 g left")


def test_a_total_is_shared_over_its_skeins() -> None:
    assert read("Fern, 100g/200m, 400 g total").incoming.count == 4
    assert read("Fern, 4 skeins, 400 g total").incoming.full_mass == grams(100)


def test_nothing_is_no_weight() -> None:
    with pytest.raises(Unreadable):
        read("Fern, 0 g")


def test_a_fineness_alone_is_no_amount() -> None:
    found = read("Fern, 4.6 y/g")
    assert (found.incoming.full_mass, found.incoming.full_length) == (None, None)
    assert Note("fineness_without_amount") in found.notes


@pytest.mark.parametrize("line", ["8 ply", "H/8 5mm", '22 sts = 4"', "wpi 11–13", "10 cm", "8 mm"])
def test_other_figures_are_never_yarn(line: str) -> None:
    found = read(f"Fern, {line}").incoming
    assert (found.full_mass, found.full_length, found.left, found.count) == (None, None, None, 1)
