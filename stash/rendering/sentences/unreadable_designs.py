"""What a text about a design was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.designs import size_options
from stash.rendering.sentences.words import Words
from stash.requirements.design.extras import Kind
from stash.requirements.design.shapes import BUILDS, Shape

_GAUGE = "write it like 14 sts x 22 rows, or 22 sts x 30 rows per 10cm"
_FABRIC = "write it like stockinette, 2x2 rib, 1 hdc, 2 sl st blo, or (sc, ch 1) in one row"
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
    return f"write it like {', '.join(likes)}"


def _near_stitches(stitch: str, nearest: Sequence[str]) -> str:
    near = f"near it are {', '.join(nearest)}" if nearest else _FABRIC
    return f"{stitch!r} is no stitch known here; {near}"


def _one_of(choices: Sequence[str]) -> str:
    return f"choose one of {', '.join(choices)}"


def _measured_with(shape: Shape) -> str:
    like = " x ".join(("20cm", "150cm", "25cm")[: len(BUILDS[shape].words)])
    return f"a {shape} is measured with {size_options(BUILDS[shape].words)}, as in {like}"


def _no_shape(choices: Sequence[str]) -> str:
    if choices:
        return f"did you mean {' or '.join(choices)}?"
    return f"write beanie, mittens, shawl and the like, or one of {', '.join(Shape)}"


def _no_size(nearest: str) -> str:
    if nearest:
        return f"did you mean {nearest}?"
    return (
        "write woman, man, newborn, child 4 years, 2T, 6-12 months, 56cm around, or a name of your "
        'own that `stash settings` keeps, as in "size NAME" "around 54cm tall 22cm"'
    )


UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "no_band": (
        "a band",
        "write it like B 2cm bottom, B 5 sts, C 4 rows middle, B 3cm 5cm, B 1/3 top, "
        "B 4cm upright left, or B 30% of 6cm for two colours in a row",
    ),
    "band_out_of_place": (
        "a band",
        "level ones lie at bottom or top, upright ones left or right",
    ),
    "band_of_no_height": ("a band", "give it a height above 0"),
    "band_of_part_stitches": ("a band", "count whole stitches or rows, at least 1"),
    "band_of_too_large_a_share": ("a band", "a share lies between 0 and 100%"),
    "no_stripes": (
        "stripes",
        "write it like A 4 rows, B 2 rows, or A 2cm, B 1cm from 3cm to 15cm",
    ),
    "no_extra": ("an extra", _like_an_extra),
    "extra_of_nothing": (
        "an extra",
        lambda extra: f"{_like_an_extra(extra)}, all above 0",
    ),
    "no_terms": ("whose crochet terms", "choose us or uk"),
    "no_rib": ("a rib", "write it like 2x2 rib, with 1 to 6 of each"),
    "no_fabric": ("a fabric", _FABRIC),
    "fabric_of_many_rows": ("a fabric", "give the rows of one repeat only"),
    "fabric_count_out_of_range": (
        "a fabric",
        "give the rows of one repeat only, at least 1 of each",
    ),
    "only_chains": ("a fabric", "chains alone make no row"),
    "no_stitches_of_a_row": (
        "a fabric",
        "in brackets write the stitches of one row, like (2 sc, ch 1)",
    ),
    "no_post_stitch": ("a fabric", "no {stitch} is worked round a post"),
    "uk_name": ("a fabric in US terms", "{stitch!r} is a UK name, add --terms uk"),
    "us_name": ("a fabric in UK terms", "{stitch!r} is a US name, use --terms us"),
    "knitted_among_crocheted": ("a fabric", "a knitted fabric is one name by itself"),
    "no_stitch": ("a fabric", _near_stitches),
    "no_gauge": ("a gauge", _GAUGE),
    "gauge_without_rows": ("a gauge", f"count the rows as well, {_GAUGE}"),
    "gauge_of_nothing": ("a gauge", "stitches, rows and what they go over are above 0"),
    "no_swatch": ("a swatch", "write it like 12g, 15cm x 14cm"),
    "skeins_of_unknown_length": (
        "so many skeins",
        'count them from 1, and give what one holds: --put-up "100g/200m"',
    ),
    "no_amount_by_role": (
        lambda measure: _BY_ROLE[measure][0],
        lambda measure: f"write it like {_BY_ROLE[measure][1]}, for A, B, C or D",
    ),
    "role_given_twice": (
        lambda measure, role: _BY_ROLE[measure][0],
        lambda measure, role: f"{role} is given twice",
    ),
    "no_margin": ("a margin", "write it like 15%"),
    "no_shape": ("a shape", _no_shape),
    "no_shape_near": (
        "a shape",
        "there is no shape for {thing} here: leave --shape out, and give what its pattern takes, "
        "as in --stated A=900m",
    ),
    "no_ends": ("what becomes of the ends", _one_of),
    "no_crown": ("a crown", _one_of),
    "no_seam": ("a seam", _one_of),
    "no_start": ("where the work begins", _one_of),
    "no_wearer": ("whom it is for", _one_of),
    "no_strands": ("a number of strands", "count them: 1, 2, 3"),
    "no_count_of_squares": ("how many", "give a whole number from 1 to {most}"),
    "no_size": ("a size", _no_size),
    "no_letters": (
        "a size",
        lambda part: (
            f"letters differ from maker to maker: measure the {part}, and give it as in 20cm or 8in"
        ),
    ),
    "no_such_weeks": ("a size", "a baby born early has {first} to {last} weeks; or give 29cm"),
    "no_child_of_that_age": ("a size", "above 18 years write woman, man or adult"),
    "girth_of_nothing": ("a size", "give a girth above 0"),
    "no_ease": ("ease", "write it like -5% or -3cm"),
    "side_of_nothing": ("--{side}", "give a length above 0"),
    "finished_side_of_nothing": ("a side", "give a length above 0"),
    "no_size_of_her_own": ("a size", "write it like around 54cm tall 22cm"),
    "size_of_no_sides": ("a size", "give sides above 0"),
    "brim_below_nothing": ("--brim", "give a height above 0, or none"),
    "size_in_other_sides": ("a size", _measured_with),
    "no_sizes": ("sizes", 'write them like "child 4 years, woman, 58cm x 24cm"'),
}
