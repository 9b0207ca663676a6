"""From whom it fits to how large it is, against makers' charts and published measures."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from requirements.some_designs import cm

from stash.errors import Refusal
from stash.measures.length import Length, inches
from stash.requirements.design.shapes import Shape
from stash.requirements.design.sizing import BodyPart, MadeToFit, fitted, kept_as, sides_of
from stash.trade.bodies import Person, Sex, Survey

HAT = Shape.ROUND_HAT
WOMAN, MAN = Person(sex=Sex.FEMALE), Person(sex=Sex.MALE)


@pytest.mark.parametrize(
    ("head", "around", "tall"),
    # A maker's chart (common practice), newborn to child: head, snug hat, crown to ear base, in.
    [(13, (12, 12.5), (4.5, 5.5)), (14, (13, 13.5), (5.5, 6)), (15, (14, 14.5), (6, 6.25)),
     (16, (15, 15.25), (6.25, 6.5)), (17, (16, 16.25), (6.75, 6.85)), (18, (17, 17.25), (7.2, 7.5)),
     (19, (18, 18.25), (7.5, 7.75)), (20, (19, 19), (7.75, 8))],
)  # fmt: skip
def test_a_hat_for_a_measured_head_is_as_a_chart_has_it(
    head: int, around: tuple[float, float], tall: tuple[float, float]
) -> None:
    sides = fitted(HAT, inches(head), None, None).sides

    assert around[0] - 0.1 <= sides["around"].m / 0.0254 <= around[1] + 0.1
    assert tall[0] - 0.1 <= sides["tall"].m / 0.0254 <= tall[1] + 0.1


@pytest.mark.parametrize("whom", [WOMAN, MAN])
def test_a_grown_ups_hat_is_as_much_smaller_as_charts_say(whom: Person) -> None:
    """ANSUR II heads of 56.1 and 57.4 cm; hats 5 to 10 % or 1 to 2 in smaller (three charts)."""
    head = {WOMAN: 56.11, MAN: 57.44}[whom]
    around = fitted(HAT, whom, None, None).sides["around"].m * 100

    assert head * 0.90 <= around <= head * 0.951


def test_ease_is_a_share_or_a_length() -> None:
    assert fitted(HAT, cm(56), Fraction(-1, 10), None).sides["around"] == cm(50.4)
    assert fitted(HAT, cm(56), -cm(3), None).sides["around"] == cm(53)
    assert fitted(HAT, cm(56), Fraction(0), None).sides["around"] == cm(56)


def test_a_brim_is_added_to_the_height() -> None:
    plain, folded = (fitted(HAT, cm(56), None, brim) for brim in (None, cm(6)))

    assert folded.sides["tall"] - plain.sides["tall"] == cm(6)


def test_mittens_and_socks_follow_hands_and_feet() -> None:
    """ANSUR II women: hand 186.6 by 181.1 mm, foot 228.1 by 246.3 mm; a cuff of 7 cm."""
    mitten = fitted(Shape.MITTEN, WOMAN, None, None).sides
    sock = fitted(Shape.SOCK, WOMAN, None, None).sides

    assert mitten == {"around": cm(18.7), "tall": cm(25.1)}
    assert sock == {"around": cm(20.5), "long": cm(24.6)}


def test_it_says_what_it_was_made_from() -> None:
    """WHO 2007: at two years a head is 47.7 cm around."""
    child = fitted(HAT, Person(24), None, None).made_from
    measured = fitted(HAT, cm(56), cm(1), None).made_from

    assert child == MadeToFit(
        BodyPart.HEAD, Length(477_191), Fraction(-5, 100), Person(24), (Survey.WHO,)
    )
    assert measured == MadeToFit(BodyPart.HEAD, cm(56), cm(1))


@pytest.mark.parametrize(
    ("shape", "whom", "kind"),
    [
        (Shape.SCARF, WOMAN, "made_to_no_measure"),
        (Shape.SOCK, Person(48), "no_table_of_children"),
        (Shape.MITTEN, Person(48), "no_table_of_children"),
    ],
)
def test_what_no_table_knows_is_refused(shape: Shape, whom: Person, kind: str) -> None:
    with pytest.raises(Refusal) as refused:
        fitted(shape, whom, None, None)
    assert refused.value.kind == kind


def test_ease_that_cannot_be_meant_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        fitted(HAT, cm(56), -cm(50), None)
    assert refused.value.kind == "too_much_ease"


@given(st.integers(0, 216), st.integers(0, 100))
def test_an_older_head_never_has_a_smaller_hat(months: int, more: int) -> None:
    younger = fitted(HAT, Person(months), None, None).sides
    older = fitted(HAT, Person(min(216, months + more)), None, None).sides

    assert all(younger[side] <= older[side] for side in younger)


@given(st.dictionaries(st.sampled_from(["around", "tall", "long"]), st.integers(1, 10**7)))
def test_a_size_is_kept_exactly(sides: dict[str, int]) -> None:
    lengths = {name: Length(um) for name, um in sides.items()}

    assert sides_of(kept_as(lengths)) == lengths
