"""What is said of serving the page and of phones that come to it."""

import pytest

from stash.errors import Refusal
from stash.rendering.sentences.say import sentence


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (
            Refusal("port_taken", port=80, why="Permission denied"),
            "port 80 cannot be used (Permission denied); leave --port out for a free one",
        ),
        (
            Refusal("wrong_code", left=2),
            "that is not the code; look at the computer once more (2 tries left)",
        ),
        (
            Refusal("wrong_code", left=1),
            "that is not the code; look at the computer once more (1 try left)",
        ),
        (
            Refusal("device_name_taken", name="kitchen phone"),
            "there is a kitchen phone already; take another name, or unpair it on the computer "
            "first",
        ),
    ],
)
def test_a_refusal_says_what_is_and_what_to_do(said: Refusal, words: str) -> None:
    assert sentence(said) == words
