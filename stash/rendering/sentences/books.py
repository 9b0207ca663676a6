"""Sentences about what is booked: why something cannot be, and what is worth saying of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.item import Item


def _promise_short(skein: int, missing: Mass, item: Item, role: str) -> str:
    from stash.rendering import amounts

    return (
        f"short: skein {skein} now lacks {amounts.grams(missing)} of what is set aside for "
        f"item {item}, role {role or 'none'}; fill up from the same lot with `stash match`, "
        f"or `stash release {item.number}`"
    )


def _rest_set_aside(items: Sequence[Item]) -> str:
    listed = ", ".join(map(str, items))
    return f"the rest is set aside for item {listed}; say --for it, or `stash release` it"


def _shelf_not_as_planned(changed: Sequence[Note]) -> str:
    first = ", ".join(sentence(one) for one in changed[:3])
    more = f" and {len(changed) - 3} more" if len(changed) > 3 else ""
    return (
        f"the shelf is not as it was when this was planned: {first}{more}; "
        "plan again with `stash batch`"
    )


def _plan_not_sound(why: Note) -> str:
    return f"this plan does not hold together: {sentence(why)}; plan again with `stash batch`"


def _more_booked(what: str) -> str:
    return what + (
        ": {booked} is booked as used already, more than {weighed}; "
        "weigh the balls instead with --left, or take the use back with `stash undo`"
    )


def _lost_but_set_aside(skeins: Sequence[int]) -> str:
    return (
        f"skein {_numbers(skeins)} is set aside and was not found; "
        "release it first, or leave it out of --lost"
    )


def _numbers(skeins: Sequence[int]) -> str:
    return ", ".join(map(str, skeins))


def _skein_not_used(item: Item, skein: int, used: Sequence[int]) -> str:
    return f"item {item} used no yarn of skein {skein}; it used {_numbers(used)}"


def _below_nothing(skeins: Sequence[int]) -> str:
    return f"skein {_numbers(skeins)} would hold less than nothing"


def _promised_since(skeins: Sequence[int]) -> str:
    return f"yarn of skein {_numbers(skeins)} was promised since"


def _why_gone(reasons: Sequence[str]) -> str:
    *others, last = reasons
    return f"say --why {', '.join(others)} or {last}"


#: What was to be read, and what to write instead.
UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "proposal": (
        "a proposal",
        "give its rank, or its key with a lot for each role, as in L3+L7",
    ),
    "reason_yarn_leaves": ("a reason", _why_gone),
}

SENTENCES: Mapping[str, Words] = {
    "day_not_come": "{day} has not come yet; date it {today} or earlier",
    "promise_short": _promise_short,
    # setting aside
    "no_skein_for_role": "no skein is named for role {role}; add --skeins {role}=…",
    "skein_in_two_roles": "skein {skein} is named for two roles; name another",
    "skein_without_length": "skein {skein} has no length; give its put-up or measure a metre",
    "choice_too_short": (
        "role {role}: the skeins named are {missing} short of what is expected; "
        "name another one with them"
    ),
    "margin_not_whole": "role {role}: covers what is expected, without the whole margin",
    "different_lots": "role {role}: skeins of different lots, compare them in daylight",
    "nothing_set_aside": "nothing is set aside for item {item}",
    "no_design_to_begin": "item {item} only holds yarn aside; it is not a design to begin",
    "begun_before": "item {item} is {item.state} already",
    # a batch set aside
    "shelf_not_as_planned": _shelf_not_as_planned,
    "design_not_there": "design {design!r} is not there",
    "design_put_right": "design {design!r} was put right",
    "design_is_another": "design {design!r} is something else",
    "skein_not_free": "skein {skein} is spent or promised",
    "skein_is_new": "skein {skein} is new",
    "free_not_as_planned": "skein {skein} has {free} free and had {was}",
    "plan_not_sound": _plan_not_sound,
    "skein_lacks": "skein {skein} does not hold {length}",
    "item_lacks": "item {item} lacks yarn of {role}",
    "cuts_of_no_item": "its cuts and its items do not agree",
    # using, and yarn that is gone
    "nothing_free": "skein {skein} has nothing free",
    "amount_above_nothing": "{typed}: an amount above nothing is needed",
    "no_length_to_reckon_with": (
        "skein {skein} has no length to reckon with: say it in grams, or give its "
        "put-up with `stash change {skein} --put-up`"
    ),
    "item_closed": "item {item} is {item.state}; nothing more can be used for it",
    "item_without_design": (
        "item {item} only holds yarn aside; release it, or set yarn aside for a design"
    ),
    "weigh_if_wrong": "weigh it with `stash weigh` if the books are wrong",
    "rest_set_aside": _rest_set_aside,
    # weighing and counting
    "row_of_which_item": ("row {row} of which item? Say --for with it, as in --for 2 --row {row}"),
    "yarn_in_place": "yarn in",
    "count_under_way": "count under way of",
    "count_closed": (
        "the count of {place} is closed (entry {entry}): what is lost of it is booked by "
        "`stash gone 42 --why lost`; to count again, tick what you see with --tick"
    ),
    "nothing_ticked": (
        "nothing was ticked in {place}, so all of it would be lost: tick what you "
        "see with --tick, or name what is lost, as in --lost 42,44"
    ),
    "skein_missing": "skein missing in {place},",
    "lost_but_set_aside": _lost_but_set_aside,
    # finishing
    "used_in_one_way": (
        "say in one way what was used: --left 17=43g for each ball, --weighed 80g, "
        "--weighed A=71g,B=9g, or --as-planned"
    ),
    "more_booked_of_role": _more_booked("role {role}"),
    "more_booked_of_item": _more_booked("item {item}"),
    "skein_never_weighed": (
        "skein {skein} was never weighed, so what it lost is not known; "
        "say what the item weighs with --weighed, or --as-planned"
    ),
    "last_weighed": (
        "skein {skein} was last weighed at {net} (entry {entry}): taken as not worked from since"
    ),
    "taken_as_booked": "skein {skein} was not weighed: taken as used by what is booked of it",
    "taken_as_untouched": "skein {skein} was set aside and not weighed: taken as untouched",
    "no_put_up_for_role": (
        "item {item}: role {role} has no yarn with a known put-up; "
        "say what it took with --weighed A=71g,B=9g, or weigh the balls with --left"
    ),
    "more_than_skeins_hold": (
        "role {role}: {mass} is more than its skeins hold, {missing} short; "
        "say which balls it came from with `stash use`, or weigh them with --left"
    ),
    # winding off, and taking an item apart
    "release_first": "release it first",
    "all_of_skein": "that is all of skein {skein}; nothing is left to split",
    "nothing_to_unravel": "item {item} is {item.state}; there is nothing to unravel",
    "no_yarn_used": "item {item} has used no yarn; release it instead",
    "skein_not_used": _skein_not_used,
    "more_back_than_used": (
        "{back} cannot have come back of the {used} it used; "
        "leave the weight out, then `stash weigh` the skeins that come of it"
    ),
    "loss_of_all": "a loss of {loss:.0%} leaves nothing; give 0 to 99 %",
    "onto_another_lot": "skein {skein} is not of the lot of skein {was}; wind onto one that is",
    "onto_whole_skein": "skein {skein} is whole; wind back onto an opened one, or onto none",
    # taking an entry back, and going back to a copy
    "nothing_to_take_back": "there is nothing to take back",
    "taken_back_before": "entry {entry} was taken back already by entry {by}",
    "entry_is_take_back": "entry {entry} is a take-back itself; do again what it took back",
    "skeins_used_since": "its skeins were used since",
    "item_went_on": "its item went on since",
    "skeins_moved_on": "its skeins moved on since",
    "items_made_since": "items of its design were made since",
    "ordered_since": "its design was ordered since",
    "items_for_order_since": "an item was made for the order since",
    "put_right_again": "the same was put right again since",
    "below_nothing": _below_nothing,
    "below_nothing_on": "skein {skein} would have held {held} on {day}",
    "promised_since": _promised_since,
    "name_borne_by_another": "another design is called {design!r} now",
}
