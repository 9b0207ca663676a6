"""Sentences about yarn that comes onto the shelf, what is known of it, and what is put right."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.amounts import colour_name, dye_lot
from stash.rendering.sentences.words import Words
from stash.stock.yarn import Lot


def _words_led_to(skein: int, lot: Lot) -> str:
    return f"skein {skein} of {lot.yarn} {colour_name(lot)}"


def _same_yarn_or_not(name: str, others: Sequence[str]) -> str:
    return f"is {name} the same yarn as {' or '.join(others)}?"


def _kept_as_two(name: str, other: str, lot: Lot | None) -> str:
    known = f"{other} ({lot.ref})" if lot else other
    return (
        f"is {name} the same yarn as {known}? They are kept as two; "
        "write one name for both if they are one"
    )


def _known_differ(name: str, known: Sequence[str]) -> str:
    return f"you have {name} of {' or '.join(known)}: not filled in"


def _filled_in(name: str, values: Sequence[str]) -> str:
    return f"from what you have of {name}: {', '.join(values)}"


def _have_already(skeins: int, lots: Sequence[tuple[Lot, Sequence[str]]]) -> str:
    where = "; ".join(f"{lot.ref}, {', '.join([dye_lot(lot), *places])}" for lot, places in lots)
    count = "1 skein" if skeins == 1 else f"{skeins} skeins"
    return f"you have {count} of it already: {where}"


def _lot_of_other_yarn(name: str, lot: Lot, other: Sequence[str]) -> str:
    return (
        f"{name} {colour_name(lot)}, {dye_lot(lot)}, is here as {lot.ref} with another "
        f"{' and '.join(other)}"
    )


def _joins_lot_unlike(lot: Lot, different: Sequence[str]) -> str:
    return f"joins {lot.ref}; its {' and '.join(different)} said otherwise and stay as they were"


SENTENCES: Mapping[str, Words] = {
    "words_led_to": _words_led_to,
    "no_yarn_to_add": "there is no yarn to add; give at least one line",
    "taken_in_already": (
        "{name} was taken in already, by entry {entry}; say --again if these really are more skeins"
    ),
    "left_without_put_up": (
        "{name}: {left} left cannot be put in grams without a put-up; "
        "give both weight and length of a full skein, or weigh what is left"
    ),
    "neither_weight_nor_length": (
        "{name}: neither weight nor length is given; put it on the scale, and add it with its grams"
    ),
    "no_such_count": "{name}: {count} skeins cannot be added",
    "nothing_of_it_to_add": "{name}: there is nothing of it to add; leave the line out",
    "skein_number_in_use": (
        "skein number {skein} is in use already; leave the number blank for a new one"
    ),
    "each_skein_its_own_lot": "hand-dyed: each skein is a lot of its own",
    "lot_of_other_yarn": _lot_of_other_yarn,
    "the_same_yarn": "the same yarn",
    "another_yarn": "another yarn",
    "joins_lot": "joins {lot.ref}, which is on the books already",
    "joins_lot_unlike": _joins_lot_unlike,
    "same_yarn_or_not": _same_yarn_or_not,
    "it_is_this_yarn": "it is {name}",
    "it_is_another_yarn": "it is another yarn",
    "typed_with_like": '--like {lot} "{typed}"',
    "typed_with_new": '--new "{typed}"',
    "typed_with_other_name": "{typed}, with a name that tells the two apart",
    "kept_as_two": _kept_as_two,
    "known_differ": _known_differ,
    "filled_in": _filled_in,
    "nearly_known_name": "is that {near}? it was kept as {name}",
    "have_already": _have_already,
    "so_already": "{what} is so already, nothing was changed",
}
