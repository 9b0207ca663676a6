"""Errors looked at by their kind and facts, as the domain raises them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from stash.errors import StashError


@contextmanager
def raises(error: type[StashError], kind: str, **facts: object) -> Iterator[None]:
    """Passes where this error of this kind is raised, with at least these facts."""
    with pytest.raises(error) as raised:
        yield
    assert raised.value.kind == kind
    for name, value in facts.items():
        assert raised.value.facts[name] == value, name
