"""What a text about a design was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words
from stash.requirements.design.extras import Kind
from stash.requirements.design.shapes import BUILDS, Shape

_GAUGE = "type it like 14 sts x 22 rows, or 22 sts x 30 rows per 10cm"
_FABRIC = "type it like stockinette, 2x2 rib, 1 hdc, 2 sl st blo, or (sc, ch 1) in one row"
#: How each extra is written.
_EXTRAS = {
    Kind.POMPOM: "pompom B 6cm",
    Kind.TASSEL: "tassel B 8cm x 4",
    Kind.FRINGE: "fringe B 15cm",
    Kind.CORD: "cord A 40cm x 2",
    Kind.CHAIN: "chain A 40cm x 2",
    Kind.FLAP: "flap A 9cm x 10cm x 2",
    Kind.EDGING: "edging B, or edging B x 2 for two rounds",
}
#: What is read by role: what it is, and how it is written.
_BY_ROLE = {
    "length": ("a length per colour", "A=200yd"),
    "weight": ("a weight per colour", "A=71g,B=9g"),
}


def _like_an_extra(extra: Kind | None) -> str:
    likes = _EXTRAS.values() if extra is None else [_EXTRAS[extra]]
    return f"type it like {', '.join(likes)}"


def _near_stitches(stitch: str, nearest: Sequence[str]) -> str:
    near = f"did you mean {' or '.join(nearest)}?" if nearest else _FABRIC
    return f"no stitch {stitch!r}; {near}"


def _one_of(choices: Sequence[str]) -> str:
    if len(choices) == 1:
        return f"did you mean {choices[0]}?"
    return f"type one of {', '.join(choices)}"


def _measured_with(shape: Shape) -> str:
    like = " x ".join(("20cm", "150cm", "25cm")[: len(BUILDS[shape].words)])
    return f"the sides of a {shape} are {' x '.join(BUILDS[shape].words)}, as in {like}"


def _no_shape(choices: Sequence[str]) -> str:
    if choices:
        return f"did you mean {' or '.join(choices)}?"
    return f"type beanie, mittens, shawl and the like, or one of {', '.join(Shape)}"


def _no_size(nearest: str) -> str:
    if nearest:
        return f"did you mean {nearest}?"
    return (
        "type woman, man, newborn, child 4 years, 2T, 6-12 months or 56cm around, or name your own "
        'first: `stash settings "size NAME" "around 54cm tall 22cm"`'
    )


UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "no_band": (
        "a band",
        "type it like B 2cm bottom, B 5 sts, C 4 rows middle, B 3cm 5cm, B 1/3 top, "
        "B 4cm upright left, or B 30% of 6cm for two colours in a row",
    ),
    "band_out_of_place": (
        "a band",
        "type bottom, middle or top; with upright left, middle or right",
    ),
    "band_of_no_height": ("a band", "type a height above 0, as in B 2cm bottom"),
    "band_of_part_stitches": ("a band", "type whole stitches or rows from 1, as in B 4 rows"),
    "band_of_too_large_a_share": ("a band", "type a share under 100%, as in B 30% of 6cm"),
    "no_stripes": (
        "stripes",
        "type it like A 4 rows, B 2 rows, or A 2cm, B 1cm from 3cm to 15cm",
    ),
    "no_extra": ("an extra", _like_an_extra),
    "extra_of_nothing": (
        "an extra",
        lambda extra: f"{_like_an_extra(extra)}, all above 0",
    ),
    "no_terms": ("crochet terms", "type us or uk"),
    "no_rib": ("a rib", "type it like 2x2 rib, with 1 to 6 of each"),
    "no_fabric": ("a fabric", _FABRIC),
    "fabric_of_many_rows": (
        "a fabric",
        "type the rows of one repeat only, as in 1 hdc, 2 sl st blo",
    ),
    "fabric_count_out_of_range": (
        "a fabric",
        "type the rows of one repeat only, at least 1 of each",
    ),
    "only_chains": ("a fabric", "chains alone make no row; add a stitch, as in (sc, ch 1)"),
    "no_stitches_of_a_row": (
        "a fabric",
        "type the stitches of one row in the brackets, as in (2 sc, ch 1)",
    ),
    "no_post_stitch": (
        "a fabric",
        "a {stitch} is not worked around a post; type {stitch} alone, or fpdc",
    ),
    "uk_name": ("a fabric in US terms", "{stitch!r} is a UK name; add --terms uk"),
    "us_name": ("a fabric in UK terms", "{stitch!r} is a US name; type --terms us"),
    "knitted_among_crocheted": (
        "a fabric",
        "type a knitted fabric by its name alone, as in stockinette",
    ),
    "no_stitch": ("a fabric", _near_stitches),
    "no_gauge": ("a gauge", _GAUGE),
    "gauge_without_rows": ("a gauge", f"count the rows too, and {_GAUGE}"),
    "gauge_of_nothing": ("a gauge", "stitches, rows and their width must be above 0"),
    "no_swatch": ("a swatch", "type it like 12g, 15cm x 14cm"),
    "skeins_of_unknown_length": (
        "a number of skeins",
        'type 1 or more, and add what a full one holds, as in --full "100g/200m"',
    ),
    "no_amount_by_role": (
        lambda measure: _BY_ROLE[measure][0],
        lambda measure: f"type it like {_BY_ROLE[measure][1]}, for A, B, C or D",
    ),
    "role_given_twice": (
        lambda measure, role: _BY_ROLE[measure][0],
        lambda measure, role: f"{role} is there twice; type it once",
    ),
    "no_margin": ("a margin", "type it like 15%"),
    "no_shape": ("a shape", _no_shape),
    "no_shape_near": (
        "a shape",
        "there is no shape for {thing} yet; leave out --shape, and type what its pattern takes, "
        "as in --stated A=900m",
    ),
    "no_ends": ("what becomes of the ends", _one_of),
    "no_crown": ("a crown", _one_of),
    "no_seam": ("a seam", _one_of),
    "no_start": ("where the work begins", _one_of),
    "no_wearer": ("the person it is for", _one_of),
    "no_strands": ("a number of strands", "type 1, 2, 3 and so on"),
    "no_count_of_squares": ("a count", "type a whole number from 1 to {most}"),
    "no_size": ("a size", _no_size),
    "no_letters": (
        "a size",
        lambda part: (
            f"letters differ from maker to maker; measure the {part}, and type it as in 20cm or 8in"
        ),
    ),
    "no_such_weeks": (
        "a size",
        "type {first} to {last} weeks for a baby born early, or its size, as in 29cm",
    ),
    "no_child_of_that_age": ("a size", "over 18 years type woman, man or adult"),
    "girth_of_nothing": ("a size", "type a size above 0, as in 56cm around"),
    "no_ease": ("ease", "type it like -5% or -3cm"),
    "side_of_nothing": ("--{side}", "type a length above 0, as in 22cm"),
    "finished_side_of_nothing": ("a side", "type a length above 0, as in 58cm x 24cm"),
    "no_size_of_her_own": ("a size", "type it like around 54cm tall 22cm"),
    "size_of_no_sides": ("a size", "type sides above 0, as in around 54cm tall 22cm"),
    "brim_below_nothing": ("--brim", "type a height above 0, as in 6cm, or none"),
    "size_in_other_sides": ("a size", _measured_with),
    "no_sizes": ("sizes", 'type them like "child 4 years, woman, 58cm x 24cm"'),
}
