"""A wish that cannot be read, in words."""

from __future__ import annotations

import pytest

from stash.errors import BadInput
from stash.rendering.sentences.say import sentence


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (
            BadInput("no_role_and_value", text="navy", option="--with"),
            "cannot read 'navy' after --with: write a role and what for it, as in A=…",
        ),
        (BadInput("role_named_twice", role="A", option="--need"), "--need names role A twice"),
        (
            BadInput("no_role_of_strands", role="E"),
            "cannot read 'E' after --strands-apart: name a role, as in A",
        ),
    ],
)
def test_each_says_what_to_write(error: BadInput, words: str) -> None:
    assert sentence(error) == words
