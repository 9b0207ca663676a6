"""What a label line was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words

_ONE_LINE = "one line of yarn"
_LINE = "a line of yarn"
_A_LINE_A_LOT = "write one line for each lot, with its own count"


def _a_line_each(lots: Sequence[tuple[str, str]]) -> str:
    ways = " and ".join(f"`… x{count}, lot {lot}`" for count, lot in lots)
    return f"write one line for each lot: {ways}"


UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "label_too_long": (_LINE, "keep it under {most} letters"),
    "label_points_elsewhere": (_LINE, "it points to another line; write the yarn out"),
    "label_of_made_things": (_LINE, "this counts finished things, not yarn"),
    "too_much_for_a_skein": (
        _LINE,
        "no skein holds that much; write it like `10 balls of 50g`",
    ),
    "no_label": (_LINE, "it needs a name, like `Harbour DK, 50g/125m, navy, lot 12`"),
    "full_skein_of_nothing": (_LINE, "the {measure} of a full skein must be more than 0"),
    "core_outweighs_all": (_LINE, "the core weighs more than all of it; check both"),
    "figure_without_meaning": (
        "an amount or a price",
        "for a price write {figure} USD or put the $ in single quotes; for yarn add the unit",
    ),
    "several_lots": (_ONE_LINE, _A_LINE_A_LOT),
    "several_lots_in_a_field": ("one dye lot", _A_LINE_A_LOT),
    "lots_with_counts": (_ONE_LINE, _a_line_each),
    "colours_with_counts": (_ONE_LINE, "write one line for each colour, with its own count"),
    "two_colour_numbers": (_ONE_LINE, "keep one colour number, and say what the other is"),
    "unclear_number": (_ONE_LINE, "say what #{digit} is, or leave it out"),
    "opened_of_how_many": (_ONE_LINE, "how many skeins are there in all?"),
    "skeins_below_one": ("a number of skeins", "count from 1 up"),
    "all_is_used": ("yarn you have", "none of it is left; leave the line out"),
    "used_of_unknown": (
        "what is left",
        "say how much is left, or what a full skein weighs",
    ),
    "used_more_than_full": ("what is left", "that is more used than a full skein holds"),
    "left_more_than_full": (
        "an opened skein",
        "that is more than a full one holds; write it on its own line",
    ),
    "share_of_unknown": (
        "how much is left",
        "say what a full skein weighs, like `100g`, or weigh what is left",
    ),
    "part_of_unknown": (
        "how much is left",
        "say what a full skein weighs, or weigh the opened one",
    ),
    "opened_without_amount": (
        "a line of whole skeins",
        "say what is left of the opened one, like `43g left`, or weigh it",
    ),
    "two_prices": ("one price", "write `3.20 each` or what was paid for the line"),
    "deal_of_nothing": ("a price", "a deal needs at least one skein"),
    "deal_and_more": ("a price", "say what was paid for all {count}"),
    "shares_without_fibres": ("a blend", "name the fibres, like {like}"),
}
