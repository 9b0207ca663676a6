"""From cost to price and back, by hand, and to the coin."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from stash.costing.price import NO_MONEY, Costing, Terms, YarnCost, gifts_at
from stash.measures.mass import Mass, grams
from stash.measures.money import Money

HAT = (
    YarnCost(1, "A", grams(43), Money(598), known=True),
    YarnCost(4, "B", grams(13), NO_MONEY, known=True, gift=True),
)
TERMS = Terms(Money(80), Fraction(10, 3), Money(1200), Fraction(1, 10), Fraction(65, 1000))


def test_the_price_for_a_wage_is_made_of_its_parts() -> None:
    """By hand: (5.98 + 0.80 + 3 h 20 min at 12.00) and a tenth are 51.458, over 93.5 % 55.036."""
    wanted = Costing(HAT, TERMS).wanted

    assert wanted is not None
    assert wanted.price == Money(5504)
    assert (wanted.work, wanted.overhead, wanted.fees) == (Money(4000), Money(468), Money(358))


def test_the_lowest_price_pays_all_but_the_work() -> None:
    """By hand: 6.78 and a tenth are 7.458, over 93.5 % 7.977."""
    assert Costing(HAT, TERMS).floor.price == Money(798)


def test_three_times_the_materials_shows_what_it_pays() -> None:
    """By hand: 20.34 less 6.5 % are 19.018, less a tenth's part 17.289; 10.509 left for 3.33 h."""
    costing = Costing(HAT, TERMS)
    pays = costing.earns(costing.three_times)

    assert costing.three_times == Money(2034)
    assert pays is not None
    assert round(float(pays), 1) == 315.3


def test_without_hours_there_is_no_pay_and_without_a_wage_no_wanted_price() -> None:
    no_hours, no_wage = Terms(wage=Money(1200)), Terms(hours=Fraction(2))

    assert Costing(HAT, no_hours).earns(Money(2800)) is None
    assert Costing(HAT, no_hours).wanted is None
    assert Costing(HAT, no_wage).wanted is None


@given(
    st.builds(
        Terms,
        st.integers(0, 500).map(Money),
        st.integers(1, 6000).map(lambda minutes: Fraction(minutes, 60)),
        st.integers(0, 5000).map(Money),
        st.integers(0, 99).map(lambda n: Fraction(n, 100)),
        st.integers(0, 99).map(lambda n: Fraction(n, 100)),
    )
)
def test_the_wanted_price_pays_the_wage_and_a_coin_less_does_not(terms: Terms) -> None:
    """The way back, `earns`, is worked out by itself; a price is whole coins and rounded up."""
    costing = Costing(HAT, terms)
    wanted, work = costing.wanted, terms.hours * terms.wage.coins  # type: ignore[operator, union-attr]
    assert wanted is not None
    whole = Fraction(round(work)) if work.denominator == 1 else Fraction(wanted.work.coins)

    paid = costing.earns(wanted.price)
    less = costing.earns(wanted.price - Money(1))
    assert paid is not None
    assert less is not None
    assert paid * terms.hours >= whole > less * terms.hours  # type: ignore[operator]
    parts = (wanted.materials, wanted.work, wanted.overhead, wanted.fees)
    assert sum(parts, NO_MONEY) == wanted.price


@given(st.lists(st.tuples(st.integers(1, 90_000), st.booleans()), min_size=1, max_size=6))
def test_gifts_are_counted_together_and_shared_to_the_coin(yarn: list[tuple[int, bool]]) -> None:
    lines = [YarnCost(n, "A", Mass(mg), NO_MONEY, True, gift) for n, (mg, gift) in enumerate(yarn)]
    worth = [line.worth.coins for line in gifts_at(lines, Money(400))]
    mg = sum(mg for mg, gift in yarn if gift)

    assert abs(sum(worth) - mg * 400 / 100_000) <= 0.5
    assert all(coins == 0 or line.gift for coins, line in zip(worth, lines, strict=True))
