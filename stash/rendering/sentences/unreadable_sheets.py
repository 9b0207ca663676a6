"""What a cell, a heading or a whole sheet was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words


def _listed(said: str, choices: Sequence[str]) -> str:
    return f"{said} {', '.join(choices)}"


UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "no_column": ("a column", lambda choices: _listed("choose", choices)),
    "no_heading_of_this_sheet": (
        "a heading of this sheet",
        lambda headings: _listed("it has", headings),
    ),
    "column_mapped_twice": ("{column}", "{heading!r} is mapped to it already; keep one"),
    "no_sheet_of_columns": (
        "a sheet of yarn",
        lambda columns: (
            f"it needs a row of headings, like {', '.join(columns)}; or say what yours mean "
            "with --map HEADING=COLUMN"
        ),
    ),
    "sheet_without_rows": ("a sheet of yarn", "none of its rows can be imported"),
    "quotation_out_of_place": (
        "a sheet",
        'a quotation mark is out of place at line {line}; write "" for one inside a quoted cell',
    ),
    "no_whole_file": ("a whole file", "choose a .json file that `stash export` wrote"),
    "no_skein_number": (
        "the number of a skein",
        "write a whole number, or leave it blank",
    ),
    "no_lot_record": ("one of your lots", "write it like L12, or leave it blank"),
    "count_of_nothing": (
        "a count of skeins",
        "write 1 to {most}, or delete the row if the yarn is used up",
    ),
    "no_count_of_skeins": (
        "a count of skeins",
        "write 1 to {most}; a part ball needs its own row",
    ),
    "several_full_skeins": (
        "one full skein",
        "write what one skein holds; how many goes into `count`",
    ),
    "left_of_a_whole_skein": ("what is left", "leave it blank for a whole skein"),
    "left_of_nothing": ("what is left", "delete the row if the skein is used up"),
    "skein_of_nothing": ("what a skein holds", "leave it blank where it is not known"),
    "no_origin_of_a_pair": (
        "where the figures of a full skein are from",
        lambda choices: _listed("write one of", choices),
    ),
    "no_yes": ("yes or no", "write yes, or leave it blank"),
}
