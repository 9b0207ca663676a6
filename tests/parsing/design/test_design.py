"""Designs as makers type them: read exactly, or refused with a way out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Refusal, StashError, Unreadable
from stash.measures.length import Length, inches, metres, yards
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.parsing import facts
from stash.parsing.design import design, shapes
from stash.parsing.design.design import DesignWords
from stash.rendering.sentences.say import sentence
from stash.requirements.design.bands import Band, Place, Rows, Stitches
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import Swatch
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.shapes import Crown, Seam, Shape, Size, Start
from stash.requirements.design.sizing import fitted
from stash.requirements.design.whom import Whom
from stash.trade.bodies import Person, Sex


def cm(count: int) -> Length:
    return Length(count * 10_000)


@pytest.mark.parametrize(
    ("typed", "stitches", "rows", "over"),
    [
        ("14 sts x 22 rows", 14, 22, inches(4)),
        ("14 sts x 22 rows per 10cm", 14, 22, cm(10)),
        ("22 sts x 30 rows = 10cm 4mm", 22, 30, cm(10)),
        ("4 sts and 5 rows to 1 in", 4, 5, inches(1)),
        ("20 sts, 28 rounds over 4”", 20, 28, inches(4)),
        ("22 rows × 14 sts", 14, 22, inches(4)),
        ("14½ stitches by 22 rows to 4 x 4 in", "14.5", 22, inches(4)),
        ("approx 18 sts x 24 rows per 10 cm square", 18, 24, cm(10)),
    ],
)
def test_gauge_is_read_exactly(typed: str, stitches: float, rows: int, over: Length) -> None:
    assert design.gauge(typed) == Gauge(Fraction(stitches), Fraction(rows), over)


@pytest.mark.parametrize(
    "typed", ["22 sts x 30 rows in stockinette", "22 sts x 30 rows = 4in in plain fabric, 4 mm"]
)
def test_a_gauge_says_when_it_was_counted_in_plain(typed: str) -> None:
    assert design.gauge(typed) == Gauge(Fraction(22), Fraction(30), plain=True)


def test_a_swatch_is_as_exact_as_her_scale() -> None:
    on_tenths = DesignWords(swatch="12g, 15cm x 14cm", scale_step=Mass(100))

    assert design.design(on_tenths).swatch == Swatch(grams(12), cm(15), cm(14), Mass(100))


def test_gauge_goes_over_what_was_chosen_unless_it_says_otherwise() -> None:
    assert design.gauge("14 sts x 22 rows", per="10cm").over == cm(10)
    assert design.gauge("14 sts x 22 rows = 4in", per="10cm").over == inches(4)


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        ("approx 7 st = 1 in", "gauge_without_rows"),
        ("14 x 22", "no_gauge"),
        ("0 sts x 22 rows", "gauge_of_nothing"),
        ("fluffy", "no_gauge"),
    ],
)
def test_what_is_no_gauge_is_refused(typed: str, kind: str) -> None:
    with pytest.raises(Unreadable) as refused:
        design.gauge(typed)
    assert refused.value.kind == kind


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("B 2cm bottom", Band("B", cm(2), Place.BOTTOM)),
        ("B 5 sts", Band("B", Stitches(5))),
        ("C 4 rows middle", Band("C", Rows(4), Place.MIDDLE)),
        ("b: 2 rounds at the top", Band("B", Rows(2), Place.TOP)),
        ("B 3cm 5cm", Band("B", cm(3), cm(5))),
        ("B 1 1/2 in 2 in from the bottom", Band("B", inches(Fraction(3, 2)), inches(2))),
    ],
)
def test_bands_are_read(typed: str, read: Band) -> None:
    assert design.band(typed) == read


@pytest.mark.parametrize("typed", ["B", "B 2", "BB 2cm", "B 2.5 sts", "B 0cm", "B 2cm sideways"])
def test_what_is_no_band_is_refused(typed: str) -> None:
    with pytest.raises(Unreadable):
        design.band(typed)


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("12g, 15cm x 14cm", Swatch(grams(12), cm(15), cm(14))),
        ("12g 15x14cm", Swatch(grams(12), cm(15), cm(14))),
        ("12,5 g; 15 cm by 14 cm", Swatch(Mass(12_500), cm(15), cm(14), step=Mass(100))),
        ('8 g, 4" x 4"', Swatch(grams(8), inches(4), inches(4))),
    ],
)
def test_swatches_are_read(typed: str, read: Swatch) -> None:
    assert design.swatch(typed) == read


@pytest.mark.parametrize("typed", ["12g", "15cm x 14cm", "0g, 15cm x 14cm", "12g, 15cm x 14cm!?"])
def test_what_is_no_swatch_is_refused(typed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        design.swatch(typed)
    assert refused.value.kind == "no_swatch"


def test_stated_figures_are_by_colour() -> None:
    lengths, bought = design.stated(["B=1,5m, A=200yd"])

    assert lengths == (("A", yards(200)), ("B", metres(Fraction(3, 2))))
    assert bought == ()


@pytest.mark.parametrize("typed", ["2 skeins", "2 balls", "2 Hanks", "2 whole cakes", "2skeins"])
def test_whole_skeins_are_a_figure_for_buying(typed: str) -> None:
    lengths, bought = design.stated([f"A={typed}"], PutUp(grams(50), metres(87)))

    assert lengths == (("A", metres(174)),)
    assert bought == (("A", 2),)


@pytest.mark.parametrize("typed", ["2 skeins", "1 ball"])
def test_skeins_to_buy_ask_what_one_holds(typed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        design.stated([f"A={typed}"])
    assert refused.value.kind == "skeins_of_unknown_length"


def test_weights_are_by_colour_or_of_one_colour() -> None:
    assert design.weighed("A=71g,B=9g") == (("A", grams(71)), ("B", grams(9)))
    assert design.weighed("80g") == (("A", grams(80)),)


@pytest.mark.parametrize("typed", [["200yd"], ["A=200yd", "A=3m"], ["A="], ["A=71g"]])
def test_what_is_no_stated_figure_is_refused(typed: list[str]) -> None:
    with pytest.raises(Unreadable):
        design.stated(typed)


def test_a_stated_figure_without_a_unit_is_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        design.stated(["A=200"])
    assert {"200 m", "200 yd"} <= {*asked.value.readings}


@pytest.mark.parametrize("typed", ["15%", "15 %", "15", "0.15", "0,15"])
def test_margins_are_shares(typed: str) -> None:
    assert design.margin(typed) == pytest.approx(0.15)


def test_a_margin_of_one_is_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        design.margin("1")
    assert asked.value.readings == ("1%", "100%")


def test_a_margin_below_nothing_is_refused() -> None:
    with pytest.raises(Unreadable) as refused:
        design.margin("-3%")
    assert refused.value.kind == "no_margin"


@pytest.mark.parametrize(("typed", "read"), [("4", (4, 4)), ("DK", (3, 3)), ("3-4", (3, 4))])
def test_thickness_is_a_number_or_a_name(typed: str, read: tuple[int, int]) -> None:
    assert facts.thickness(typed) == read


def test_a_colour_is_no_thickness() -> None:
    with pytest.raises(Unreadable) as refused:
        facts.thickness("blue")
    assert refused.value.kind == "no_thickness_thickness"


HAT = DesignWords(
    name="two-colour hat",
    shape="sideways hat",
    around="18in",
    tall="32cm",
    gauge="14 sts x 22 rows",
    fabric="1 hdc, 2 sl st blo",
    bands=("B 5 sts",),
    thickness="4",
    put_up="120g/210m",
    strands="1",
    seam="sl st",
    crown="gathered",
)


def test_a_whole_design_is_read() -> None:
    hat = design.design(HAT)

    assert hat.size == Size(inches(18), cm(32))
    assert (hat.shape, hat.seam, hat.crown) == (
        Shape.SIDEWAYS_HAT,
        Seam.SLIP_STITCH,
        Crown.GATHERED,
    )
    assert hat.classes == (4, 4)
    assert hat.bands == (Band("B", Stitches(5)),)


def test_nothing_typed_is_an_empty_design() -> None:
    assert design.design(DesignWords()) == Design()


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        (replace(HAT, tall=""), "sides_wanted"),
        (replace(HAT, around="", tall="", wide="20cm", long="1m"), "sides_wanted"),
        (replace(HAT, shape="scarf"), "sides_wanted"),
        (replace(HAT, shape=""), "size_without_shape"),
        (replace(HAT, weighed="80g"), "weighed_without_colours"),
    ],
)
def test_sizes_and_weights_that_do_not_fit_are_refused(words: DesignWords, kind: str) -> None:
    with pytest.raises(Refusal) as refused:
        design.design(words)
    assert refused.value.kind == kind


@pytest.mark.parametrize(
    "words",
    [
        replace(HAT, around="0cm"),
        replace(HAT, strands="1.5"),
        replace(HAT, strands="0"),
        replace(HAT, crown="pointed"),
        replace(HAT, put_up="170g"),
    ],
)
def test_options_that_cannot_be_read_are_refused(words: DesignWords) -> None:
    with pytest.raises(BadInput):
        design.design(words)


def changed(old: DesignWords, **typed: object) -> Design:
    return design.put_right(design.design(old), replace(DesignWords(), **typed))  # type: ignore[arg-type]


WOMAN, MAN = Person(sex=Sex.FEMALE), Person(sex=Sex.MALE)
FITTED = DesignWords(shape="round hat", size="woman", brim="6cm", start="crown")


def test_a_size_gives_the_sides_that_are_not_typed() -> None:
    """ANSUR II, 2012: women's heads 56.1 cm; 5 % off, two fifths tall and the brim."""
    hat = design.design(FITTED)
    taller = design.design(replace(FITTED, tall="30cm"))

    assert hat.size == Size(cm(53.3), cm(28.4))
    assert taller.size == Size(cm(53.3), cm(30))
    assert (hat.start, hat.brim) == (Start.CROWN, cm(6))
    assert hat.fits == fitted(Shape.ROUND_HAT, WOMAN, None, cm(6)).made_from


def test_a_size_with_every_side_is_a_name() -> None:
    assert design.design(replace(HAT, size="market M")).fits == "market M"


def test_a_square_and_a_circle_have_one_side_a_sock_three() -> None:
    square = design.design(DesignWords(shape="square", wide="10cm", count="24"))
    sock = design.design(DesignWords(shape="sock", around="21cm", tall="16cm", long="25cm"))

    assert (square.size, square.count) == (Size(cm(10), cm(10)), 24)
    assert sock.size == Size(cm(21), cm(16), cm(25))


@pytest.mark.parametrize(
    ("words", "kind"),
    [
        (DesignWords(shape="sock", size="woman"), ("sides_wanted", ("tall",))),
        (DesignWords(shape="square", wide="10cm", long="10cm"), ("sides_wanted", ())),
        (DesignWords(size="woman"), ("size_without_shape", None)),
        (replace(HAT, ease="-5%"), ("ease_without_size", None)),
    ],
)
def test_sizes_that_do_not_fit_the_shape_are_refused(words: DesignWords, kind: object) -> None:
    with pytest.raises(Refusal) as refused:
        design.design(words)
    assert (refused.value.kind, refused.value.facts.get("missing")) == kind


def test_what_nobody_wears_has_no_size_of_a_person() -> None:
    with pytest.raises(Refusal):
        design.design(DesignWords(shape="scarf", size="woman"))


@pytest.mark.parametrize("count", ["0", "1.5", "3000"])
def test_a_count_is_whole(count: str) -> None:
    with pytest.raises(Unreadable) as refused:
        design.design(DesignWords(shape="square", wide="10cm", count=count))
    assert refused.value.kind == "no_count_of_squares"
    assert refused.value.facts["most"] == 2000


def test_a_plan_is_made_to_fit_somebody_else() -> None:
    man = changed(FITTED, size="man")

    assert man.size == Size(cm(54.6), cm(23))
    assert man.fits == fitted(Shape.ROUND_HAT, MAN, None, cm(6)).made_from
    assert man.brim == cm(6)


def test_a_side_that_does_not_follow_from_a_size_stays() -> None:
    band = changed(DesignWords(shape="headband", around="50cm", tall="9cm"), size="man")

    assert band.size == Size(cm(54.6), cm(9))


def test_another_shape_is_begun_and_closed_as_usual() -> None:
    cowl = changed(replace(FITTED, crown="flat"), shape="cowl")

    assert (cowl.start, cowl.crown, cowl.brim) == (None, None, None)
    assert cowl.size == Size(cm(53.3), cm(28.4))


def test_a_brim_and_extras_can_be_taken_away() -> None:
    trimmed = replace(FITTED, extras=("edging B",))

    assert changed(trimmed, extras=("none",)).extras == ()
    assert changed(trimmed, brim="none").brim is None
    assert changed(trimmed, brim="none", size="woman").size == Size(cm(53.3), cm(22.4))


def test_a_girth_typed_again_fits_nobody_in_particular() -> None:
    assert changed(FITTED, around="56cm").fits == ""
    assert changed(FITTED, extras=("pompom B 6cm",)).fits == design.design(FITTED).fits


READERS = (
    design.gauge,
    design.band,
    design.swatch,
    design.weighed,
    design.margin,
    shapes.meant,
    facts.thickness,
    design.strands,
    design.fabric,
)


def outcome(reader: Callable[[str], object], text: str) -> str:
    try:
        return f"read as {reader(text)!r}"
    except StashError as refused:
        return sentence(refused)


@given(
    st.sampled_from(READERS),
    st.text(alphabet="0123456789ABx=,.%/ stsrowcmg\"'½", max_size=24) | st.text(max_size=12),
)
def test_any_text_is_read_or_refused_in_one_line(
    reader: Callable[[str], object], text: str
) -> None:
    assert len(outcome(reader, text).splitlines()) == 1


@pytest.mark.parametrize(
    ("words", "whom"),
    [
        (DesignWords(shape="baby blanket", wide="75cm", long="90cm"), Whom.BABY),
        (DesignWords(shape="beanie", size="child 50cm", tall="20cm"), Whom.CHILD),
        (DesignWords(shape="cowl", size="2T", around="50cm", tall="20cm"), Whom.CHILD),
        (DesignWords(shape="baby blanket", wide="75cm", long="90cm", whom="adult"), Whom.ADULT),
        (DesignWords(shape="blanket", wide="75cm", long="90cm"), None),
    ],
)
def test_whom_it_is_for_is_taken_from_whatever_words_say_it(
    words: DesignWords, whom: Whom | None
) -> None:
    assert design.design(words).wearer is whom


def test_what_is_not_worn_where_its_shape_is_takes_no_size_of_somebody() -> None:
    with pytest.raises(Refusal) as refused:
        design.design(DesignWords(shape="leg warmers", size="woman", tall="35cm"))
    assert refused.value.kind == "no_table_of_thing"
