"""One namespace for the kinds of notes and errors."""

from __future__ import annotations

import importlib
import pkgutil

from stash.rendering import sentences


def test_a_kind_stands_in_one_table() -> None:
    """And a table that nobody asks is found here too: all modules of the package are looked at."""
    from stash.rendering.sentences.say import kinds as worded_kinds

    modules = [
        importlib.import_module(f"{sentences.__name__}.{found.name}")
        for found in pkgutil.iter_modules(sentences.__path__)
    ]
    kinds = [kind for module in modules for kind in getattr(module, "SENTENCES", ())]

    assert sorted(kinds) == sorted({*kinds})
    assert {*kinds} == {*worded_kinds()}
