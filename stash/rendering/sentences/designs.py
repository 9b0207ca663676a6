"""Sentences about a design: its shape, size, bands and rows, and what of it can hurt somebody."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from stash.measures.length import Length
from stash.rendering.amounts import counted
from stash.rendering.figures import edge, screen, size
from stash.rendering.her_words import hers
from stash.rendering.sentences.words import Words
from stash.requirements.design.bands import (
    Band,
    Extent,
    Place,
    Rows,
    Stitches,
    Stripes,
    extent_words,
)
from stash.requirements.design.extras import Kind
from stash.requirements.design.shapes import HATS, Crown, Shape, Start
from stash.requirements.design.sizing import BodyPart, Ease, MadeToFit, worn
from stash.trade.bodies import Person, Sex

#: Sides that are enough to know what such a thing takes, in centimetres and in inches.
_SIDES = {
    **dict.fromkeys((*HATS, Shape.MITTEN), ("--size woman", "--size woman")),
    Shape.SOCK: ("--size woman --tall 15cm", "--size woman --tall 6in"),
    Shape.HEADBAND: ("--size woman --tall 9cm", "--size woman --tall 3.5in"),
    Shape.COWL: ("--around 60cm --tall 25cm", "--around 24in --tall 10in"),
    Shape.SCARF: ("--wide 20cm --long 150cm", "--wide 8in --long 60in"),
    Shape.BLANKET: ("--wide 90cm --long 120cm", "--wide 36in --long 48in"),
    Shape.TRIANGLE: ("--wide 150cm --long 70cm", "--wide 60in --long 28in"),
    Shape.SQUARE: ("--wide 20cm", "--wide 8in"),
    Shape.CIRCLE: ("--wide 20cm", "--wide 8in"),
}


def enough_sides(shape: Shape) -> str:
    """The sides of such a thing as an example to type, in her units."""
    return _SIDES[shape][screen().units.size == "in"]


def size_options(sides: Sequence[str]) -> str:
    """The options that sides are given with, as to type them: `--around and --tall`."""
    *others, last = (f"--{side}" for side in sides)
    return f"{', '.join(others)} and {last}" if others else last


def extent(one: Extent) -> str:
    """How much of a colour, in her units: `4 cm`, `5 sts`, `4 rows`."""
    if isinstance(one, Rows):
        return counted(one.count, "row")
    return edge(one) if isinstance(one, Length) else extent_words(one)


def band_words(band: Band) -> str:
    """A band as a person says it: `B 4 cm at the bottom`, `C 3 rows, 9 cm from the bottom`."""
    mixed = "" if band.share is None else f"{float(100 * band.share):g}% of "
    turned = " upright" if band.upright else ""
    return f"{band.role} {mixed}{extent(band.extent)}{turned}{_place(band)}"


def _place(band: Band) -> str:
    if isinstance(band.place, Length):
        return f", {edge(band.place)} from the {'left' if band.upright else 'bottom'}"
    if band.place is Place.MIDDLE:
        return " in the middle"
    at_end = band.place is Place.TOP
    level = "top" if at_end else "bottom"
    return f" at the {('right' if at_end else 'left') if band.upright else level}"


def stripes_words(stripes: Stripes) -> str:
    """Stripes likewise: `A 4 rows, B 2 rows from 3 cm to 15 cm`."""
    runs = ", ".join(f"{role} {extent(one)}" for role, one in stripes.runs)
    turned = " upright" if stripes.upright else ""
    if stripes.start is None or stripes.end is None:
        return runs + turned
    return f"{runs}{turned} from {edge(stripes.start)} to {edge(stripes.end)}"


def made_to_fit(fits: MadeToFit | str) -> str:
    """What a size was made from: `woman, head 56 cm, made 5% smaller`.

    Which table a size is from is for scripts; that two tables differ is for her too.
    """
    if isinstance(fits, str):
        return fits
    if fits.person is None:
        whom = f"a {fits.part} of {edge(fits.around)}"
    else:
        whom = f"{person(fits.person)}, {fits.part} {edge(fits.around)}{_other_table(fits)}"
    return f"{whom}, {_ease(fits.ease)}"


def person(one: Person) -> str:
    """Somebody by age and sex: a newborn, a child of 4 years, a woman."""
    sexes = {None: 0, Sex.MALE: 1, Sex.FEMALE: 2}
    if one.months is None:
        return ("adult", "man", "woman")[sexes[one.sex]]
    who = ("child", "boy", "girl")[sexes[one.sex]]
    if one.weeks is not None:
        return f"{'baby' if one.sex is None else f'baby {who}'} born at {one.weeks} weeks"
    if one.months == 0:
        return "newborn" if one.sex is None else f"newborn {who}"
    if one.months < 24 or one.months % 6:
        return f"{who} of {one.months} months"
    return f"{who} of {one.months // 12}{'½' if one.months % 12 else ''} years"


def _fits(fits: MadeToFit | str) -> str:
    """`Fits a woman, head 56 cm …`: a person has an article, a girth has its own."""
    words = made_to_fit(fits)
    if isinstance(fits, str) or fits.person is None:
        return f"Fits {words}."
    return f"Fits {'an' if words[0] in 'aeiou' else 'a'} {words}."


def _other_table(fits: MadeToFit) -> str:
    if fits.other_mm is None:
        return ""
    return f" (another table says {edge(Length(round(1000 * fits.other_mm)))})"


def _ease(ease: Ease) -> str:
    if not ease:
        return "made to the same size"
    if isinstance(ease, Length):
        less, much = ease.um < 0, size(Length(abs(ease.um)))
    else:
        less, much = ease < 0, f"{abs(float(ease)):.0%}"
    return f"made {much} {'smaller to stretch' if less else 'roomier'}"


_WAYS_OUT: Mapping[type[Stitches] | type[Rows] | None, str] = {
    Stitches: "stitches run this way; type a length or stitches, as in 'B 5 sts', "
    "or turn the band with or without `upright`",
    Rows: "rows run this way; type a length or rows, as in 'B 4 rows', "
    "or turn the band with or without `upright`",
    None: "without a gauge there are no stitches or rows to count; "
    "type a length, as in 'B 2cm', or add --gauge",
}


def _not_placed(extent: Extent, counted_in: type[Stitches] | type[Rows] | None) -> str:
    return f"a band of {extent_words(extent)} has no place here: {_WAYS_OUT[counted_in]}"


def _band_over_another(band: Band) -> str:
    return (
        f"the band {band_words(band)} overlaps another one; type how far it is from the bottom, "
        f"as in '{band.role} 2cm 5cm'"
    )


def _edge(um: Fraction) -> str:
    return edge(Length(round(um)))


def _band_does_not_fit(band: Band, room_um: Fraction) -> str:
    way = "wide" if band.upright else "high"
    return (
        f"the band {band_words(band)} does not fit, the design is {_edge(room_um)} {way}: "
        "make it narrower, or the design larger"
    )


def _stripes_do_not_fit(stripes: Stripes, room_um: Fraction) -> str:
    return (
        f"the stripes {stripes_words(stripes)} do not fit, the design is {_edge(room_um)} "
        "that way: make them end sooner, or the design larger"
    )


def _no_size(shape: Shape, sides: Sequence[str]) -> str:
    measured = size_options(sides)
    like = enough_sides(shape)
    other = f", or {measured}" if worn(shape) and "--size" in like else ""
    return f"how large is the {shape}? add its size, as in {like}{other}"


def _wrong_start(shape: Shape, start: Start, starts: Sequence[Start]) -> str:
    way_out = (
        f"type {' or '.join(f'--from {one}' for one in starts)}" if starts else ("leave out --from")
    )
    return f"a {shape} does not begin at its {hers(start)}; {hers(way_out)}"


def _wrong_crown(shape: Shape, crown: Crown, crowns: Sequence[Crown]) -> str:
    if not crowns:
        return f"a {shape} has no crown to shape; leave out --crown"
    return f"a {shape} has no {crown} crown; type --crown {' or '.join(crowns)}"


def _no_table_of_children(part: BodyPart, sides: Sequence[str]) -> str:
    parts = "hands" if part is BodyPart.HAND else "feet"
    return f"stash has no sizes for children's {parts}; measure, and type {size_options(sides)}"


_HAZARD = (
    "Cords and ties near a child's neck can strangle; small parts can choke, above all under 3."
)
#: What every caution ends with; said once where several stand together.
LOCAL_RULES = "Check your local rules."
_CHILD = f"{_HAZARD} {LOCAL_RULES}"


def _small_parts(parts: Sequence[Kind]) -> str:
    return f"Small parts may come off ({', '.join(parts)}): keep away from children under 3."


def _pompom_extra(typed: str, shape: Shape) -> str:
    return f"{typed}: a {shape}; add the pompom with --extra 'pompom B 6cm'"


def _flaps_extra(typed: str, shape: Shape) -> str:
    return f"{typed}: a {shape}; add the flaps with --extra 'flap A 9cm x 10cm x 2'"


SENTENCES: Mapping[str, Words] = {
    # why a thing is this shape
    "hat_in_the_round": (
        "{typed}: I take it as a {shape}; if you make it in rows, type sideways hat or flat hat"
    ),
    "hat_taller": "{typed}: I take it as a {shape}; for the slouch make it taller with --tall",
    "pompom_beside": _pompom_extra,
    "flaps_beside": _flaps_extra,
    "width_not_counted": (
        "{typed}: a {shape} is the nearest; the wider top is not counted, so allow more"
    ),
    "neck_not_counted": (
        "{typed}: a {shape} is the nearest; the face opening and neck are not counted"
    ),
    "measured_by_itself": "{typed}: a {shape}; measure it, and type --around and --tall",
    "tubes_in_pairs": "{typed}: a tube like a {shape}; for a pair add --count 2",
    "long_flat_strip": "{typed}: a {shape} is the nearest, a long flat strip",
    "shawl_as_triangle": "{typed}: I take it as a {shape}; for a rectangle type scarf",
    "squares_counted": "{typed}: counted by the {shape}; type how many, as in --count 2",
    "fingers_not_counted": (
        "{typed}: a {shape} is the nearest; fingers are not counted, so allow a little more"
    ),
    "tips_left_open": (
        "{typed}: a {shape} is the nearest; the tip is counted too, so you need a little less"
    ),
    "leg_is_short": "{typed}: a {shape} with a short leg; type --tall for the leg, as in 5cm",
    "words_not_counted": "{left!r} is not counted; this is the yarn for a {shape}",
    "hat_size": "{typed} ({terms} {size})",
    "design_has_no_shape": (
        f"the design has no shape yet; add --shape with one of {', '.join(Shape)}"
    ),
    "design_has_no_size": _no_size,
    "wrong_start": _wrong_start,
    "wrong_crown": _wrong_crown,
    "made_once": "a {shape} is made once; leave out --count",
    "no_brim_to_fold": "a {shape} has no brim to fold up; leave out --brim",
    "brim_too_high": lambda brim: (
        f"a fold-up brim of {size(brim)} is half the height or more; "
        "--tall includes the brim, so type a larger --tall or a smaller --brim"
    ),
    "too_low_for_crown": lambda crown, least_um: (
        f"a {crown} crown this wide takes {_edge(least_um)} of height by itself: "
        "make it taller, or type --crown gathered"
    ),
    "endless_rows": "that comes to {rows} rows; check the size and the gauge",
    "rounds_have_no_left": "work from the centre has no left or right; leave out upright",
    "extent_cannot_be_placed": _not_placed,
    "colours_leave_nothing": (
        "the colours leave nothing for {main}; call the main colour {main}, or make a band narrower"
    ),
    "band_over_another": _band_over_another,
    "mixed_band_upright": lambda band: (
        f"the band {band_words(band)}: "
        f"{hers('two colours in one row run level; leave out upright')}"
    ),
    "band_mixed_with_itself": lambda band: (
        f"the band {band_words(band)} "
        f"{hers('lies on its own colour; choose another colour for it')}"
    ),
    "stripes_do_not_fit": _stripes_do_not_fit,
    "band_of_main_colour": "{main} is the rest of the design; make bands in B, C or D",
    "band_does_not_fit": _band_does_not_fit,
    "made_to_no_measure": lambda shape, sides: (
        f"a {shape} fits nobody in particular; leave out --size and type {size_options(sides)}"
    ),
    "no_table_of_thing": lambda typed, sides: (
        f"stash has no sizes for {typed!r}; leave out --size and type {size_options(sides)}"
    ),
    "no_table_of_children": _no_table_of_children,
    "too_much_ease": "that --ease makes it half as large as the body, or twice; check it",
    "made_to_fit": _fits,
    "child_hazard": _HAZARD,
    "child_caution": _CHILD,
    "perhaps_child_caution": f"If it is for a child: {_CHILD}",
    "cot_caution": "In a cot: no hats, loose blankets or cords.",
    "floats_caution": (
        "Strands inside catch a baby's fingers and toes: line it, or use one colour."
    ),
    "flame_caution": (
        "Fringe and brushed yarn burn fast: keep them from flames, and out of nightwear."
    ),
    "small_parts": _small_parts,
}
