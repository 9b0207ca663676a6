"""What a cell, a heading or a whole sheet was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words


def _listed(said: str, choices: Sequence[str]) -> str:
    return f"{said} {', '.join(choices)}"


UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "no_column": ("a column of ours", lambda choices: _listed("choose", choices)),
    "no_heading_of_this_sheet": (
        "a heading of this sheet",
        lambda headings: _listed("it has", headings),
    ),
    "column_mapped_twice": ("{column}", "{heading!r} was mapped to it; map one only"),
    "no_sheet_of_columns": (
        "a sheet of yarn",
        lambda columns: (
            f"no row names two columns or more; head them {', '.join(columns)}, or say "
            "what yours are with --map HEADING=COLUMN"
        ),
    ),
    "sheet_without_rows": ("a sheet of yarn", "no row of it can be taken in"),
    "quotation_out_of_place": (
        "a sheet",
        'from line {line} on a quotation mark is out of place; write "" inside a quoted cell',
    ),
    "no_whole_file": ("a whole file", "take in one that `stash export` gave out"),
    "no_skein_number": (
        "the number of a skein",
        "write a whole number, or leave it blank",
    ),
    "no_lot_record": ("a lot record", "write it like L12, or leave it blank"),
    "count_of_nothing": (
        "a count of skeins",
        "write one from 1 to {most}, or drop the row of yarn that is used up",
    ),
    "no_count_of_skeins": (
        "a count of skeins",
        "write a whole number from 1 to {most}; a part ball has a row of its own",
    ),
    "several_full_skeins": (
        "one full skein",
        "write what one holds; how many goes into `count`",
    ),
    "left_of_a_whole_skein": ("what is left", "leave it blank for a whole skein"),
    "left_of_nothing": ("what is left", "drop the row of a skein that is used up"),
    "skein_of_nothing": ("what a skein holds", "leave it blank where it is not known"),
    "no_origin_of_a_pair": (
        "where the pair is from",
        lambda choices: _listed("write one of", choices),
    ),
    "no_yes": ("yes or no", "write yes, or leave it blank"),
}
