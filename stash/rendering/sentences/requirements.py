"""Sentences about what a design takes: where figures come from, and what to make of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.length import Length
from stash.measures.note import Note
from stash.measures.rounding import two_figures
from stash.rendering.amounts import counted
from stash.rendering.figures import near, of_metres
from stash.rendering.sentences.designs import cm
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
    size = ", ".join(map(_side, sides, words, asked))
    told = [f"{stitches} stitches by {rows} {'rounds' if rounds else 'rows'}: {size}"]
    told += [f"{name} {widest} by {tall}" for name, widest, tall in others]
    told += [f"{made} of them"] if made > 1 else []
    return f"worked out as {'; '.join(told)}"


def _side(side: Length, word: str, asked: Length) -> str:
    """What whole stitches or rows come to, and what was asked where that shows."""
    other = cm(asked) != cm(side)
    return f"{cm(side)} {word}" + (f" ({cm(asked)} asked)" if other else "")


def _repeat_does_not_meet(repeat: int, rows: int) -> str:
    past = rows % repeat
    fewer = f"{rows - past} or " if rows > past else ""
    return (
        f"the repeat of {repeat} rows ends after row {past} where the last row meets the "
        f"first: {fewer}{rows - past + repeat} rows close it"
    )


def _more_than_plain(row: FabricRow, more: float) -> str:
    return (
        f"{more:.0%} more than plain fabric is taken for {row}: "
        "the fabric's own relaxed gauge makes this surer"
    )


def _figure_for_buying(role: str, skeins: int) -> str:
    least = f"more than {skeins - 1}" if skeins > 1 else "some of one"
    return (
        f"{role}: {counted(skeins, 'whole skein')} is a figure for "
        f"buying: {least} and no more than {skeins} will go into it"
    )


_PLACES = {
    PrintedPlace.BELOW: "below what is expected",
    PrintedPlace.BETWEEN: "between expected and set aside",
    PrintedPlace.ABOVE: "above set aside",
}


def _printed_beside_estimate(
    role: str,
    printed: Length,
    place: PrintedPlace,
    source: Source,
    expected_m: float,
    set_aside_m: float,
) -> str:
    return (
        f"{role}: the pattern's own {near(of_metres(printed.m))} lies {_PLACES[place]} by "
        f"{source}: {near(of_metres(expected_m))} and {near(of_metres(set_aside_m))}"
    )


def _sources_far_apart(
    role: str, source: Source, expected_m: float, other_source: Source, other_expected_m: float
) -> str:
    return (
        f"{role}: {source} says {two_figures(expected_m):g} m, "
        f"{other_source} {two_figures(other_expected_m):g} m, more than two "
        "spreads apart: look at both again"
    )


def _learned_from_items(count: int, stitches: Sequence[str], more: float) -> str:
    what = f"in {', '.join(stitches)}" if stitches else "in other stitches"
    yours = f"your {counted(count, 'finished item')} {what}"
    if round(100 * more) == 0:
        return f"{yours} agree with the model: counted in, it is surer by that"
    way = "more" if more > 0 else "less"
    return f"{yours} say {abs(more):.0%} {way} than the model: counted in"


def _items_carried_over(count: int) -> str:
    items = "1 item was" if count == 1 else f"{count} items were"
    return f"{items} made in another size: carried over as the model goes"


#: How what goes beside the fabric was worked out, and where that is from.
_BASES = {
    Kind.POMPOM: "by its weight; one maker's weblog, 2019",
    Kind.TASSEL: "30 turns; two makers' pages, 25 and 36",
    Kind.FRINGE: "150 strands a metre; common practice, no source",
    Kind.CORD: "8 times its length; a yarn maker's tutorial",
    Kind.CHAIN: "5 times its length; one maker's experiment",
    Kind.FLAP: "fabric, two thirds of its rectangle",
    Kind.EDGING: "single crochet, 8 times the edge; by geometry",
    "joined_squares": "by geometry",
}


def extra_words(one: ExtraYarn) -> str:
    """What goes beside the fabric, as it was typed: `pompom 6 cm`, `joining 24 squares`."""
    return _joined_squares(**one.what.facts) if isinstance(one.what, Note) else str(one.what)


def _joined_squares(count: int) -> str:
    return f"joining {count} squares"


def basis(one: ExtraYarn) -> str:
    """How what an extra takes was worked out, and where that is from."""
    return _BASES[one.what.kind]


def _extra_not_known(extra: Extra) -> str:
    return (
        f"what the {extra} takes of {extra.role} cannot be told: give the shape, size, "
        "--fabric and --gauge of the design, and --put-up or --thickness"
    )


SENTENCES: Mapping[str, Words] = {
    # what is worked out by rows
    "worked_out_as": _worked_out_as,
    "folded_up": lambda folded, seen: f"{cm(folded)} of it are folded up: {cm(seen)} are seen",
    "bands_from_centre": (
        "bands are placed from the centre outwards: bottom is the centre, top the rim"
    ),
    "begun_from_top": "begun from the {start}: row 1 is there, bands are still placed from below",
    "colours_carried": "a colour is carried up the edge {times} times, {takes:g} x what it passes",
    "colours_cut": "a colour is cut and begun anew {times} times, with two tails each time",
    "mixed_rows": lambda roles: (
        f"{', '.join(roles)} and what is there go along unworked in mixed rows"
    ),
    "repeat_does_not_meet": _repeat_does_not_meet,
    "usual_gauge_taken": lambda stitches, rows: (
        f"no gauge given: the usual {float(stitches):.3g} stitches by "
        f"{float(rows):.3g} rows to 4 in are taken; a swatch makes this surer"
    ),
    "worked_close": "a {shape} is worked closer than a scarf: the closest stitches are taken",
    "more_than_plain": _more_than_plain,
    "thickness_guessed": (
        "no put-up or class given: the yarn's thickness is guessed from the gauge"
    ),
    "too_thick_for_gauge": (
        "this yarn is too thick to knit at this gauge: look at the gauge and the put-up again"
    ),
    # the yarn of a plan
    "any_thickness_fits": "no thickness given: any will do; --thickness narrows it",
    "thickness_by_put_up": "no thickness class given: it is about {thickness} by its put-up",
    "usual_put_up_taken": (
        "no put-up given: {m_per_100g:.0f} m to 100 g is taken, as is usual "
        "for the class; the band's own pair makes this surer"
    ),
    "strands_together": (
        "{strands} strands together: {m_per_100g:.0f} m to 100 g, about class "
        "{thickness} as a hint; the lengths are of all strands added up"
    ),
    "joined_squares": _joined_squares,
    # figures beside each other
    "printed_figure_may_hold_margin": "a printed figure often holds a margin already",
    "figure_for_buying": _figure_for_buying,
    "printed_beside_estimate": _printed_beside_estimate,
    "margin_leaves_chance": (
        "{role}: a margin of {margin:.0%} on a spread of {spread:.0%} "
        "leaves a chance of {chance:.0%} that it is enough"
    ),
    "sources_far_apart": _sources_far_apart,
    # what was made before
    "learned_from_items": _learned_from_items,
    "items_carried_over": _items_carried_over,
    "stated_figure_carried_over": (
        "the stated figure was given for another size: carried over as the model goes"
    ),
    "weighed_item_carried_over": (
        "the weighed item had another size: carried over as the model goes"
    ),
    # nothing to go by
    "need_not_known": (
        "nothing says what this design takes: give its --shape, size, --fabric and --gauge, "
        "or --stated, as in A=200yd"
    ),
    "design_has_no_fabric": (
        "the fabric is not known: give --fabric with the rows of one repeat, "
        "as in 'stockinette' or '1 hdc, 2 sl st blo'"
    ),
    "design_has_no_gauge": (
        "the gauge is not known: give --gauge, as in '14 sts x 22 rows', or --swatch, "
        "or at least --thickness for its usual gauge"
    ),
    "extra_not_known": _extra_not_known,
    "another_size_not_known": (
        "how much more or less another size takes cannot be told: "
        "give the design its shape and size, best with --fabric and --gauge"
    ),
    "mass_not_in_metres": (
        "{mass} of this yarn cannot be told in metres: "
        'give its put-up, as in --put-up "100g/180m", or at least --thickness'
    ),
    "shares_not_known": (
        "nothing says how a finished item's yarn is shared by its colours: "
        "give --fabric and --gauge, or weigh by colour, as in --weighed A=71g,B=9g"
    ),
}
