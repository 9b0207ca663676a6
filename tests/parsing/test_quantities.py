"""Amounts as typed. Factors: NIST Handbook 44 appendix C and SP 811 B.8. The worked accounts of
makers (public threads) are cases, not standards."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures import written
from stash.measures.length import Length
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.parsing import quantities as q


@pytest.mark.parametrize(
    ("text", "um"),
    # HB 44: yard 0.9144 m, foot 0.3048 m, inch 25.4 mm, all exact.
    [("1 yd", 914_400), ("1 ft", 304_800), ("1 in", 25_400), ("1 m", 1_000_000),
     ("1 cm", 10_000), ("1 mm", 1000)],
)  # fmt: skip
def test_lengths_use_the_exact_factors(text: str, um: int) -> None:
    assert q.length(text) == Length(um)


def test_an_ounce_and_a_pound_are_the_avoirdupois_ones() -> None:
    # HB 44: ounce 28.349 523 125 g, pound 453.592 37 g.
    assert q.mass("1000 oz") == Mass(28_349_523)
    assert q.mass("1 lb") == Mass(453_592)
    assert q.mass("16 oz") == q.mass("1 lb")


@pytest.mark.parametrize(
    "text",
    ["50g", "50 G", "50 gr", "50gm", "50 grams", "50 gramme", "50 g.", "0.05 kg", "0,05 kg",
     "2x25g", "2 × 25 g", "25g x 2", "50\u00a0g"],
)  # fmt: skip
def test_fifty_grams_in_every_spelling(text: str) -> None:
    assert q.mass(text) == grams(50)


@pytest.mark.parametrize("text", ["120yd", "120 yds", "120y", "120 yrds", "120 YARDS", "120 yrd"])
def test_a_hundred_and_twenty_yards_in_every_spelling(text: str) -> None:
    assert q.length(text) == Length(120 * 914_400)


@pytest.mark.parametrize(
    "text", ["110m", "110 mts", "110 mtr", "110 metres", "110 meters", "110 M"]
)
def test_a_hundred_and_ten_metres_in_every_spelling(text: str) -> None:
    assert q.length(text) == Length(110_000_000)


@pytest.mark.parametrize("text", ['8"', "8in", "8 inches", "8 inch", "8”", "20.32cm", "20,32 cm"])
def test_eight_inches_of_fabric_in_every_spelling(text: str) -> None:
    assert q.length(text) == Length(203_200)


def test_fractions_and_falling_units_add_up() -> None:
    assert q.mass("1½ oz") == q.mass("1 1/2 oz") == q.mass("1.5oz")
    assert q.mass("1 lb 4 oz") == q.mass("20 oz")
    assert q.length("5 ft 3 in") == q.length("63 in")


@pytest.mark.parametrize(
    "text", ["8 ply", "4 ply", "50 g / 120 m", "5m 5m", "-5g", "g", "", "12 xg"]
)
def test_nothing_is_taken_for_an_amount_that_is_none(text: str) -> None:
    # A general unit grammar reads `8 ply` as eight pico-light-years; ours must not.
    with pytest.raises(Unreadable):
        q.amount(text)


@pytest.mark.parametrize("text", ["200", "~200"])
def test_a_bare_number_is_asked_about(text: str) -> None:
    with pytest.raises(Ambiguous) as asked:
        q.amount(text)
    assert asked.value.readings == ("200 g", "200 m", "200 yd")


def test_a_figure_that_may_be_thousands_is_asked_about_with_its_unit() -> None:
    with pytest.raises(Ambiguous) as asked:
        q.length("1.200 yds")
    assert asked.value.readings == ("1200 yds", "1.2 yds")
    with pytest.raises(Ambiguous) as asked:
        q.put_up("1.200 m/g")
    assert asked.value.readings == ("1200 m/g", "1.2 m/g")


def test_a_weight_is_no_length() -> None:
    with pytest.raises(Unreadable) as refused:
        q.length("200 g")
    assert refused.value.kind == "no_length"
    with pytest.raises(Unreadable) as refused:
        q.mass("200 m")
    assert refused.value.kind == "no_weight"


def test_a_count_is_kept_apart_from_what_each_is() -> None:
    assert q.counted("2x50g") == (2, grams(50))
    assert q.counted("2 × 100 g") == (2, grams(100))
    assert q.counted("50g") == (1, grams(50))
    assert q.amount("2x50g") == grams(100)


@pytest.mark.parametrize(
    "text",
    ["50g/125m", "50 g = 125 m", "125m/50g", "50g, 125 m", "50 g (1.75 oz), 125 m (136 yd)",
     "125 m per 50 g", "50g - 125m"],
)  # fmt: skip
def test_a_pair_is_read_in_any_order(text: str) -> None:
    assert q.put_up(text) == PutUp(grams(50), Length(125_000_000))


def test_an_american_pair_keeps_its_own_figures() -> None:
    # 3.5 oz / 220 yd = 99.223 g / 201.168 m (computed from HB 44).
    assert q.put_up("3.5 oz, 220 yds") == PutUp(Mass(99_223), Length(201_168_000))


@pytest.mark.parametrize("text", ["100g", "110 mts / 120 yrds", "0g/5m", "100g/200m nice", ""])
def test_half_a_pair_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        q.put_up(text)


def test_a_pair_without_units_is_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        q.put_up("100/200")
    assert asked.value.readings == ("100g/200m", "100g/200yd")


def test_two_lengths_that_disagree_are_asked_about() -> None:
    with pytest.raises(Ambiguous):
        q.put_up("100g/200m/300m")


@pytest.mark.parametrize(
    ("text", "m_per_100g"),
    # From HB 44: yd/oz is 0.0322545 m/g, yd/lb 0.2015907 m/100 g; kept to the whole milligram.
    [("1 yd/oz", 3.22545), ("1000 ypp", 201.5907), ("2.5 m/g", 250.0), ("4.6 y/g", 420.624)],
)
def test_a_fineness_is_a_pair(text: str, m_per_100g: float) -> None:
    assert q.density(text).m_per_100g == pytest.approx(m_per_100g, rel=2e-5)
    assert q.put_up(text) == q.density(text)


def test_part_of_a_skein_as_a_length() -> None:
    # Maker's account, public thread: 70 g of 100 g / 210 yd is 147.0 yd = 134.4 m.
    left = q.put_up("100 g / 210 yd").length_of(q.mass("70 g"))
    assert left.yd == pytest.approx(147.0, abs=1e-6)
    assert left.m == pytest.approx(134.4, abs=0.05)


def test_part_of_a_skein_in_ounces() -> None:
    # Maker's account, public thread: 3.36 oz of 3.5 oz / 195 yd is 187.2 yd.
    left = q.put_up("3.5 oz / 195 yd").length_of(q.mass("3.36 oz"))
    assert left.yd == pytest.approx(187.2, abs=0.005)


def test_one_skein_with_three_uses() -> None:
    # Maker's account, public thread: 100 g / 220 yd less 15 g and 72 g leaves 13 g = 28.6 yd.
    pair = q.put_up("100 g / 220 yd")
    left = pair.mass - q.mass("15 g") - q.mass("72 g")
    assert left == grams(13)
    assert pair.length_of(left).yd == pytest.approx(28.6, abs=1e-5)
    assert q.mass("72 g") - left == grams(59)


@pytest.mark.parametrize("yards", [108, 113])
def test_same_grams_and_fewer_yards(yards: int) -> None:
    # Maker's account, public thread: 25 g / 93 yd is 14-18 % short of 25 g / 108-113 yd.
    have = q.put_up("25 g / 93 yd").length
    want = q.length(f"{yards} yd")
    assert 0.138 < (want - have).um / want.um < 0.18


@given(st.integers(0, 10**9), st.sampled_from(["g", "kg", "oz", "lb"]))
def test_a_weight_shown_reads_back(mg: int, unit: str) -> None:
    assert q.mass(written.show_mass(Mass(mg), unit)) == Mass(mg)


@given(st.integers(0, 10**12), st.sampled_from(["m", "cm", "mm", "yd", "ft", "in"]))
def test_a_length_shown_reads_back(um: int, unit: str) -> None:
    assert q.length(written.show_length(Length(um), unit)) == Length(um)


def test_a_finite_figure_is_shown_as_it_was_typed() -> None:
    assert written.show_mass(q.mass("85.05 g"), "g") == "85.05 g"
    assert written.show_mass(q.mass("3.5 oz"), "oz") == "3.5 oz"
    assert written.show_length(q.length("220 yd"), "yd") == "220 yd"


@given(st.text(alphabet="0123456789.,/½ xgmyodzinplb\"'×-", max_size=16))
def test_any_text_is_an_amount_or_bad_input(text: str) -> None:
    for reader in (q.amount, q.mass, q.length, q.put_up, q.density):
        try:
            found = reader(text)
        except BadInput:
            continue
        assert isinstance(found, Mass | Length | PutUp)


@given(st.integers(1, 500), st.integers(1, 2000))
def test_a_pair_means_what_its_halves_mean(weight: int, long: int) -> None:
    pair = q.put_up(f"{weight}g/{long}yd")
    assert pair == PutUp(q.mass(f"{weight} g"), q.length(f"{long} yd"))
    assert Fraction(pair.length.um, 914_400) == long
