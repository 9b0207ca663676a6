"""A note: something worth saying, as facts; whoever shows it finds the words."""

from __future__ import annotations

from typing import Any


class Note:
    """What is to be said, by its kind, and the facts it is said of, by name.

    Notes are values: equal where kind and facts are, and never changed.
    """

    __slots__ = ("facts", "kind")

    kind: str
    facts: dict[str, Any]

    def __init__(self, kind: str, /, **facts: Any) -> None:
        object.__setattr__(self, "kind", kind)
        object.__setattr__(self, "facts", facts)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError(name)

    def __eq__(self, other: object) -> bool:
        if type(other) is not type(self):
            return NotImplemented
        return self._all() == other._all()

    def __hash__(self) -> int:
        return hash((self.kind, tuple(sorted(self.facts))))

    def __repr__(self) -> str:
        facts = "".join(f", {name}={value!r}" for name, value in self.facts.items())
        return f"{type(self).__name__}({self.kind!r}{facts})"

    def __reduce__(self) -> tuple[Any, ...]:
        return _remade, (type(self), self.kind, self.facts)

    def _all(self) -> tuple[Any, ...]:
        return self.kind, self.facts


def _remade(cls: type[Note], kind: str, facts: dict[str, Any]) -> Note:
    return cls(kind, **facts)
