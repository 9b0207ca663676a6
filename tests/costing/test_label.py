"""Fibre content against the rules of each place."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.costing.label import Content, Group, Named, Part, Rules, content, to_a_hundred
from stash.measures.mass import Mass, grams
from stash.trade.fibres import FIBRES
from stash.trade.regain import Share, agreed_regain, shares_of


def printed(found: Content) -> dict[Named, float]:
    return {line.name: line.tenths / 10 for line in found.lines}


def of(place: Rules, *parts: tuple[int, str], functional: tuple[str, ...] = ()) -> Content:
    made = [Part(grams(mass), tuple(shares_of(blend))) for mass, blend in parts]
    return content(made, place, functional)


WORKED = ((60, "100% wool"), (40, "75% wool, 25% polyamide"))
SCRAPS = ((80, "100% acrylic"), (18, "100% cotton"), (2, "100% metallised fibre"))


@pytest.mark.parametrize(
    ("dry", "label"),
    [
        ({"wool": 10.30, "polyamide": 50.00, "cotton": 39.70}, {48.4, 40.6, 11.0}),
        ({"wool": 10.27, "viscose": 48.71, "cotton": 41.02}, {48.6, 40.8, 10.6}),
    ],
)
def test_largest_remainder_prints_what_the_regulation_prints(
    dry: dict[str, float], label: set[float]
) -> None:
    """Regulation (EU) No 1007/2011, Annex VIII, chapter 3: plain rounding would make 100.1."""
    agreed = {name: agreed_regain(Share(name, 1)) or 0.0 for name in dry}
    lost = {"cotton": 4.0}  # in cleaning, before the analysis
    moist = [m * (1 + (agreed[name] + lost.get(name, 0.0)) / 100) for name, m in dry.items()]
    shares = [Fraction(mass / sum(moist)) for mass in moist]

    tenths = to_a_hundred(shares, tenths=True)

    assert {n / 10 for n in tenths} == label
    assert sum(tenths) == 1000


def test_the_shares_are_of_the_grams_used() -> None:
    """Worked by hand: 60 g of wool and 40 g of 75/25 are 90 g of wool and 10 g of polyamide."""
    assert printed(of(Rules.EU, *WORKED)) == {"wool": 90, "polyamide": 10}
    assert printed(of(Rules.US, *WORKED)) == {"wool": 90, "nylon": 10}


def test_under_five_percent_the_us_says_other_fiber_and_the_eu_every_name() -> None:
    """15 U.S.C. 70b(b)(2), 16 CFR 303.3 and 303.42 (last in order); Regulation, Item 9(1)."""
    assert printed(of(Rules.US, *SCRAPS)) == {"acrylic": 80, "cotton": 18, Group.OTHER: 2}
    assert [*printed(of(Rules.US, *SCRAPS))][-1] is Group.OTHER
    assert printed(of(Rules.EU, *SCRAPS)) == {
        "acrylic": 80,
        "cotton": 18,
        "metallised fibre": 2,
    }


def test_at_five_percent_a_fibre_is_named() -> None:
    """16 CFR 303.6 names all fibres of 5 % or more."""
    at, under = of(Rules.US, (95, "100% cotton"), (5, "100% silk")), [(96, "100% cotton")]

    assert printed(at) == {"cotton": 95, "silk": 5}
    assert Group.OTHER in printed(of(Rules.US, *under, (4, "100% silk")))


def test_a_fibre_with_a_function_is_named_at_any_share() -> None:
    """15 U.S.C. 70b(b)(2): a clearly established function, as spandex for stretch."""
    parts = ((96, "100% cotton"), (4, "100% elastane"))

    assert printed(of(Rules.US, *parts)) == {"cotton": 96, Group.OTHER: 4}
    assert printed(of(Rules.US, *parts, functional=("elastane",))) == {"cotton": 96, "spandex": 4}


def test_a_little_wool_is_named_in_the_us() -> None:
    """15 U.S.C. 68(b), as the Federal Trade Commission told makers of hats in 2014."""
    assert printed(of(Rules.US, (97, "100% acrylic"), (3, "100% merino wool"))) == {
        "acrylic": 97,
        "wool": 3,
    }


@pytest.mark.parametrize("hair", ["alpaca", "mohair", "cashmere", "camel", "llama", "vicuna"])
def test_the_hair_that_counts_as_wool_in_the_us_is_named_at_any_share(hair: str) -> None:
    """The Act's list: Angora and Cashmere goat, camel, alpaca, llama, vicuna."""
    found = printed(of(Rules.US, (98, "100% acrylic"), (2, f"100% {hair}")))

    assert found == {"acrylic": 98, hair: 2}


@pytest.mark.parametrize("hair", ["angora", "yak"])
def test_other_hair_goes_by_the_five_percent_in_the_us(hair: str) -> None:
    found = of(Rules.US, (98, "100% acrylic"), (2, f"100% {hair}"))

    assert printed(found) == {"acrylic": 98, Group.OTHER: 2}


def test_the_uk_says_nylon_where_the_eu_says_polyamide() -> None:
    """Both names are lawful in the list that both keep (Annex I, number 30)."""
    for blend in ("75% wool, 25% polyamide", "75% wool, 25% nylon"):
        assert printed(of(Rules.UK, (40, blend))) == {"wool": 75, "nylon": 25}
        assert printed(of(Rules.EU, (40, blend))) == {"wool": 75, "polyamide": 25}


def test_one_fibre_under_two_names_is_one_line() -> None:
    parts = ((50, "80% wool, 20% nylon"), (50, "60% wool, 40% polyamide"))

    assert printed(of(Rules.EU, *parts)) == {"wool": 70, "polyamide": 30}
    assert printed(of(Rules.US, *parts)) == {"wool": 70, "nylon": 30}


def test_the_uk_names_every_fibre_as_the_eu_does() -> None:
    assert printed(of(Rules.UK, *SCRAPS)) == printed(of(Rules.EU, *SCRAPS))


def test_only_one_known_fibre_is_pure() -> None:
    """Regulation (EU) No 1007/2011, Item 7(1)."""
    assert of(Rules.EU, (50, "100% wool"), (30, "100% merino wool")).pure
    assert not of(Rules.EU, *WORKED).pure
    assert not of(Rules.EU, (50, "")).pure


def test_what_no_band_tells_is_not_known() -> None:
    """16 CFR 303.14: the known shares, and the rest as unknown fibers."""
    found = of(Rules.US, (75, "100% wool"), (25, ""))

    assert printed(found) == {"wool": 75, Group.UNKNOWN: 25}
    assert found.unknown == Fraction(1, 4)


def test_what_a_band_leaves_open_is_not_known_either() -> None:
    assert printed(of(Rules.EU, (50, "80% wool"))) == {"wool": 80, Group.UNKNOWN: 20}


def test_other_fibres_of_a_band_stand_last_and_together() -> None:
    found = of(Rules.EU, (50, "55% wool, 45% other fibre"), (50, "70% silk, 30% other fibre"))

    assert [line.name for line in found.lines] == ["silk", "wool", Group.OTHER]
    assert found.other is not None
    assert found.other.share == Fraction(375, 1000)


def test_tenths_are_printed_where_a_fibre_would_vanish() -> None:
    found = of(Rules.EU, (249, "100% wool"), (1, "100% silk"))
    speck = of(Rules.EU, (9999, "100% wool"), (1, "100% silk"))

    assert printed(found) == {"wool": 99.6, "silk": 0.4}
    assert (printed(speck), speck.left_off) == ({"wool": 100.0}, ("silk",))


BLENDS = st.lists(
    st.tuples(st.sampled_from([f.name for f in FIBRES] + ["other fibre"]), st.integers(1, 60)),
    max_size=4,
).map(lambda said: tuple(Share(name, percent / 100) for name, percent in said))


@given(
    st.lists(st.builds(Part, st.integers(1, 200_000).map(Mass), BLENDS), min_size=1, max_size=5),
    st.sampled_from([*Rules]),
)
def test_a_label_always_makes_exactly_a_hundred(parts: list[Part], place: Rules) -> None:
    found = content(parts, place)
    named = [line for line in found.lines if not isinstance(line.name, Group)]
    named = [line for line in named if line.name != "fibres not known"]

    assert sum(line.tenths for line in found.lines) == 1000
    assert [line.share for line in named] == sorted((x.share for x in named), reverse=True)
    assert all(abs(line.tenths / 1000 - line.share) < Fraction(1, 100) for line in found.lines)
