"""What can hurt whom an item is for: by what it is said, by whom it fits, by its size."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from requirements.some_designs import SC, cm, gauge

from stash.measures.length import Length
from stash.measures.note import Note
from stash.parsing.design.fabric import fabric
from stash.requirements.design.bands import Band, Rows
from stash.requirements.design.cautions import (
    CHILD,
    COT,
    FLAME,
    FLOATS,
    HAZARD,
    PERHAPS_CHILD,
    cautions,
    warnings,
)
from stash.requirements.design.design import Design
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.fabric import PLAIN, Fabric
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.design.sizing import fitted
from stash.requirements.design.whom import Whom, by_fit, by_size
from stash.trade.bodies import Person, Sex

CORD = Extra(Kind.CORD, "A", (cm(40),))
FRINGE = Extra(Kind.FRINGE, "A", (cm(8),))


def made(shape: Shape, across: float, up: float, *extras: Extra, worked: Fabric = PLAIN) -> Design:
    foot = cm(15) if shape is Shape.SOCK else None
    size = Size(cm(across), cm(up), foot)
    return Design(shape=shape, size=size, gauge=gauge(20, 28), fabric=worked, extras=extras)


# Names of sizes, and how older plans keep what a size was made from.
@pytest.mark.parametrize(
    ("fits", "whom"),
    [
        ("newborn: head 34.2 cm", Whom.BABY), ("newborn girl: head 33.9 cm", Whom.BABY),
        ("girl of 18 months: head 46.2 cm", Whom.BABY), ("child of 30 months: …", Whom.CHILD),
        ("child of 1 years: …", Whom.BABY), ("boy of 4 years: head 50.2 cm", Whom.CHILD),
        ("teen", Whom.CHILD), ("woman: head 56.1 cm", Whom.ADULT), ("man: …", Whom.ADULT),
        ("a head of 56.0 cm", None), ("", None),
    ],
)  # fmt: skip
def test_by_the_name_of_its_size(fits: str, whom: Whom | None) -> None:
    assert by_fit(fits) is whom


@pytest.mark.parametrize(
    ("person", "whom"),
    [(Person(0), Whom.BABY), (Person(23), Whom.BABY), (Person(24, Sex.MALE), Whom.CHILD),
     (Person(), Whom.ADULT), (cm(56), None)],
)  # fmt: skip
def test_by_whom_it_fits(person: Person | Length, whom: Whom | None) -> None:
    assert by_fit(fitted(Shape.ROUND_HAT, person, None, None).made_from) is whom


@pytest.mark.parametrize(
    ("shape", "across", "whom"),
    [
        (Shape.ROUND_HAT, 38, Whom.BABY), (Shape.FLAT_HAT, 48, Whom.CHILD),
        (Shape.SIDEWAYS_HAT, 54, Whom.ADULT), (Shape.HEADBAND, 46, Whom.CHILD),
        (Shape.MITTEN, 11, Whom.BABY), (Shape.MITTEN, 15, Whom.CHILD),
        (Shape.MITTEN, 19, Whom.ADULT), (Shape.SCARF, 12, None), (Shape.BLANKET, 60, None),
        (Shape.COWL, 50, None),
    ],
)  # fmt: skip
def test_by_its_size_where_that_tells(shape: Shape, across: float, whom: Whom | None) -> None:
    assert by_size(shape, Size(cm(across), cm(20))) is whom


@pytest.mark.parametrize(("foot", "whom"), [(10, "baby"), (16, "child"), (24, "adult")])
def test_a_sock_tells_by_its_foot(foot: float, whom: str) -> None:
    assert by_size(Shape.SOCK, Size(cm(20), cm(20), cm(foot))) == whom


def test_what_is_said_outranks_what_its_size_tells() -> None:
    doll = replace(made(Shape.ROUND_HAT, 30, 12, CORD), whom=Whom.ADULT)

    assert cautions(doll) == ()
    assert CHILD in cautions(doll, Whom.CHILD)


@pytest.mark.parametrize("kind", [Kind.CORD, Kind.CHAIN, Kind.POMPOM, Kind.TASSEL, Kind.FRINGE])
def test_whatever_hangs_or_comes_off_is_cautioned_for_a_child(kind: Kind) -> None:
    small = made(Shape.MITTEN, 15, 18, Extra(kind, "A", (cm(6),)))

    assert cautions(small)[0] == CHILD


def test_where_nothing_tells_whom_it_is_for_the_caution_says_if() -> None:
    assert cautions(made(Shape.BLANKET, 60, 80, CORD)) == (PERHAPS_CHILD,)
    assert cautions(made(Shape.BLANKET, 60, 80)) == ()


def test_a_childs_scarf_is_a_tie_itself() -> None:
    assert cautions(made(Shape.SCARF, 12, 90), Whom.CHILD) == (CHILD,)
    assert cautions(made(Shape.SCARF, 12, 90), Whom.ADULT) == ()


def test_a_babys_item_is_kept_out_of_the_cot() -> None:
    assert cautions(made(Shape.BLANKET, 60, 80), Whom.BABY) == (COT,)
    assert COT in cautions(made(Shape.ROUND_HAT, 36, 15))


@pytest.mark.parametrize(
    ("worked", "bands", "told"),
    [
        ("stranded", (), True),
        ("stockinette", (Band("B", Rows(6), share=Fraction(1, 3)),), True),
        ("stockinette", (Band("B", Rows(6)),), False),
        ("tapestry", (), False),
    ],
)
def test_floats_inside_a_babys_mitten_catch_fingers(
    worked: str, bands: tuple[Band, ...], told: bool
) -> None:
    """In crochet the second strand lies inside the stitches."""
    mitten = replace(made(Shape.MITTEN, 11, 12, worked=fabric(worked)), bands=bands)

    assert (FLOATS in cautions(mitten)) is told
    assert FLOATS not in cautions(mitten, Whom.CHILD)


@pytest.mark.parametrize(
    ("yarns", "told"),
    [
        ("Cloud 70% mohair", True), ("Brushed Alpaca 100% alpaca", True), ("Fell Wool", False),
        ("Furrow 100% cotton", False), ("Angora Mist", True), ("Plush Home", True),
    ],
)  # fmt: skip
def test_brushed_yarn_is_kept_from_flames(yarns: str, told: bool) -> None:
    assert (FLAME in cautions(made(Shape.COWL, 60, 30, worked=SC), Whom.ADULT, yarns)) is told


def test_fringe_is_kept_from_flames_whomever_it_is_for() -> None:
    for whom in Whom:
        assert FLAME in cautions(made(Shape.SCARF, 20, 150, FRINGE), whom)


def test_the_tag_warns_of_small_parts_on_a_grown_ups_item_too() -> None:
    scarf = made(Shape.SCARF, 20, 150, FRINGE)

    (small, _) = warnings(scarf, Whom.ADULT)
    assert small == Note("small_parts", parts=(Kind.FRINGE,))
    assert warnings(scarf)[0] == warnings(scarf, Whom.CHILD)[0] == HAZARD
