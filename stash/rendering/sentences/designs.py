"""Sentences about a design: its shape, size, bands and rows, and what of it can hurt somebody."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from stash.measures.length import Length
from stash.rendering.sentences.words import Words
from stash.requirements.design.bands import Band, Extent, Rows, Stitches, extent_words
from stash.requirements.design.extras import Kind
from stash.requirements.design.shapes import Crown, Shape, Start
from stash.requirements.design.sizing import BodyPart, Ease, MadeToFit
from stash.trade.bodies import Person, Sex


def size_options(sides: Sequence[str]) -> str:
    """The options that sides are given with, as to type them: `--around and --tall`."""
    *others, last = (f"--{side}" for side in sides)
    return f"{', '.join(others)} and {last}" if others else last


def cm(length: Length) -> str:
    """A size in centimetres, to the tenth."""
    return f"{length.m * 100:.1f} cm"


def made_to_fit(fits: MadeToFit | str) -> str:
    """What a size was made from: `woman: head 56.1 cm (ANSUR II 2012), 5% smaller, to stretch`."""
    if isinstance(fits, str):
        return fits
    if fits.person is None:
        whose = f"a {fits.part} of {cm(fits.around)}"
    else:
        whose = f"{person(fits.person)}: {fits.part} {cm(fits.around)} ({_surveys(fits)})"
    return f"{whose}, {_ease(fits.ease)}"


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


def _surveys(fits: MadeToFit) -> str:
    if len(fits.surveys) == 1:
        return fits.surveys[0]
    one, other = fits.surveys
    if fits.other_mm is None:
        return f"between {one} and {other}"
    return f"{one}; {other} says {fits.other_mm / 10:.1f} cm"


def _ease(ease: Ease) -> str:
    if not ease:
        return "no ease"
    if isinstance(ease, Length):
        less, much = ease.um < 0, cm(Length(abs(ease.um)))
    else:
        less, much = ease < 0, f"{abs(float(ease)):.0%}"
    return f"{much} {'smaller, to stretch' if less else 'roomier'}"


_WAYS_OUT: Mapping[type[Stitches] | type[Rows] | None, str] = {
    Stitches: "stitches are counted this way: give a length or stitches, as in 'B 5 sts', "
    "or turn it with or without `upright`",
    Rows: "rows are counted this way: give a length or rows, as in 'B 4 rows', "
    "or turn it with or without `upright`",
    None: "with no gauge there are no stitches or rows; give a length, as in 'B 2cm', or the gauge",
}


def _not_placed(extent: Extent, counted_in: type[Stitches] | type[Rows] | None) -> str:
    return f"{extent_words(extent)} of a band cannot be placed here: {_WAYS_OUT[counted_in]}"


def _band_over_another(band: Band) -> str:
    return (
        f"band {band} lies over another band: give it a distance from the bottom, "
        f"as in '{band.role} 2cm 5cm'"
    )


def _um_as_cm(um: Fraction) -> str:
    return f"{float(um) / 10_000:.1f} cm"


def _band_does_not_fit(band: Band, room_um: Fraction) -> str:
    way = "wide" if band.upright else "high"
    return f"band {band} does not fit: the design is {_um_as_cm(room_um)} {way}"


def _wrong_start(shape: Shape, start: Start, starts: Sequence[Start]) -> str:
    way_out = f"only from its {' or '.join(starts)}" if starts else "leave --from out"
    return f"a {shape} is not begun from its {start}: {way_out}"


def _wrong_crown(shape: Shape, crown: Crown, crowns: Sequence[Crown]) -> str:
    way_out = f"only {' or '.join(crowns)}" if crowns else "none: leave --crown out"
    return f"a {shape} takes no {crown} crown, {way_out}"


def _no_table_of_children(part: BodyPart, sides: Sequence[str]) -> str:
    parts = "hands" if part is BodyPart.HAND else "feet"
    return f"no table of children's {parts} is at hand: measure, and give {size_options(sides)}"


_HAZARD = (
    "Cords and ties near a child's neck can strangle; small parts can choke, above all under 3."
)
_CHILD = f"{_HAZARD} Rules differ by place: check yours."


def _small_parts(parts: Sequence[Kind]) -> str:
    return f"Small parts that may come off ({', '.join(parts)}): keep away from children under 3."


def _pompom_beside(typed: str, shape: Shape) -> str:
    return f"{typed}: a {shape}; add its pompom with --extra 'pompom B 6cm'"


def _flaps_beside(typed: str, shape: Shape) -> str:
    return f"{typed}: a {shape}; add its flaps with --extra 'flap A 9cm x 10cm x 2'"


SENTENCES: Mapping[str, Words] = {
    # why a thing is this shape
    "hat_in_the_round": (
        "{typed}: taken as a {shape}; if you work it in rows, say sideways hat or flat hat"
    ),
    "hat_taller": "{typed}: taken as a {shape}; for the slouch make it taller, with --tall",
    "pompom_beside": _pompom_beside,
    "flaps_beside": _flaps_beside,
    "width_not_counted": (
        "{typed}: a {shape} is the nearest; its wider top is not counted, so allow more"
    ),
    "neck_not_counted": (
        "{typed}: a {shape} is the nearest; face opening and neck are not counted"
    ),
    "measured_by_itself": "{typed}: a {shape}; give its own --around and --tall",
    "tubes_in_pairs": "{typed}: a tube like a {shape}; for a pair add --count 2",
    "long_flat_strip": "{typed}: a {shape} is the nearest, a long flat strip",
    "shawl_as_triangle": "{typed}: taken as a {shape}; for a rectangle say scarf",
    "squares_counted": "{typed}: counted by the {shape}; say how many, as in --count 2",
    "fingers_not_counted": (
        "{typed}: a {shape} is the nearest; fingers are not counted, so allow a little more"
    ),
    "tips_left_open": (
        "{typed}: a {shape} is the nearest; its tip is counted too, so you need a little less"
    ),
    "leg_is_short": "{typed}: a {shape} with a short leg: give it with --tall, as in --tall 5cm",
    "words_not_counted": "{left!r} is not counted: this is the yarn of a {shape}",
    "hat_size": "{typed} ({terms} {size})",
    "design_has_no_shape": f"the design has no shape: give --shape, one of {', '.join(Shape)}",
    "design_has_no_size": lambda shape, sides: (
        f"the size of a {shape} is not known: give {size_options(sides)}"
    ),
    "wrong_start": _wrong_start,
    "wrong_crown": _wrong_crown,
    "made_once": "a {shape} is one design: leave --count out",
    "no_brim_to_fold": "only a hat has a fold-up brim, a {shape} has none",
    "brim_too_high": lambda brim: (
        "the fold-up brim is half the height or more: --tall includes the brim"
    ),
    "too_low_for_crown": lambda crown, least_um: (
        f"a {crown} crown on this girth takes {_um_as_cm(least_um)} of height alone: "
        "make it taller, or choose --crown gathered"
    ),
    "endless_rows": "that makes {rows} rows: look at the size and the gauge again",
    "rounds_have_no_left": "rounds about a centre have no left or right: leave out upright",
    "extent_cannot_be_placed": _not_placed,
    "colours_leave_nothing": "the colours leave nothing for {main}: call the main one {main}",
    "band_over_another": _band_over_another,
    "mixed_band_upright": "band {band}: two colours in one row are mixed level, leave out upright",
    "band_mixed_with_itself": "band {band} is mixed with its own colour: choose another one",
    "stripes_do_not_fit": lambda stripes, room_um: (
        f"stripes {stripes} do not fit: the design is {_um_as_cm(room_um)} that way"
    ),
    "band_of_main_colour": "{main} is whatever the bands leave: give bands to B, C or D",
    "band_does_not_fit": _band_does_not_fit,
    "made_to_no_measure": lambda shape, sides: (
        f"a {shape} is made to no one's measure: leave --size out and give {size_options(sides)}"
    ),
    "no_table_of_thing": lambda typed, sides: (
        f"no table here has sizes of {typed!r}: leave --size out and give {size_options(sides)}"
    ),
    "no_table_of_children": _no_table_of_children,
    "too_much_ease": "that much ease makes it half or twice the body: look at --ease again",
    "made_to_fit": lambda fits: f"to fit {made_to_fit(fits)}",
    "child_hazard": _HAZARD,
    "child_caution": _CHILD,
    "perhaps_child_caution": f"If it is for a child (say --for baby, child or adult): {_CHILD}",
    "cot_caution": "For a cot: no hats, loose blankets or cords.",
    "floats_caution": (
        "Floats inside catch a baby's fingers and toes: line it, or work it in one colour."
    ),
    "flame_caution": (
        "Fringe and brushed yarn burn fast: keep them from flames, and use none for nightwear."
    ),
    "small_parts": _small_parts,
}
