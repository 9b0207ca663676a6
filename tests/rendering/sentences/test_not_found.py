"""What is said where something was not found."""

from __future__ import annotations

import pytest

from stash.errors import NotFound
from stash.rendering.sentences.say import sentence


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (NotFound("skein", "99"), "no skein '99'; `stash shelf` shows what there is"),
        (NotFound("entry", "99"), "no entry '99'; `stash log` shows what there is"),
        (
            NotFound("unsold_item", "hat"),
            "no finished and unsold item 'hat'; `stash items` shows what there is",
        ),
        (
            NotFound("yarn_on_shelf", "mor", ("L3 (Moor navy)", "L4 (Moor teal)")),
            "no yarn on the shelf 'mor'; nearest: L3 (Moor navy), L4 (Moor teal)",
        ),
        (NotFound("place_on_shelf", "atic"), "no place on the shelf 'atic'"),
        (
            NotFound("no_design_yet", ""),
            "no design ''; nearest: none is kept yet: `stash design add`, or give --need A=165m",
        ),
        (
            NotFound("design_for_batch", "hat", ("cap", "cowl")),
            "no design 'hat'; nearest: cap, cowl; else give it its need with "
            '`stash design add "hat"`',
        ),
        (
            NotFound("design_for_batch", "hat"),
            "no design 'hat'; nearest: none; give it its need with `stash design add \"hat\"`",
        ),
    ],
)
def test_what_was_not_found_is_named_with_the_nearest_or_what_shows_it(
    error: NotFound, words: str
) -> None:
    assert sentence(error) == words
