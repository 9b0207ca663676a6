"""Options shared by commands, written into the signature of each."""

from __future__ import annotations

from inspect import signature
from typing import Any

from stash.cli.shared_options import flag, text, texts, written_in

OPTIONS = {
    "colour": text(words="A colour."),
    "fixed": texts("--with", "Repeat it."),
    "bare": flag("--bare", "Or not."),
}


def test_options_stand_in_place_of_the_words_and_come_as_one_thing() -> None:
    got: list[tuple[str, Any, int]] = []

    def command(design: str, top: int = 3, *, words: Any) -> None:
        """What it does."""
        got.append((design, words, top))

    made = written_in(command, OPTIONS, dict)

    assert [*signature(made).parameters] == ["design", "colour", "fixed", "bare", "top"]
    assert made.__doc__ == "What it does."
    made(design="hat", colour="navy", fixed=["A=1"], bare=False, top=5)
    made(design="cap", colour="", fixed=None, bare=True, top=3)
    assert got == [
        ("hat", {"colour": "navy", "fixed": ("A=1",), "bare": False}, 5),
        ("cap", {"colour": "", "fixed": (), "bare": True}, 3),
    ]


def test_what_is_not_given_has_its_usual_value() -> None:
    def command(design: str, *, words: Any) -> None:
        """Nothing."""

    usual = {
        n: p.default for n, p in signature(written_in(command, OPTIONS, dict)).parameters.items()
    }

    assert (usual["colour"], usual["fixed"], usual["bare"]) == ("", None, False)
