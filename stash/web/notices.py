"""What there is to say after something was pressed, kept until the page that says it is shown."""

from __future__ import annotations

import secrets
from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

#: A page can be reloaded with its notice until so many others came.
MOST = 500


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to answer a question: what the button says, and the form as it would be then."""

    words: str
    typed: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Notice:
    """What was done, or what was wrong, or what is asked.

    `action`: the form it is about; `typed`: what was typed there, so that it stands there again.
    `entry`: the entry that can be undone in one press.
    """

    words: Sequence[str]
    kind: str = "done"
    action: str = ""
    typed: Mapping[str, str] = field(default_factory=dict)
    choices: Sequence[Choice] = ()
    entry: int | None = None


class Notices:
    """Notices by the number that an address bears."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, Notice] = OrderedDict()

    def keep(self, notice: Notice) -> str:
        """The number under which it can be shown."""
        number = secrets.token_urlsafe(6)
        self._kept[number] = notice
        while len(self._kept) > MOST:
            self._kept.popitem(last=False)
        return number

    def find(self, number: str) -> Notice | None:
        """The notice of that number, if it is still kept."""
        return self._kept.get(number)
