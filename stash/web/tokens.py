"""A token in each form, which works once."""

from __future__ import annotations

import secrets
from collections import OrderedDict

#: A page left open for days may be pressed still, unless so many forms were shown since.
MOST = 20_000


class Tokens:
    """The tokens of the forms that are shown, and where those that were used led to.

    Used under the lock of whatever writes; so a token has no state between unused and used.
    """

    def __init__(self) -> None:
        self._led_to: OrderedDict[str, str | None] = OrderedDict()
        self._seen: OrderedDict[str, int] = OrderedDict()

    def new(self, seen: int = 0) -> str:
        """A token for one form, on a page that shows the record up to the entry `seen`."""
        token = secrets.token_urlsafe(12)
        self._led_to[token], self._seen[token] = None, seen
        while len(self._led_to) > MOST:
            self._led_to.popitem(last=False)
            self._seen.popitem(last=False)
        return token

    def seen(self, token: str) -> int:
        """The newest entry there was when its page was shown."""
        return self._seen.get(token, 0)

    def known(self, token: str) -> bool:
        """Whether it was given out by this program since it began, and is not forgotten."""
        return token in self._led_to

    def led_to(self, token: str) -> str | None:
        """Where the first press of its form went; None if it was not pressed yet."""
        return self._led_to.get(token)

    def use(self, token: str, led_to: str) -> None:
        """Its form was pressed, and what it asked was done."""
        self._led_to[token] = led_to
