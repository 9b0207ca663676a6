"""Plans for a market that are being looked for: each question in a thread of its own.

A search writes nothing and holds no view of the file while it looks, so no page waits for it. It
ends by itself once nobody has asked for it for a while; what it had by then is forgotten, unless
she took it.
"""

from __future__ import annotations

import secrets
import weakref
from collections import OrderedDict
from collections.abc import Callable, Hashable, Sequence
from threading import Event, Lock, Thread
from typing import TYPE_CHECKING

from stash.actions import clock

if TYPE_CHECKING:
    from stash.actions.batch import PlannedBatch
    from stash.actions.short import ToBuy
    from stash.measures.note import Note
    from stash.planning.model.asked import WantAsked
    from stash.planning.model.batch import SoFar

#: A page asks again every second or so, one that lies behind others once a minute.
PATIENCE_S = 75.0
#: What is to buy beside a plan is looked for so long at most.
SHOPPING_S = 20.0
#: So many plans are kept.
MOST = 12


class Search:
    """One search: what it found so far, then its plan and what there is to buy.

    `number` names it in forms; `ordered` is what was ordered when it began. `set_aside` are the
    items its plan has become.
    """

    def __init__(self, ordered: Sequence[WantAsked]) -> None:
        self.number = secrets.token_urlsafe(8)
        self.ordered = tuple(ordered)
        self.so_far: SoFar | None = None
        self.doing: Note | None = None
        self.plan: PlannedBatch | None = None
        self.to_buy: ToBuy | None = None
        self.fault: Exception | None = None
        self.set_aside: tuple[int, ...] = ()
        self.taken = False
        self.planned, self.ended = Event(), Event()
        self._asked, self._dropped = clock.seconds(), Event()

    def ask(self) -> None:
        """Somebody looks at it."""
        self._asked = clock.seconds()

    def take(self) -> None:
        """What it has is good enough: the plan is the best so far."""
        self.taken = True

    def drop(self) -> None:
        """Nobody will ask for it again."""
        self._dropped.set()

    @property
    def left(self) -> bool:
        """Whether nobody asks for it any more."""
        return self._dropped.is_set() or clock.seconds() - self._asked > PATIENCE_S

    def stop(self) -> bool:
        """Whether the planner is to leave off."""
        return self.taken or self.left

    def report(self, doing: Note) -> None:
        """What is being done from now on."""
        self.doing = doing

    def better(self, plan: SoFar) -> None:
        """The best plan by now."""
        self.so_far = plan

    @property
    def wasted(self) -> bool:
        """Whether it was broken off without a plan that is the best, or that she took."""
        if not self.planned.is_set():
            return self.left
        return self.plan is not None and not (self.plan.batch.finished or self.taken)


#: Finds the plan of a search, then what is to buy for what it leaves unmade.
Plan = Callable[[Search], "PlannedBatch"]
Shop = Callable[["PlannedBatch", Callable[[], bool]], "ToBuy | None"]


def _run(search: Search, plan: Plan, shop: Shop) -> None:
    try:
        _find(search, plan)
        if search.plan is not None:
            end = clock.seconds() + SHOPPING_S
            search.to_buy = shop(search.plan, lambda: search.left or clock.seconds() > end)
    finally:
        search.ended.set()


def _find(search: Search, plan: Plan) -> None:
    try:
        search.plan = plan(search)
    except Exception as fault:  # said, or shown as a fault, where somebody asks for it
        search.fault = fault
    finally:
        search.planned.set()


class Searches:
    """The searches by their question; one at a time for each."""

    def __init__(self) -> None:
        self._known: OrderedDict[Hashable, Search] = OrderedDict()
        self._lock = Lock()
        weakref.finalize(self, _end, self._known)

    def ask(
        self, question: Hashable, ordered: Sequence[WantAsked], plan: Plan, shop: Shop
    ) -> Search:
        """The search for a question, begun if there is none that somebody still asks for."""
        with self._lock:
            found = self._known.get(question)
            if found is not None and not found.wasted:
                found.ask()
                return found
            search = self._known[question] = Search(ordered)
            self._known.move_to_end(question)
            while len(self._known) > MOST:
                self._known.popitem(last=False)[1].drop()
        Thread(target=_run, args=(search, plan, shop), daemon=True).start()
        return search

    def numbered(self, number: str) -> Search | None:
        """The search of that number, if it is kept."""
        with self._lock:
            return next((one for one in self._known.values() if one.number == number), None)

    def forget(self, question: Hashable) -> None:
        """Look anew when it is next asked."""
        with self._lock:
            if found := self._known.pop(question, None):
                found.drop()


def _end(known: OrderedDict[Hashable, Search]) -> None:
    """Before the program ends: a solver must not be broken off where it is."""
    for search in known.values():
        search.drop()
    for search in known.values():
        search.ended.wait(5)
