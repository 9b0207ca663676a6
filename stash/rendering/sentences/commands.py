"""Sentences for what was typed with a command and cannot be done, each with the way out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words


def _cannot_sort(by: str, orders: Sequence[str]) -> str:
    return f"cannot sort by {by!r}: choose {', '.join(orders)}"


def _cannot_tell_apart(by: str, ways: Sequence[str]) -> str:
    return f"cannot tell apart by {by!r}: choose {' or '.join(ways)}"


def _no_such_shell(shell: str, shells: Sequence[str]) -> str:
    return f"no words for the shell {shell!r}: choose {', '.join(shells)}"


def _one_kind_of_items(options: Sequence[str]) -> str:
    return f"choose one of {', '.join(options)}"


SENTENCES: Mapping[str, Words] = {
    "no_such_shell": _no_such_shell,
    "letters_unreadable": "some letters typed cannot be read; type them as UTF-8",
    "no_such_user": "there is no such user; give the whole path",
    "system_trouble": "{why}",
    "no_whole_number": "{option} {value}: give a whole number from 1 to {most}",
    # the log and the movement of the shelf
    "from_after_to": "--from {begins} is after --to {ends}: give the earlier day first",
    "cannot_tell_apart": _cannot_tell_apart,
    "sum_of_all": "--sum takes in all of a span: leave --newest and --all out",
    "by_without_sum": "--by tells sums apart: say --sum as well",
    # batches and what is missing
    "books_a_kept_plan": "--aside books a plan that was kept: leave out what plans another",
    "batch_of_one_lot": (
        "a batch takes each role from one lot: leave out --two-lots and --strands-apart"
    ),
    "nothing_typed": "say what came, as you would read its label out; --like L4 is the same again",
    "no_lines": "no line of yarn was given; type one yarn on a line",
    "on_and_opening": "--on and --opening both say when the yarn came: give one of them",
    "nothing_to_match": (
        "say what to match: a kept design by its name, or --need A=165m --need B=12m"
    ),
    "kept_design_has_its_own": "a design has its own: leave out --need, --thickness, --strands",
    "need_option_of_nothing": "--need {role}={typed}: give more than nothing",
    "no_kind_of_sheet": "{file}: the name must end in .csv, .xlsx or .json",
    "bad_lines": ("{count} of the lines cannot be read, none was added: mend them, give all again"),
    "no_plan_to_keep": "nothing can be made, so there is no plan to keep; see it without --save",
    "bought_in_one_lot": "each role is bought in one lot: leave out --two-lots and --strands-apart",
    "nothing_to_buy_for": "say what is wanted: --want 'DESIGN=6', or --need A=1250yd",
    "need_alone": "--need is a want by itself: leave out the plan and --want",
    "put_up_of_need": "--put-up says what --need in grams is of; a kept design has its own",
    # weighing, using, facts
    "row_without_reading": (
        "row {row} goes with what the whole ball weighs, as in 63g --row {row}"
    ),
    "nothing_to_weigh": (
        "say which skein and what the scale shows, as 12 43g; "
        "at a terminal `stash weigh` alone goes from ball to ball"
    ),
    "no_row_number": "type the number of the row, 0 to {most}, or Enter alone",
    "no_reading": "say what the scale shows, as 43g, or what a length weighs: --metre 10m=4.3g",
    "gone_without_reason": "say why it is gone: --why given, sold, lost, spoilt or mistake",
    "no_change": "say what to put right, as in --place 'blue box' or --put-up 100g/200m",
    "nothing_to_change": "say what to change: skeins, as 12,14-17, a lot, a place, or `item 3`",
    "change_of_an_item": "--asked and --hours are of items: `stash change item 3 --asked 28`",
    "change_of_yarn": "items have --note, --asked and --hours; the rest is of yarn, as 12 or L4",
    "no_change_of_item": "say what to change: --note, --asked 28 or --hours 2h10",
    # items
    "one_kind_of_items": _one_kind_of_items,
    "no_kind_of_list": "{file}: the name must end in .csv or .xlsx",
    "no_run_of_numbers": "cannot read {typed!r} as numbers: write the lower first, as 1-12",
    "for_one_item": "{option} is of one item; leave it out, or name one item alone",
    "list_says_all": "--from FILE says all of it: leave out {option}",
    "nothing_to_set_aside": (
        "say what to set aside: DESIGN and a rank or key, --skeins A=12,13, or --note TEXT"
    ),
    "note_without_skein": "--note needs --skein as well: which skein is held aside",
    "no_skein_numbers": (
        "cannot read {typed!r} as skein numbers: write them like {role}=12,13 or {role}=14-17"
    ),
    "no_ball_left": "cannot read {typed!r} after --left: write a skein and its weight, as 17=43g",
    "books_know_weighings": (
        "an item's books know its weighings: give --rows-done, as in --rows-done 40"
    ),
    "goes_with_an_item": (
        "--rows-done and --role go with an item; else give --readings '0:98g 20:81g'"
    ),
    "no_items_sold": "say which items, as 3 or 1,4-12, or give a list with --from market.csv",
    "no_price_paid": "say what the buyer paid, as --for 28.00",
    "no_known_fibre": "{fibre!r} is no fibre known here: write it like elastane or nylon",
    # designs
    "named_and_described": "name a kept design or describe one with options, not both",
    "no_name_of_a_design": (
        "{name!r} cannot be the name of a design: give it a word, so that it is no number"
    ),
    "no_sizes": "say which sizes: --sizes 'child 4 years, woman, 58cm x 24cm'",
    "no_yarn_said": "say what yarn there is: --have A=150m --have B=43g",
    # the shelf, and taking stock of it
    "cannot_sort": _cannot_sort,
    "lost_before_closing": (
        "what is lost is booked when the count is closed: --close --lost {lost}"
    ),
    "no_lost_numbers": (
        "cannot read {typed!r} after --lost: write numbers, as in 42,44, or all-missing"
    ),
    "no_skein_weight": (
        "cannot read {typed!r} after --weigh: write a skein and its weight, as 12=43g"
    ),
    "weighed_and_reckoned": (
        "what came back is weighed or reckoned: give --weighed or --loss, not both"
    ),
    "no_two_skeins": "cannot read {typed!r} after --into: write two skein numbers, as 12=14",
}
