"""Sentences for what was typed with a command and cannot be done, each with the way out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.her_words import hers
from stash.rendering.sentences import orders, sales
from stash.rendering.sentences.nearest import likely
from stash.rendering.sentences.phrases import either
from stash.rendering.sentences.words import Words


def _cannot_sort(by: str, orders: Sequence[str]) -> str:
    return f"cannot sort by {by!r}{likely(by, orders)}; choose {hers(', '.join(orders))}"


def _cannot_tell_apart(by: str, ways: Sequence[str]) -> str:
    return f"cannot sum by {by!r}{likely(by, ways)}; choose {either(ways)}"


def _no_such_shell(shell: str, shells: Sequence[str]) -> str:
    return f"no words for the shell {shell!r}: choose {', '.join(shells)}"


def _one_kind_of_items(options: Sequence[str]) -> str:
    return f"choose one of {', '.join(options)}"


SENTENCES: Mapping[str, Words] = {
    **orders.REFUSED,
    **sales.REFUSED,
    "no_such_shell": _no_such_shell,
    "letters_unreadable": "some of these letters cannot be read; type them as UTF-8",
    "no_such_user": "no such user; type the whole path",
    "system_trouble": "{why}",
    "no_whole_number": "{option} {value}: use a whole number from 1 to {most}",
    "no_such_port": "no port {port}: use a number from 1 to 65535, or leave --port out",
    # the log and the movement of the shelf
    "from_after_to": "--from {begins} is after --to {ends}; put the earlier day first",
    "cannot_tell_apart": _cannot_tell_apart,
    "sum_of_all": "--sum adds up a whole span; leave out --newest and --all",
    "sum_of_all_kinds": "--sum adds up every entry; leave out --kind and --device",
    "by_without_sum": "--by goes with --sum; add --sum",
    # batches and what is missing
    "books_a_kept_plan": "--aside takes a saved plan as it is; leave out whatever plans another",
    "batch_of_one_lot": (
        "a batch takes each colour from one lot; leave out --two-lots and --strands-apart"
    ),
    "nothing_typed": (
        'what came? Type the label: stash add "Fell Wool DK, 3 x 50g/120m, navy"; or --like L4'
    ),
    "no_lines": "no yarn typed; type one yarn on each line",
    "on_and_opening": "--on and --opening both say when the yarn came; keep one",
    "nothing_to_match": ("match for what? Name a design, or say --need A=165m --need B=12m"),
    "kept_design_has_its_own": (
        "a design has its own yarn needs; leave out --need, --thickness and --strands"
    ),
    "need_option_of_nothing": "--need {role}={typed}: write more than 0",
    "no_kind_of_sheet": "{file}: the name must end in .csv, .xlsx or .json",
    "lines_to_fix": lambda count: (
        f"{'1 line needs' if count == 1 else f'{count} lines need'} a look first; nothing was added"
    ),
    "bad_lines": (
        "{count} of the lines cannot be read, so none was added; fix them and add all again"
    ),
    "no_plan_to_keep": (
        "nothing can be made, so there is no plan to save; leave out --save to see why"
    ),
    "bought_in_one_lot": "you buy one lot a colour; leave out --two-lots and --strands-apart",
    "nothing_to_buy_for": "what do you want to make? Add --want 'DESIGN=6', or --need A=1250yd",
    "need_alone": "--need says it all; leave out the plan and --want",
    "put_up_of_need": "--full goes with --need in grams; a design has its own, so leave it out",
    # weighing, using, facts
    "reading_and_metre": "weigh the skein or a length of it; type one and leave the other out",
    "row_without_reading": ("a row needs the weight of the ball with it, as in 63g --row {row}"),
    "aside_without_note": "write what you set it aside for, as: for a cushion",
    "no_reading": (
        "what does the scale show? Type 43g, or a length and its weight: --metre 10m=4.3g"
    ),
    "nothing_to_weigh": (
        "which skein, and what does the scale show? Type 12 43g; "
        "at a terminal `stash weigh` alone goes from ball to ball"
    ),
    "no_row_number": "type the row as a number from 0 to {most}, or press Enter",
    "gone_without_reason": "why is it gone? Add --why given, sold, lost, spoilt or mistake",
    "no_change": "change what? Add --place 'blue box', --full 100g/200m or the like",
    "nothing_to_change": "change which? Name skeins, as 12,14-17, a lot, a place, or `item 3`",
    "change_of_an_item": (
        "--asked, --hours and --order belong to an item: `stash change item 3 --order 2`"
    ),
    "change_of_yarn": (
        "an item has --note, --asked, --hours and --order; the rest belongs to yarn, as 12 or L4"
    ),
    "no_change_of_item": "change what? Add --note, --asked 28, --hours 2h10 or --order 2",
    # items
    "one_kind_of_items": _one_kind_of_items,
    "no_kind_of_list": "{file}: the name must end in .csv or .xlsx",
    "no_run_of_numbers": "cannot read {typed!r} as numbers; write the lower first, as 1-12",
    "run_too_long": "{typed} is more than {most} at once; do them in several runs",
    "for_one_item": "{option} is for one item; leave it out, or name one item alone",
    "list_says_all": "the list says it all; leave out {option}",
    "nothing_to_set_aside": ("set aside for what? Name a design, or --note TEXT --skein 12"),
    "note_without_skein": "--note needs --skein too: which skein is it?",
    "no_skein_numbers": "cannot read {typed!r} as skein numbers; write them like {role}=12,13",
    "no_ball_left": "cannot read {typed!r} after --left; write a skein and its weight, as 17=43g",
    "books_know_weighings": ("an item remembers its weighings; just add --rows-done 40"),
    "goes_with_an_item": (
        "--rows-done and --colour need an item; without one type --readings '0:98g 20:81g'"
    ),
    "no_known_fibre": "{fibre!r} is not a fibre we know; write it like elastane or nylon",
    "no_items_sold": "which items? Type numbers, as 3 or 1,4-12, or a list: --from market.csv",
    # designs
    "named_and_described": "name a design or describe one with options, not both",
    "no_sizes": "which sizes? Add --sizes 'child 4 years, woman, 58cm x 24cm'",
    "no_yarn_said": "what yarn do you have? Add --have A=150m --have B=43g",
    # the shelf, and taking stock of it
    "cannot_sort": _cannot_sort,
    "lost_before_closing": (
        "lost yarn is recorded when you close the count: --close --lost {lost}"
    ),
    "no_lost_numbers": (
        "cannot read {typed!r} after --lost; write numbers, as in 42,44, or all-missing"
    ),
    "no_skein_weight": (
        "cannot read {typed!r} after --weigh; write a skein and its weight, as 12=43g"
    ),
    "weighed_and_reckoned": ("weigh what came back or estimate it: --weighed or --loss, not both"),
    "no_two_skeins": "cannot read {typed!r} after --into; write two skein numbers, as 12=14",
}
