"""What is said where something was not found."""

from __future__ import annotations

import pytest

from stash.errors import NotFound
from stash.rendering.sentences.say import sentence


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (NotFound("skein", "99"), "no skein 99; `stash shelf` lists yours"),
        (NotFound("entry", "99"), "no entry 99; `stash log` lists yours"),
        (
            NotFound("unsold_item", "hat"),
            "no finished, unsold item 'hat'; `stash items` lists yours",
        ),
        (
            NotFound("yarn_on_shelf", "mor", ("L3 (Moor navy)", "L4 (Moor teal)")),
            ("no yarn like 'mor' on your shelf; try L3 (Moor navy) or L4 (Moor teal)"),
        ),
        (NotFound("place_on_shelf", "atic"), "no place 'atic' on your shelf"),
        (
            NotFound("no_design_yet", ""),
            "no design; save one with `stash design add`, or type --need A=165m",
        ),
        (
            NotFound("design_for_batch", "hat", ("cap", "cowl")),
            (
                "no design 'hat'; did you mean cap or cowl? Or save it with `stash "
                'design add "hat"`'
            ),
        ),
        (
            NotFound("design_for_batch", "hat"),
            "no design 'hat'; save it with `stash design add \"hat\"`",
        ),
    ],
)
def test_what_was_not_found_is_named_with_the_nearest_or_what_shows_it(
    error: NotFound, words: str
) -> None:
    assert sentence(error) == words
