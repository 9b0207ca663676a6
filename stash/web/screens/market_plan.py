"""A plan for a market: what is asked, looked for beside everything else, shown and set aside."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from starlette.responses import RedirectResponse, Response

from stash.actions import clock
from stash.actions.batch import plan_batch
from stash.actions.batch_aside import aside_batch, changed_of
from stash.actions.batch_prices import batch_prices
from stash.actions.items import Which, listed_items
from stash.actions.order import orders_kept
from stash.actions.ordered import Ordered, as_wants, readable
from stash.actions.short import ShortAsked, short
from stash.errors import BadPlan, FileTrouble, Refusal, StashError
from stash.exchange.batch_read import batch_asked, batch_read
from stash.exchange.saved_plan import plan_written, saved_plan_from
from stash.parsing.order import order_want
from stash.parsing.wish.wish import wish
from stash.rendering.batch_aside import made_words
from stash.web.days import day_words
from stash.web.drawn import Drawings
from stash.web.pages import begun_large, said
from stash.web.screens import market_form, market_shown
from stash.web.screens.market_asked import MarketAsked
from stash.web.searches import Search
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.batch import BatchAsked, PlannedBatch
    from stash.actions.batch_aside import BatchAside
    from stash.actions.batch_choices import Choice
    from stash.actions.order import Orders
    from stash.actions.short import ToBuy
    from stash.measures.note import Note
    from stash.planning.model.asked import WantAsked

#: So long a page waits for a plan before it says that it is looking, and for one that is stopped.
_SOON_S, _STOPPED_S = 0.2, 3.0
#: What is pressed beside what is asked.
_PRESSED = ("take", "again", "all", "said")


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked, as the planner understands it; the orders that come first with it.

    `wants` are those of the form, without what is ordered.
    """

    asked: MarketAsked
    batch: BatchAsked
    wants: tuple[WantAsked, ...]
    orders: Orders | None
    ordered: Ordered

    @property
    def here(self) -> str:
        """The address of its plan."""
        return f"/market/plan/made?{self.asked.address()}"

    @property
    def change(self) -> str:
        """The address of the form, as it was filled in."""
        return f"/market/plan?{self.asked.address()}"


def plan_form(visit: Visit) -> Response:
    """The form: a market, its hours, and which designs."""
    choices = market_form.choices(visit)
    asked = MarketAsked.of(visit.query, [one.kept.id for one in choices])
    return _form(visit, asked, choices)


def _form(
    visit: Visit, asked: MarketAsked, choices: list[Choice], wrong: tuple[str, ...] = ()
) -> Response:
    orders = visit.workshop.kept("orders", lambda: orders_kept(visit.book))
    best = [] if asked.chosen or wrong else market_form.suggested(visit, choices)
    return visit.page(
        "market_plan.html",
        lambda: {
            **market_form.values(visit, asked, choices, best),
            "orders": len(orders.open),
            "wrong": wrong,
        },
    )


def made(visit: Visit) -> Response:
    """The plan; while it is looked for, the best so far."""
    choices = market_form.choices(visit)
    asked = MarketAsked.of(visit.query, [one.kept.id for one in choices])
    try:
        question = _question(visit, asked, choices)
        search = _search(visit, question)
        if to := _pressed(visit, question, search):
            return RedirectResponse(to, 303)
        search.planned.wait(_SOON_S)
        if search.fault is not None and search.plan is None:
            visit.workshop.searches.forget(_name(visit, question))
            raise search.fault
    except FileTrouble:
        raise
    except StashError as why:
        return _form(visit, asked, choices, _told(why))
    if search.plan is None:
        return _looking(visit, question, search)
    return _found(visit, question, search, search.plan)


def _question(visit: Visit, asked: MarketAsked, choices: list[Choice]) -> Question:
    """What is asked, read as the command reads a plan."""
    orders, ordered = None, Ordered()
    if not asked.get("no_orders"):
        orders = orders_kept(visit.book)
        ordered = readable(visit.book, as_wants(visit.book, orders, order_want))
    lines = asked.lines({one.kept.id: one.kept.design.name for one in choices})
    read = batch_read(visit.book, lines, asked.aim, ordered.wants)
    batch = batch_asked(read, wish(asked.yarn.words))
    return Question(asked, batch, read.wants[len(ordered.wants) :], orders, ordered)


def _search(visit: Visit, question: Question) -> Search:
    book = visit.book

    def find(search: Search) -> PlannedBatch:
        return plan_batch(book, question.batch, search.stop, search.report, search.better)

    def shop(found: PlannedBatch, stop: Callable[[], bool]) -> ToBuy | None:
        if not question.wants or not market_shown.lacks_yarn(found.batch):
            return None
        asked = ShortAsked(question.wants, question.batch.wish)
        return short(book, asked, stop, lambda doing: None)

    return visit.workshop.searches.ask(_name(visit, question), question.ordered.wants, find, shop)


def _name(visit: Visit, question: Question) -> tuple[object, ...]:
    """What a plan depends on, beside the shelf and what is ordered: of these it is told."""
    settings = tuple(sorted((visit.settings.kept or {}).items()))
    return (str(visit.workshop.path), question.asked.address(), settings, clock.today())


def _pressed(visit: Visit, question: Question, search: Search) -> str:
    """Where to go on if something was pressed, or a form sent its empty fields as well."""
    if "take" in visit.query:
        search.take()
        search.planned.wait(_STOPPED_S)
    elif "again" in visit.query:
        visit.workshop.searches.forget(_name(visit, question))
    elif {n: v for n, v in visit.query.items() if n not in _PRESSED} == question.asked.chosen:
        return ""
    return question.here


#: Words of a plan file, as the form has them.
_IN_FORM = {
    "at_least": "at least",
    "at_most": "at most",
    "Write date=": "Say the market's day",
    "write date=": "say the market's day",
    "add value= to the wants": "type a price for each",
}


def _told(why: StashError) -> tuple[str, ...]:
    """What cannot be read or planned, each by itself."""
    each = map(_finding, why.findings) if isinstance(why, BadPlan) else [said(why)]
    return tuple(begun_large(_in_form(one)) for one in each)


def _finding(found: Note) -> str:
    """Its place is what stands over the field, so its key need not be said."""
    return f"{found.facts['place']}: {said(found.facts['what'])}"


def _in_form(words: str) -> str:
    for written, shown in _IN_FORM.items():
        words = words.replace(written, shown)
    return words


def _looking(visit: Visit, question: Question, search: Search) -> Response:
    so_far, doing, drawings = search.so_far, search.doing, Drawings()

    def values() -> Mapping[str, Any]:
        return {
            **_head(question),
            "looking": True,
            "taken": search.taken,
            "doing": said(doing) if doing else "",
            **market_shown.so_far(so_far, visit.settings.currency, drawings.once_more()),
        }

    return visit.page("market_made.html", values)


def _head(question: Question) -> dict[str, Any]:
    by = question.batch.terms.by
    on = day_words(by) if by else ""
    return {
        "title": f"Plan for the market {on if on == 'today' else f'on {on}'}"
        if on
        else "Plan for a market",
        "change": question.change,
        "here": question.here,
        "fields": question.asked.chosen,
    }


def _found(visit: Visit, question: Question, search: Search, found: PlannedBatch) -> Response:
    kept = visit.workshop.kept
    prices = kept(("plan prices", search.number), lambda: batch_prices(visit.book, found))
    changed = kept(("plan changed", search.number), lambda: changed_of(visit.book, found.saved))
    aside = _set_aside(visit, search)
    drawings = Drawings()

    def values() -> Mapping[str, Any]:
        return {
            **_head(question),
            "looking": False,
            "number": search.number,
            "changed": [said(one) for one in changed],
            "reordered": not aside and search.ordered != question.ordered.wants,
            "set_aside": aside,
            "shopping": not search.ended.is_set(),
            **market_shown.plan_values(
                found, drawings.once_more(), everything="all" in visit.query
            ),
            **market_shown.side_lists(prices, search.to_buy, found.settings),
            **market_shown.orders(found.batch, question.orders, question.ordered),
        }

    return visit.page("market_made.html", values)


def _set_aside(visit: Visit, search: Search) -> tuple[int, ...]:
    """The items that the plan has become; none once that was undone."""
    if not search.set_aside:
        return ()
    there = visit.workshop.kept(("items", Which.ALL), lambda: listed_items(visit.book, Which.ALL))
    still = {line.item.number for line in there.lines}
    return search.set_aside if still.issuperset(search.set_aside) else ()


def on_paper(visit: Visit) -> Response:
    """The plan on paper: what to pick by place, where to cut, what it sells for."""
    choices = market_form.choices(visit)
    asked = MarketAsked.of(visit.query, [one.kept.id for one in choices])
    question = _question(visit, asked, choices)
    search = _search(visit, question)
    search.planned.wait(_SOON_S)
    if search.plan is None or not search.plan.batch.made:
        return RedirectResponse(question.here, 303)
    found = search.plan
    prices = visit.workshop.kept(
        ("plan prices", search.number), lambda: batch_prices(visit.book, found)
    )
    drawings = Drawings()

    def values() -> Mapping[str, Any]:
        return {
            **_head(question),
            **market_shown.lists_to_print(found, drawings.once_more()),
            **market_shown.side_lists(prices, None, found.settings),
        }

    return visit.page("market_lists.html", values)


def in_a_file(visit: Visit) -> Response:
    """The plan as `stash batch --save` writes it."""
    _, found = _numbered(visit, str(visit.names["number"]))
    by = found.batch.terms.by
    name = f"market-{by.isoformat()}.json" if by else "market.json"
    return Response(
        plan_written(found.saved),
        media_type="application/json",
        headers={"content-disposition": f'attachment; filename="{name}"'},
    )


def _numbered(visit: Visit, number: str) -> tuple[Search, PlannedBatch]:
    """The search of that number with its plan; refused where it is kept no longer."""
    search = visit.workshop.searches.numbered(number)
    if search is None or search.plan is None:
        raise Refusal("plan_forgotten")
    return search, search.plan


def set_all_aside(visit: Visit) -> Done:
    """All yarn of a plan, in one entry."""
    search, found = _numbered(visit, visit.typed.get("plan", ""))
    done = aside_batch(visit.book, found.saved)
    search.set_aside = tuple(number for number, _ in done.items)
    return Done(visit.back(), (_words(done),))


def set_kept_aside(visit: Visit) -> Done:
    """The same of a plan in a file, kept here or by the command."""
    file = visit.files.get("file")
    if file is None:
        raise Refusal("no_plan_file")
    saved = saved_plan_from(file.filename or "", file.file.read())
    done = aside_batch(visit.book, saved)
    first, last = done.items[0][0], done.items[-1][0]
    return Done(f"/pick/{first}-{last}" if last > first else f"/pick/{first}", (_words(done),))


def _words(done: BatchAside) -> str:
    return f"{made_words(done)}."


SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    "/market/plan": plan_form,
    "/market/plan/made": made,
    "/market/plan/lists": on_paper,
    "/market/plan/file/{number}": in_a_file,
}
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    "/market/plan/aside": set_all_aside,
    "/market/plan/kept": set_kept_aside,
}
