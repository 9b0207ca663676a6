"""Sentences about serving the page, and about phones that come to it."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.words import Words

SENTENCES: Mapping[str, Words] = {
    "port_taken": "port {port} cannot be used ({why}); leave --port out for a free one",
    "no_room_to_share": (
        "this computer is in no network, so no phone can reach it; join the wifi, then try again"
    ),
    "wrong_code": lambda left: (
        "that is not the code; look at the computer once more "
        f"({left} {'try' if left == 1 else 'tries'} left)"
    ),
    "no_code_now": "no code is good just now; the computer shows a new one",
    "too_many_codes": (
        "too many wrong codes just now; wait ten minutes, or press New code on the computer"
    ),
    "device_without_name": "give this phone a name, like kitchen phone",
    "device_name_taken": (
        "there is a {name} already; take another name, or unpair it on the computer first"
    ),
    "design_changed_meanwhile": (
        "{name} was changed while you had it here; what you see is what you would save, so look "
        "once more and press Save again"
    ),
    "not_from_a_phone": "made-up yarn is looked at on the computer; a phone has your own shelf",
    "only_on_the_computer": "phones are paired and unpaired on the computer alone",
}
