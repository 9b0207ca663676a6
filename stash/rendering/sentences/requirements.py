"""Sentences about what a design takes: where figures come from, and what to make of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.length import Length
from stash.measures.note import Note
from stash.rendering.amounts import counted
from stash.rendering.figures import Figure, edge, near, of_metres, screen, size, up
from stash.rendering.her_words import hers, thickness_name
from stash.rendering.sentences.phrases import source_words
from stash.rendering.sentences.words import Words
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.fabric import FabricRow
from stash.requirements.design.shapes import BUILDS, Shape
from stash.requirements.yarn.need import ExtraYarn, Source
from stash.requirements.yarn.printed import PrintedPlace

#: The body of a sock is one tube from leg to foot.
_SOCK_SIDES = ("around", "from cuff to toe")


def _worked_out_as(
    shape: Shape,
    sides: Sequence[Length],
    asked: Sequence[Length],
    rounds: bool,
    parts: Sequence[tuple[str, int, int]],
    made: int,
) -> str:
    (_, stitches, rows), *others = parts
    words = _SOCK_SIDES if shape is Shape.SOCK else BUILDS[shape].words
    made_of = [f"{stitches} stitches by {rows} {'rounds' if rounds else 'rows'}"]
    made_of += [f"{name} {widest} by {tall}" for name, widest, tall in others]
    made_of += [f"make {made}"] if made > 1 else []
    return f"{', '.join(map(_side, sides, words, asked))}: {'; '.join(made_of)}"


def _side(side: Length, word: str, asked: Length) -> str:
    """What whole stitches or rows come to, and what was asked where that shows."""
    shown, wanted = size(side), size(asked)
    unit = f" {screen().units.size}"
    return f"{shown} {word}" + (f" ({wanted.removesuffix(unit)} asked)" if wanted != shown else "")


def _repeat_does_not_meet(repeat: int, rows: int) -> str:
    past = rows % repeat
    fewer = f"{rows - past} or " if rows > past else ""
    return (
        f"The last row meets the first after row {past} of the {repeat} rows of your fabric; "
        f"{fewer}{rows - past + repeat} rows end with a whole repeat."
    )


def _more_than_plain(row: FabricRow, more: float) -> str:
    return (
        f"Counted {more:.0%} more yarn for {row} than for plain fabric; "
        "add --gauge from a swatch of this fabric to be surer."
    )


def _figure_for_buying(role: str, skeins: int) -> str:
    least = f"more than {skeins - 1}" if skeins > 1 else "some of it"
    return f"{role}: {counted(skeins, 'skein')} is what to buy; it uses {least}, at most {skeins}."


def _printed_beside_estimate(
    role: str,
    printed: Length,
    place: PrintedPlace,
    source: Source,
    expected_m: float,
    set_aside_m: float,
) -> str:
    least = f"{near(of_metres(expected_m))} expected {source_words(source)}"
    most = f"{up(of_metres(set_aside_m))} to set aside"
    lies = {
        PrintedPlace.BELOW: f"less than the {least}",
        PrintedPlace.BETWEEN: f"between the {least} and the {most}",
        PrintedPlace.ABOVE: f"more than the {most}",
    }[place]
    return f"{role}: the pattern's {near(printed)} is {lies}."


def _sources_far_apart(
    role: str, source: Source, expected_m: float, other_source: Source, other_expected_m: float
) -> str:
    return (
        f"{role}: {_roughly(expected_m)} {source_words(source)}, but {_roughly(other_expected_m)} "
        f"{source_words(other_source)}. Too far apart: check both."
    )


def _roughly(length_m: float) -> Figure:
    return near(of_metres(length_m))


def _learned_from_items(
    count: int, stitches: Sequence[str], thickness: tuple[int, int] | None, more: float
) -> str:
    yarn = (f"{thickness_name(*thickness)} yarn",) if thickness else ()
    fabric = f"in {', '.join((*stitches, *yarn)) or 'other stitches'}"
    yours = f"your {counted(count, 'finished item')} {fabric}"
    one = count == 1
    if round(100 * more) == 0:
        return f"Surer, as {yours} took what the gauge says."
    return (
        f"Counts in {yours}: {'it' if one else 'they'} took {abs(more):.0%} "
        f"{'more' if more > 0 else 'less'} than the gauge says."
    )


def _items_carried_over(count: int) -> str:
    items = "1 item was" if count == 1 else f"{count} items were"
    return f"{items} another size; worked out for this one."


#: How an extra was worked out, and where that is from.
_BASES = {
    Kind.POMPOM: "by its weight; one maker's blog, 2019",
    Kind.TASSEL: "30 turns; two makers' pages, 25 and 36",
    Kind.FRINGE: "150 strands a metre; common practice, no source",
    Kind.CORD: "8 times its length; a yarn maker's tutorial",
    Kind.CHAIN: "5 times its length; one maker's experiment",
    Kind.FLAP: "fabric, two thirds of its rectangle",
    Kind.EDGING: "single crochet, 8 times the edge; by geometry",
    "joined_squares": "by geometry",
}


def extra_words(one: ExtraYarn) -> str:
    """What is added to the fabric, as it was typed: `pompom 6 cm`, `joining 24 squares`."""
    return _joined_squares(**one.what.facts) if isinstance(one.what, Note) else _extra(one.what)


def _extra(extra: Extra) -> str:
    sides = " x ".join(map(edge, extra.lengths))
    times = "" if extra.count is None else f"x {extra.count}"
    return " ".join(part for part in (extra.kind.value, sides, times) if part)


def _joined_squares(count: int) -> str:
    return f"joining {count} squares"


def basis(one: ExtraYarn) -> str:
    """How what an extra takes was worked out, and where that is from."""
    return hers(_BASES[one.what.kind])


def _extra_not_known(extra: Extra) -> str:
    return (
        f"how much {extra.role} the {_extra(extra)} takes is not known; add the shape, size, "
        "--fabric and --gauge of the design, and --full or --thickness"
    )


def _folded_up(folded: Length, seen: Length) -> str:
    return f"{size(folded)} of it folds up as a brim; {size(seen)} is seen."


SENTENCES: Mapping[str, Words] = {
    # what is worked out by rows
    "worked_out_as": _worked_out_as,
    "folded_up": _folded_up,
    "bands_from_centre": "Bands count from the centre out: bottom is the centre, top the edge.",
    "begun_from_top": ("Begins at the {start}: row 1 is there. Bands still count from the bottom."),
    "colours_carried": lambda times, takes: (
        hers("A colour is carried up the edge ")
        + f"{_times(times)}, {takes:g} times what it passes."
    ),
    "colours_cut": lambda times: (
        f"{hers('A colour is cut and joined again')} {_times(times)}, two tails each time."
    ),
    "mixed_rows": lambda roles: (
        f"In mixed rows {', '.join(roles)} and {hers('the colour around it')} are carried along."
    ),
    "repeat_does_not_meet": _repeat_does_not_meet,
    "usual_gauge_taken": lambda stitches, rows: (
        f"No gauge yet: counted with a usual {float(stitches):.3g} stitches by "
        f"{float(rows):.3g} rows to 4 in. Add --gauge from your swatch to be surer."
    ),
    "worked_close": "A {shape} is worked tighter than a scarf, so counted with tight stitches.",
    "more_than_plain": _more_than_plain,
    "thickness_guessed": (
        "The yarn's thickness is a guess from the gauge; add --full or --thickness to be surer."
    ),
    "too_thick_for_gauge": (
        "This yarn is too thick to knit at this gauge: check the gauge and the full skein."
    ),
    # the yarn of a plan
    "any_thickness_fits": "Any thickness fits; --thickness narrows it.",
    "thickness_by_put_up": lambda thickness: (
        f"Counted as {thickness_name(thickness, thickness)}, from what a full skein holds."
    ),
    "usual_put_up_taken": lambda m_per_100g: (
        f"Counted with a usual {near(of_metres(m_per_100g))} to 100 g; "
        "add --full from the band to be surer."
    ),
    "strands_together": lambda strands, m_per_100g, thickness: (
        f"{strands} strands held together are about {thickness_name(thickness, thickness)} "
        f"({near(of_metres(m_per_100g))} per 100 g); lengths are of all strands."
    ),
    "joined_squares": _joined_squares,
    # one figure and another
    "printed_figure_may_hold_margin": "A pattern's figure often has some extra in it already.",
    "figure_for_buying": _figure_for_buying,
    "printed_beside_estimate": _printed_beside_estimate,
    "margin_leaves_chance": (
        "{role}: a margin of {margin:.0%} is enough in {chance:.0%} of cases, as the estimate "
        "varies by {spread:.0%}."
    ),
    "sources_far_apart": _sources_far_apart,
    # what was made before
    "learned_from_items": _learned_from_items,
    "items_carried_over": _items_carried_over,
    "stated_figure_carried_over": "Your figure was for another size; worked out for this one.",
    "weighed_item_carried_over": (
        "The item you weighed was another size; worked out for this one."
    ),
    "role_lacks": lambda role, length: f"{role} is {up(length)} short",
    # nothing to go by
    "need_not_known": (
        "how much yarn does it take? add --shape, size, --fabric and --gauge, "
        "or the pattern's figure, as in --stated A=200yd"
    ),
    "design_has_no_fabric": (
        "which stitches? add --fabric with the rows of one repeat, "
        "as in 'stockinette' or '1 hdc, 2 sl st blo'"
    ),
    "design_has_no_gauge": (
        "which gauge? add --gauge, as in '14 sts x 22 rows', or --swatch, "
        "or at least --thickness for a usual one"
    ),
    "extra_not_known": _extra_not_known,
    "another_size_not_known": (
        "what another size takes is not known; "
        "add the design's --shape and size, best with --fabric and --gauge"
    ),
    "mass_not_in_metres": lambda mass: (
        f"how long are {near(mass)} of this yarn? add what a full skein holds, "
        'as in --full "100g/180m", or at least --thickness'
    ),
    "shares_not_known": (
        "how much of the weight is each colour? add --fabric and --gauge, "
        "or weigh by colour, as in --weighed A=71g,B=9g"
    ),
}


def _times(count: int) -> str:
    return "once" if count == 1 else "twice" if count == 2 else f"{count} times"
