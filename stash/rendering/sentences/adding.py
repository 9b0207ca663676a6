"""Sentences about yarn that comes onto the shelf, and what is known of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering import figures
from stash.rendering.amounts import colour_name, dye_lot, numbers
from stash.rendering.her_words import hers
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Lot


def _words_led_to(skein: int, lot: Lot) -> str:
    return f"skein {skein} of {lot.yarn} {colour_name(lot)}"


def _same_yarn_or_not(name: str, others: Sequence[str]) -> str:
    return f"is {name} the same yarn as {' or '.join(others)}?"


def _kept_as_two(name: str, other: str, lot: Lot | None) -> str:
    known = f"{other} ({lot.ref})" if lot else other
    return (
        f"is {name} the same yarn as {known}? They are kept apart; "
        "write one name for both if they are the same"
    )


def _known_differ(name: str, known: Sequence[str]) -> str:
    return f"you have {name} in {' and '.join(known)}; say which, nothing was filled in"


def _filled_in(name: str, values: Sequence[str]) -> str:
    return f"filled in from your {name}: {', '.join(values)}"


def _have_already(skeins: int, lots: Sequence[tuple[Lot, Sequence[str]]]) -> str:
    where = "; ".join(f"{lot.ref}, {', '.join([dye_lot(lot), *places])}" for lot, places in lots)
    count = "1 skein" if skeins == 1 else f"{skeins} skeins"
    return f"you already have {count} of it: {where}"


def _lot_of_other_yarn(name: str, lot: Lot, other: Sequence[str]) -> str:
    return (
        f"you have {name} {colour_name(lot)}, {dye_lot(lot)}, as {lot.ref}, with another "
        f"{_facts(other)}"
    )


def _facts(names: Sequence[str]) -> str:
    return " and ".join("full skein" if name == "put-up" else name for name in names)


def _joins_lot_unlike(lot: Lot, different: Sequence[str]) -> str:
    return f"added to {lot.ref}, which keeps its own {_facts(different)}"


SENTENCES: Mapping[str, Words] = {
    "words_led_to": _words_led_to,
    "no_yarn_yet": "you have no yarn yet that it could be like; type its label",
    "no_yarn_to_add": "no yarn to add; type at least one line of it",
    "taken_in_already": (
        "{name} was imported before (entry {entry}); add --again if these are more skeins"
    ),
    "left_without_put_up": lambda name, left: (
        f"{name}: {figures.near(left)} left, but how much does a full skein hold? "
        f"Add it like {hers('100g/200m')}, or weigh what is left"
    ),
    "neither_weight_nor_length": ("{name}: how much is it? Weigh it and add the weight, like 43g"),
    "no_such_count": "{name}: {count} skeins? Type a count from 1 up",
    "nothing_of_it_to_add": "{name}: that is no yarn at all; leave the line out",
    "skein_number_in_use": ("skein {skein} exists already; leave the number blank for a new one"),
    "each_skein_its_own_lot": "hand-dyed: each skein is kept as its own lot",
    "lot_of_other_yarn": _lot_of_other_yarn,
    "the_same_yarn": "the same yarn",
    "another_yarn": "another yarn",
    "joins_lot": "added to your lot {lot.ref}",
    "joins_lot_unlike": _joins_lot_unlike,
    "same_yarn_or_not": _same_yarn_or_not,
    "it_is_this_yarn": "it is {name}",
    "it_is_another_yarn": "it is another yarn",
    "typed_with_like": '--like {lot} "{typed}"',
    "typed_with_new": '--new "{typed}"',
    "typed_with_other_name": "{typed}, with a name unlike the other",
    "kept_as_two": _kept_as_two,
    "known_differ": _known_differ,
    "filled_in": _filled_in,
    "nearly_known_name": "did you mean {near}? It is kept as {name}",
    "have_already": _have_already,
    "photo_in_part": "the picture came through only in part; tap the yarn again",
    "photo_too_large": "that is more than {most} pixels at once; use a smaller ring",
    "photo_clear": "there is no colour there; tap where the yarn is",
    "photo_dark_paper": "the paper is too dark there; tap a lit part of it, or leave it out",
    "so_already": "{what} had that already; nothing changed",
    "items_so_already": lambda items: (
        f"item{'s' if len(items) > 1 else ''} {numbers(items)} had that already; nothing changed"
    ),
}
