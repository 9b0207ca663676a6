"""Phones in the same room: the code that pairs one, and who is paired.

Decisions:
- A code is six digits, good for five minutes, five tries and one phone. None is good unless this
  computer shows it. Ten wrong ones in ten minutes, over all phones, close the door for the rest of
  these: a day of guessing finds it once in about seven hundred times (10 x 6 x 24 of a million).
- A phone keeps 256 random bits in a cookie that scripts cannot read and other sites cannot send;
  of those, only the digest is kept here, in memory. So sessions end with the program.
- Whoever only looks is refused before what was typed is read.
"""

from __future__ import annotations

import hmac
import secrets
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from threading import Lock

from stash.errors import Refusal

#: How long a code is good, how many wrong tries it bears, and how many all of them together.
GOOD_FOR, TRIES = timedelta(minutes=5), 5
MOST_WRONG, WITHIN = 10, timedelta(minutes=10)
#: Of a name so many letters are kept.
LONGEST_NAME = 40
#: What an entry of this computer would seem to come from.
_OURS = ("this computer", "the computer", "this phone")


@dataclass(eq=False, slots=True)
class Device:
    """Where somebody looks at the page: a phone by its name, or this computer, without one.

    `out`: no longer paired, whatever it has begun. `former`: names it had before; what it wrote
    under them keeps them.
    """

    name: str = ""
    may_change: bool = True
    number: int = 0
    seen: datetime | None = None
    out: bool = False
    former: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """The names that entries written here may bear, the present one first."""
        return (self.name, *self.former)


#: This computer itself needs no pairing.
COMPUTER = Device()


@dataclass(frozen=True, slots=True)
class Code:
    """What is typed on a phone, and until when it is good."""

    digits: str
    until: datetime


def _now() -> datetime:
    return datetime.now(UTC)


@dataclass(slots=True)
class Sharing:
    """The page shared at `hosts`: names and port of this computer in the room, best one first."""

    hosts: tuple[str, ...]
    now: Callable[[], datetime] = _now
    #: Whether the next phone may change things, or only look.
    may_change: bool = True
    _code: Code | None = None
    _left: int = TRIES
    _wrong: deque[datetime] = field(default_factory=deque)
    _paired: dict[str, Device] = field(default_factory=dict)
    _number: int = 0
    _lock: Lock = field(default_factory=Lock)

    @property
    def address(self) -> str:
        """What is typed or scanned on a phone."""
        return f"http://{self.hosts[0]}/"

    @property
    def cookie(self) -> str:
        """The name of its cookie, which a browser sends to every port: so the port is in it."""
        return f"stash-{self.hosts[0].rpartition(':')[2]}"

    def code(self) -> Code:
        """The code that is good now; a new one where the last was used up or is too old."""
        with self._lock:
            if self._code is None or self.now() >= self._code.until:
                self._renew()
            assert self._code is not None
            return self._code

    def new_code(self, *, may_change: bool) -> None:
        """A new code, and what the phone it pairs may do; wrong ones of before are forgotten."""
        with self._lock:
            self.may_change = may_change
            self._wrong.clear()
            self._renew()

    def _renew(self) -> None:
        self._code = Code(f"{secrets.randbelow(10**6):06}", self.now() + GOOD_FOR)
        self._left = TRIES

    def pair(self, digits: str, name: str) -> str:
        """Pair a phone by the code that was typed there; what its cookie is to hold.

        Raises Refusal for a code that is wrong or no longer good, for too many wrong ones, and,
        where the code is right, for a name that is missing or taken.
        """
        with self._lock:
            self._refuse_wrong("".join(digits.split()))
            name = self._free_name(name)
            self._code = None
            self._number += 1
            cookie = secrets.token_urlsafe(32)
            device = Device(name, self.may_change, self._number, self.now())
            self._paired[_digest(cookie)] = device
            return cookie

    def _refuse_wrong(self, digits: str) -> None:
        now = self.now()
        while self._wrong and now - self._wrong[0] >= WITHIN:
            self._wrong.popleft()
        if len(self._wrong) >= MOST_WRONG:
            raise Refusal("too_many_codes")
        if self._code is None or now >= self._code.until:
            raise Refusal("no_code_now")
        if hmac.compare_digest(digits.encode(), self._code.digits.encode()):
            return
        self._wrong.append(now)
        self._left -= 1
        if self._left:
            raise Refusal("wrong_code", left=self._left)
        self._code = None
        raise Refusal("no_code_now")

    def _free_name(self, name: str, whose: Device | None = None) -> str:
        """A name that is no other phone's, and was none's while it is paired."""
        name = " ".join("".join(c if c.isprintable() else " " for c in name).split())
        name = name[:LONGEST_NAME].strip()
        if not name:
            raise Refusal("device_without_name")
        others = (device for device in self._paired.values() if device is not whose)
        taken = {one.casefold() for device in others for one in device.names}
        if name.casefold() in taken | {*_OURS}:
            raise Refusal("device_name_taken", name=name)
        return name

    def device_of(self, cookie: str) -> Device | None:
        """The phone that has this cookie, seen just now; None where it is not paired."""
        with self._lock:
            device = self._paired.get(_digest(cookie)) if cookie else None
            if device:
                device.seen = self.now()
            return device

    def paired(self) -> list[Device]:
        """The phones that are paired, in the order they came."""
        with self._lock:
            return [*self._paired.values()]

    def rename(self, number: int, name: str) -> Device | None:
        """Call a phone otherwise from now on; None where it is out already.

        Raises Refusal for a name that is missing or taken.
        """
        with self._lock:
            for device in self._paired.values():
                if device.number == number:
                    name = self._free_name(name, device)
                    former = (one for one in device.names if one != name)
                    device.name, device.former = name, tuple(former)
                    return device
            return None

    def unpair(self, number: int) -> str | None:
        """Put a phone out at once; its name, None where it is out already."""
        with self._lock:
            for digest, device in self._paired.items():
                if device.number == number:
                    device.out = True
                    del self._paired[digest]
                    return device.name
            return None


def _digest(cookie: str) -> str:
    return sha256(cookie.encode()).hexdigest()
