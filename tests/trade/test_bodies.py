"""Heads, hands and feet against the published figures they are copied from."""

from __future__ import annotations

import pytest

from stash.trade.bodies import (
    FOOT_AROUND,
    FOOT_LONG,
    HAND_AROUND,
    HAND_LONG,
    HEADS_UK90,
    HEADS_WHO,
    Person,
    Sex,
    Survey,
    grown_up,
    head,
)

BOY, GIRL = Sex.MALE, Sex.FEMALE


@pytest.mark.parametrize(
    ("months", "sex", "cm"),
    # WHO Child Growth Standards, head circumference for age, medians: birth, 3 months, 1 and 5 y.
    [(0, BOY, 34.4618), (0, GIRL, 33.8787), (3, BOY, 40.5008), (12, GIRL, 44.8940),
     (60, BOY, 50.7372), (60, GIRL, 49.9225)],
)  # fmt: skip
def test_small_heads_are_those_of_the_world_health_organization(
    months: int, sex: Sex, cm: float
) -> None:
    assert head(Person(months, sex)).mm / 10 == pytest.approx(cm, abs=1e-4)


@pytest.mark.parametrize(
    ("years", "sex", "cm"),
    # UK90 reference, medians.
    [(6, BOY, 53.168), (8, GIRL, 53.008), (12, BOY, 55.126), (16, GIRL, 55.321), (18, BOY, 57.260)],
)
def test_older_heads_are_those_of_uk90(years: int, sex: Sex, cm: float) -> None:
    assert head(Person(12 * years, sex)).mm / 10 == pytest.approx(cm, abs=1e-3)


def test_grown_ups_are_those_of_ansur() -> None:
    """ANSUR II, 2012, means in mm: head, hand and foot, men then women."""
    assert [head(Person(sex=sex)).mm for sex in Sex] == [574.4, 561.1]
    assert (HAND_AROUND, HAND_LONG) == ((212.3, 186.6), (193.3, 181.1))
    assert (FOOT_AROUND, FOOT_LONG) == ((252.0, 228.1), (271.2, 246.3))


def test_where_two_references_disagree_both_are_told() -> None:
    """At four years boys are 50.2 cm by WHO and 52.2 cm by UK90."""
    found = head(Person(48, BOY))

    assert found.mm == pytest.approx(502.1, abs=0.05)
    assert found.surveys == (Survey.WHO, Survey.UK90)
    assert found.other_mm == pytest.approx(522.1, abs=0.1)


def test_heads_grow_with_age() -> None:
    for sex in (BOY, GIRL, None):
        girths = [head(Person(months, sex)).mm for months in range(217)]

        assert girths == sorted(girths)


def test_between_two_ages_and_two_sexes_it_lies_half_way() -> None:
    first, second = HEADS_WHO[24], HEADS_WHO[36]

    assert head(Person(30, BOY)).mm == pytest.approx((first[0] + second[0]) / 2)
    assert head(Person(24)).mm == pytest.approx(sum(first) / 2)
    between = (HEADS_WHO[60][0] + HEADS_UK90[72][0]) / 2
    assert head(Person(66, BOY)).mm == pytest.approx(between)


def test_no_table_knows_a_childs_hand() -> None:
    assert grown_up(HAND_AROUND, Person(48)) is None


@pytest.mark.parametrize(
    ("weeks", "sex", "cm"),
    # UK90 reference, medians of babies born early: 28, 34 and 36 weeks.
    [(28, BOY, 26.7), (28, GIRL, 26.3), (34, GIRL, 31.3), (36, BOY, 32.8), (30, BOY, 28.4)],
)
def test_heads_of_babies_born_early_go_by_the_week(weeks: int, sex: Sex, cm: float) -> None:
    found = head(Person(0, sex, weeks))

    assert found.mm / 10 == pytest.approx(cm)
    assert found.surveys == (Survey.UK90,)


def test_a_baby_born_on_time_has_a_larger_head_than_any_born_early() -> None:
    """The two tables are of two surveys; between them nothing goes backwards."""
    each = [head(Person(0, None, weeks)).mm for weeks in range(28, 39)]

    assert each == sorted(each)
    assert each[-1] < head(Person(0)).mm
