"""Sentences about what is done with yarn: why something cannot be, and what is worth saying."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.amounts import numbers
from stash.rendering.her_words import hers
from stash.rendering.sentences.phrases import joined
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.item import Item


def _promise_short(skein: int, missing: Mass, item: Item, role: str) -> str:
    colour = f", {role}" if role else ""
    return (
        f"Short: skein {skein} has {figures.up(missing)} less than is set aside for "
        f"item {item}{colour}. What to buy: `stash short`; else `stash release {item.number}`"
    )


def _rest_set_aside(items: Sequence[Item]) -> str:
    first, that = items[0].number, "that" if len(items) == 1 else "one of them"
    return (
        f"{_held_for(items)}; if it is for {that}, add --for {first}, else `stash release {first}`"
    )


def _rest_to_release(items: Sequence[Item]) -> str:
    return f"{_held_for(items)}; `stash release {items[0].number}` frees it"


def _held_for(items: Sequence[Item]) -> str:
    return f"the rest is set aside for item {joined(map(str, items))}"


def _row_of_which_item(row: int, items: Sequence[Item]) -> str:
    if not items:
        return f"row {row} of which item? None is begun: `stash begin 2`, or leave --row out"
    typed = " or ".join(f"--for {item.number}" for item in items)
    return f"row {row} of which item? Begun: {joined(map(str, items))}. Add {typed}"


def _choice_too_short(role: str, missing: Length) -> str:
    return (
        f"{role}: these skeins are {figures.up(missing)} short of what is expected; "
        f"add another, as in --skeins {role}=12,13"
    )


def _shelf_not_as_planned(changed: Sequence[Note]) -> str:
    first = ", ".join(sentence(one) for one in changed[:3])
    more = f" and {len(changed) - 3} more" if len(changed) > 3 else ""
    return f"the shelf has changed since this plan: {first}{more}; plan again with `stash batch`"


def _plan_not_sound(why: Note) -> str:
    return f"this plan does not add up: {sentence(why)}; plan again with `stash batch`"


def _more_booked(booked: Mass, weighed: Mass, item: Item | None = None, role: str = "") -> str:
    what = f"item {item}" if item else role
    return (
        f"{what}: {figures.near(booked)} is used already, more than {figures.near(weighed)}; "
        "weigh the balls (--left 17=43g), or cancel the use (`stash log`, `stash undo`)"
    )


def _more_than_skeins_hold(role: str, mass: Mass, missing: Mass) -> str:
    return (
        f"{role}: {figures.near(mass)} is {figures.up(missing)} more than its skeins have; "
        "weigh the balls (--left 17=43g), or first note what came from elsewhere with `stash use`"
    )


def _lost_but_set_aside(skeins: Sequence[int]) -> str:
    it, is_ = ("it", "is") if len(skeins) == 1 else ("them", "are")
    return (
        f"{_skeins(skeins)} {is_} missing, but set aside: `stash release` the item first, "
        f"or leave {it} out of --lost"
    )


def _skeins(skeins: Sequence[int]) -> str:
    return f"skein{'s' if len(skeins) > 1 else ''} {numbers(skeins)}"


def _skein_not_used(item: Item, skein: int, used: Sequence[int]) -> str:
    return f"item {item} used no yarn of skein {skein}; it used {_skeins(used)}"


def _below_nothing(skeins: Sequence[int]) -> str:
    return f"{_skeins(skeins)} would hold less than nothing"


def _below_nothing_on(skein: int, held: Mass, day: date) -> str:
    return f"on {day} skein {skein} would have been {figures.up(-held)} short"


def _promised_since(skeins: Sequence[int]) -> str:
    return f"yarn of {_skeins(skeins)} is set aside for something else by now"


def _more_back_than_used(back: Mass, used: Mass) -> str:
    return (
        f"{figures.near(back)} cannot come back from {figures.near(used)} used; "
        "leave --weighed out, then `stash weigh` the skeins you get"
    )


def _why_gone(reasons: Sequence[str]) -> str:
    *others, last = reasons
    return f"say --why {', '.join(others)} or {last}"


#: What was to be read, and what to write instead.
UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "proposal": (
        "one of the sets",
        "type its number, or a lot for each colour, as in L3+L7",
    ),
    "reason_yarn_leaves": ("a reason", _why_gone),
    "kind_of_entry": ("a kind of entry", lambda choices: f"choose from {', '.join(choices)}"),
}


def _role_not_set_aside(item: Item, role: str, roles: Sequence[str]) -> str:
    there = f"; {hers('its colours with yarn set aside are')} {', '.join(roles)}"
    nothing = f"nothing is set aside for {hers('colour')} {role} of item {item}"
    return nothing + (there if len(roles) > 1 else f"; only for {roles[0]}" if roles[0] else "")


SENTENCES: Mapping[str, Words] = {
    "day_not_come": "{day} is still to come; type {today} or an earlier day",
    "promise_short": _promise_short,
    # setting aside
    "no_skein_for_role": "which skeins for {role}? Add --skeins {role}=12",
    "skein_in_two_roles": "skein {skein} is named for two colours; name another for one of them",
    "skein_without_length": (
        "the length of skein {skein} is not known; set it with "
        "`stash change {skein} --full 100g/200m`, or `stash weigh {skein} --metre 10m=4.3g`"
    ),
    "choice_too_short": _choice_too_short,
    "margin_not_whole": "{role}: enough for the estimate, but not for the whole margin",
    "different_lots": "{role}: different dye lots; compare them in daylight",
    "nothing_set_aside": "nothing is set aside for item {item}",
    "role_not_set_aside": _role_not_set_aside,
    "no_design_to_begin": (
        "item {item} only holds yarn aside; to begin a design: `stash aside DESIGN`"
    ),
    "begun_before": "item {item} is already {item.state}",
    # a batch set aside
    "shelf_not_as_planned": _shelf_not_as_planned,
    "design_not_there": 'the design "{design}" is gone',
    "design_put_right": 'the design "{design}" was changed',
    "design_is_another": 'the design "{design}" is a different one',
    "skein_not_free": "skein {skein} is used or set aside",
    "skein_is_new": "skein {skein} is new",
    "free_not_as_planned": lambda skein, free, was: (
        f"skein {skein} has {figures.down(free)} free, not {figures.down(was)}"
    ),
    "plan_not_sound": _plan_not_sound,
    "skein_lacks": lambda skein, length: f"skein {skein} does not hold {figures.up(length)}",
    "item_lacks": "item {item} is short of {role}",
    "cuts_of_no_item": "its cuts and its items do not agree",
    # using, and yarn that is gone
    "nothing_free": "nothing of skein {skein} is free; `stash show {skein}` shows why",
    "amount_above_nothing": "{typed} is nothing; type an amount, as in 43g or 180yd",
    "no_length_to_reckon_with": (
        "the length of skein {skein} is not known: type grams, "
        "or set it with `stash change {skein} --full 100g/200m`"
    ),
    "item_closed": "item {item} is {item.state}, so no more yarn can go into it",
    "item_without_design": (
        "item {item} only holds yarn aside; "
        "`stash release {item.number}` first, then `stash aside` for a design"
    ),
    "weigh_if_wrong": "if there is more, weigh it: `stash weigh {skein} 43g --recount`",
    "rest_set_aside": _rest_set_aside,
    "rest_to_release": _rest_to_release,
    # weighing and counting
    "row_of_which_item": _row_of_which_item,
    "yarn_in_place": "yarn in",
    "count_under_way": "open count of",
    "count_closed": (
        "the count of {place} is closed (entry {entry}): if something is lost, "
        '`stash gone 42 --why lost`; to count again, `stash count "{place}" --tick 12`'
    ),
    "nothing_ticked": (
        "nothing is ticked in {place} yet, so all of it would be lost: tick what you see, "
        "as in --tick 12,13, or name what is lost, as in --lost 42,44"
    ),
    "skein_missing": "missing skein in {place} numbered",
    "lost_but_set_aside": _lost_but_set_aside,
    # finishing
    "used_in_one_way": (
        "say in one way what it used: --left 17=43g for each ball, --weighed 80g for the item, "
        "--weighed A=71g,B=9g by colour, or --as-planned"
    ),
    "more_booked_of_role": _more_booked,
    "more_booked_of_item": _more_booked,
    "skein_never_weighed": (
        "skein {skein} was never weighed, so what it lost is not known; "
        "weigh the item, as in --weighed 80g, or use --as-planned"
    ),
    "last_weighed": lambda skein, net, entry: (
        f"skein {skein} was not weighed now: it counts as the {figures.near(net)} "
        f"it last weighed (entry {entry})"
    ),
    "taken_as_booked": "skein {skein} was not weighed: only what you noted of it counts as used",
    "taken_as_untouched": "skein {skein} was not weighed: it counts as not used",
    "no_put_up_for_role": (
        "no yarn for {role} in item {item} has a known length; "
        "type --weighed A=71g,B=9g, or weigh the balls: --left 17=43g"
    ),
    "more_than_skeins_hold": _more_than_skeins_hold,
    # winding off, and taking an item apart
    "all_of_skein": "that is all of skein {skein}; type less, so that something stays",
    "nothing_to_unravel": "item {item} is {item.state}; only a begun or done one can be unravelled",
    "no_yarn_used": "item {item} has used no yarn yet; `stash release {item.number}` instead",
    "skein_not_used": _skein_not_used,
    "more_back_than_used": _more_back_than_used,
    "loss_of_all": "a loss of {loss:.0%} leaves nothing; type 0% to 99%",
    "onto_another_lot": (
        "skein {skein} is of another lot than skein {was}; wind onto one of the same lot"
    ),
    "onto_whole_skein": "skein {skein} is whole; wind onto an opened one, or leave --into out",
    # cancelling an entry, and going back to a copy
    "nothing_to_take_back": "there is nothing to cancel",
    "taken_back_before": "entry {entry} is already cancelled, by entry {by}",
    "entry_is_take_back": (
        "entry {entry} cancels another one; to undo that, type the cancelled command again"
    ),
    "skeins_used_since": "its skeins were used after it",
    "item_went_on": "its item went on after it",
    "skeins_moved_on": "its skeins changed after it",
    "items_made_since": "items of its design were made after it",
    "ordered_since": "its design was ordered after it",
    "items_for_order_since": "an item was made for the order after it",
    "put_right_again": "the same was changed again after it",
    "below_nothing": _below_nothing,
    "below_nothing_on": _below_nothing_on,
    "promised_since": _promised_since,
    "name_borne_by_another": 'another design is called "{design}" now',
}
