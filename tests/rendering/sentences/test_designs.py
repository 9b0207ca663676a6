"""What is said of a design, whole sentences chosen for their optional parts."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import pytest

from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.figures import Units
from stash.rendering.sentences.designs import band_words, made_to_fit, person, stripes_words
from stash.rendering.sentences.say import sentence
from stash.requirements.design.bands import Band, Place, Rows, Stitches, Stripes
from stash.requirements.design.cautions import ALL
from stash.requirements.design.extras import Kind
from stash.requirements.design.shapes import Crown, Shape, Start
from stash.requirements.design.sizing import BodyPart, fitted
from stash.trade.bodies import Person, Sex

WOMAN = Person(sex=Sex.FEMALE)


@pytest.fixture
def in_us_units() -> Iterator[None]:
    figures.use(Units("yd", "oz", "in"))
    yield
    figures.use(Units())


def cm(length: float) -> Length:
    return Length(round(10_000 * length))


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (
            Refusal("design_has_no_size", shape=Shape.SOCK, sides=("around", "tall", "long")),
            "how large is the sock? add its size, as in --size woman --tall 15cm, "
            "or --around, --tall and --long",
        ),
        (
            Refusal("design_has_no_size", shape=Shape.SCARF, sides=("wide", "long")),
            "how large is the scarf? add its size, as in --wide 20cm --long 150cm",
        ),
        (
            Refusal("wrong_start", shape=Shape.SCARF, start=Start.CROWN, starts=()),
            "a scarf does not begin at its crown; leave out --from",
        ),
        (
            Refusal("wrong_crown", shape=Shape.ROUND_HAT, crown="x", crowns=tuple(Crown)),
            "a round hat has no x crown; type --crown flat or decreased or gathered",
        ),
        (
            Refusal("too_low_for_crown", crown=Crown.FLAT, least_um=Fraction(86_400)),
            "a flat crown this wide takes 8.6 cm of height by itself: make it taller, or type "
            "--crown gathered",
        ),
        (
            Refusal("extent_cannot_be_placed", extent=Stitches(5), counted_in=Rows),
            "a band of 5 sts has no place here: rows run this way; type a length or rows, "
            "as in 'B 4 rows', or turn the band with or without `upright`",
        ),
        (
            Refusal("band_does_not_fit", band=Band("B", cm(21)), room_um=Fraction(200_000)),
            "the band B 21 cm at the bottom does not fit, the design is 20 cm high: "
            "make it narrower, or the design larger",
        ),
        (
            Refusal(
                "band_does_not_fit",
                band=Band("B", cm(2), cm(9), upright=True, share=Fraction(1, 4)),
                room_um=Fraction(100_000),
            ),
            "the band B 25% of 2 cm upright, 9 cm from the left does not fit, the design is 10 cm "
            "wide: make it narrower, or the design larger",
        ),
        (
            Refusal("no_table_of_children", part=BodyPart.FOOT, sides=("around",)),
            "stash has no sizes for children's feet; measure, and type --around",
        ),
    ],
)
def test_what_cannot_be_made_is_said_with_a_way_out(error: Refusal, said: str) -> None:
    assert sentence(error) == said


@pytest.mark.parametrize(
    ("whom", "ease", "said"),
    [
        (
            Person(24),
            None,
            "child of 2 years, head 47.7 cm, made 5% smaller to stretch",
        ),
        (
            Person(48, Sex.MALE),
            Fraction(0),
            "boy of 4 years, head 50.2 cm (another table says 52.2 cm), made to the same size",
        ),
        (
            Person(66, Sex.MALE),
            cm(-2),
            "boy of 5½ years, head 52 cm, made 2 cm smaller to stretch",
        ),
        (cm(56), cm(1), "a head of 56 cm, made 1 cm roomier"),
    ],
)
def test_a_size_says_what_it_was_made_from(
    whom: Person | Length, ease: Fraction | Length | None, said: str
) -> None:
    assert made_to_fit(fitted(Shape.ROUND_HAT, whom, ease, None).made_from) == said


@pytest.mark.parametrize(
    ("one", "words"),
    [(Person(0), "newborn"), (Person(18, Sex.MALE), "boy of 18 months"),
     (Person(48, Sex.FEMALE), "girl of 4 years"), (Person(), "adult"), (WOMAN, "woman")],
)  # fmt: skip
def test_a_person_has_words(one: Person, words: str) -> None:
    assert person(one) == words


@pytest.mark.parametrize(
    ("band", "metric", "us"),
    [
        (Band("B", cm(4)), "B 4 cm at the bottom", "B 1 5/8 in at the bottom"),
        (Band("B", Rows(1), Place.MIDDLE), "B 1 row in the middle", "B 1 row in the middle"),
        (Band("C", Rows(4), cm(9)), "C 4 rows, 9 cm from the bottom",
         "C 4 rows, 3 1/2 in from the bottom"),
        (Band("B", cm(3), Place.TOP, upright=True), "B 3 cm upright at the right",
         "B 1 1/8 in upright at the right"),
    ],
)  # fmt: skip
@pytest.mark.usefixtures("in_us_units")
def test_a_band_is_said_in_her_units(band: Band, metric: str, us: str) -> None:
    """An inch is 2.54 cm; 4 cm are 1.575 in, nearest eighth 1 5/8."""
    assert band_words(band) == us
    figures.use(Units())
    assert band_words(band) == metric


@pytest.mark.parametrize(
    ("stripes", "said"),
    [
        (Stripes((("A", Rows(4)), ("B", cm(1)))), "A 4 rows, B 1 cm"),
        (Stripes((("A", cm(2)), ("B", cm(1))), cm(3), cm(15)), "A 2 cm, B 1 cm from 3 cm to 15 cm"),
    ],
)
def test_stripes_have_words(stripes: Stripes, said: str) -> None:
    assert stripes_words(stripes) == said


def test_a_person_a_size_is_for_has_an_article() -> None:
    for whom, begins in ((WOMAN, "Fits a woman, head "), (Person(), "Fits an adult, head ")):
        made_from = fitted(Shape.ROUND_HAT, whom, None, None).made_from
        assert sentence(Note("made_to_fit", fits=made_from)).startswith(begins)
    assert sentence(Note("made_to_fit", fits="Market M")) == "Fits Market M."


def test_small_parts_are_named() -> None:
    note = Note("small_parts", parts=(Kind.FRINGE, Kind.POMPOM))

    assert sentence(note) == (
        "Small parts may come off (fringe, pompom): keep away from children under 3."
    )


def test_no_caution_names_a_rule_by_its_number() -> None:
    said = [sentence(note).replace("under 3", "") for note in ALL]

    assert not any(char.isdigit() for words in said for char in words)
