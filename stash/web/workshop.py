"""What stays from one request to the next: the file, what is kept of it, tokens and notices."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Lock
from typing import TypeVar

from stash.actions import clock
from stash.actions.book import Book, staying_book
from stash.web.notices import Notices
from stash.web.searches import Searches
from stash.web.sharing import Sharing
from stash.web.tokens import Tokens
from stash.web.uploads import Uploads

_T = TypeVar("_T")


@dataclass(slots=True)
class Workshop:
    """One stash file served to a page; `writing` is held by whatever writes.

    While she looks around with made-up yarn, that file is served in place of `own`. `sharing` are
    the phones in the room, where the page is shared with any.
    """

    own: Path
    sharing: Sharing | None = None
    tokens: Tokens = field(default_factory=Tokens)
    notices: Notices = field(default_factory=Notices)
    uploads: Uploads = field(default_factory=Uploads)
    searches: Searches = field(default_factory=Searches)
    writing: Lock = field(default_factory=Lock)
    _opening: Lock = field(default_factory=Lock)
    _book: tuple[int, Book] | None = None
    _made_up: TemporaryDirectory[str] | None = None

    @property
    def path(self) -> Path:
        """The file that is served now."""
        return Path(self._made_up.name) / "made-up.stash" if self._made_up else self.own

    @property
    def made_up(self) -> bool:
        """Whether what is shown is not her own."""
        return self._made_up is not None

    def look_around(self, fill: Callable[[Path], None]) -> None:
        """Serve a throwaway file, filled first, until `go_back`."""
        folder = TemporaryDirectory(prefix="stash-")
        try:
            fill(Path(folder.name) / "made-up.stash")
        except BaseException:
            folder.cleanup()
            raise
        self._made_up = folder

    def go_back(self) -> None:
        """Serve her own file again; the made-up one is gone."""
        folder, self._made_up = self._made_up, None
        if folder is not None:
            folder.cleanup()

    def begun(self) -> bool:
        """Whether there is a file to open; an empty one is yet to be begun."""
        return self.path.exists() and (self.path.is_dir() or self.path.stat().st_size > 0)

    def book(self) -> Book:
        """The open book; opened anew where another file has been put in its place."""
        with self._opening:
            inode = self.path.stat().st_ino if self.path.exists() else -1
            if self._book is None or self._book[0] != inode:
                book = staying_book(self.path)
                self._book = (self.path.stat().st_ino, book)
            return self._book[1]

    def kept(self, name: Hashable, make: Callable[[], _T]) -> _T:
        """An answer, worked out once as long as the file is unchanged and the day is the same."""
        memory = self.book().file.memory
        if memory is None:
            return make()
        memory.renew()
        return memory.of((name, clock.today()), make)
