"""The addresses of the page, and what is the same for all of them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData, UploadFile
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from stash.actions.book import currency_learned, none_booked
from stash.actions.log import log
from stash.errors import Ambiguous, NotFound, StashError, Undecided
from stash.parsing.choices import place_of, replaced
from stash.rendering.sentences.say import sentence
from stash.rendering.settings import currency_learned as currency_words
from stash.web.meanwhile import explained
from stash.web.notices import Choice, Notice
from stash.web.pages import begun_large, place_of_page, said
from stash.web.pairing import pairing_routes
from stash.web.safety import TOO_LARGE
from stash.web.screens import ANSWERS, FORMS, SCREENS
from stash.web.screens.trouble import NO_PAGE, trouble
from stash.web.visit import Done, Visit, own_address
from stash.web.workshop import Workshop

#: A form has so many fields at most, and a file so many at once.
_MOST_FIELDS, _MOST_FILES = 2000, 4
_STATIC = Path(__file__).parent / "static"
#: Addresses that can be looked at before there is a file.
_WITHOUT_FILE = ("/first", "/share", "/changed")
_BROKEN = "That is a fault in stash, and nothing was saved by halves."
_ONLY_LOOKS = "This phone may only look, so nothing was saved. The computer can pair it anew."


def application(workshop: Workshop) -> Starlette:
    """The page of one stash file."""
    return Starlette(
        routes=[
            *(Route(path, _shown(workshop, screen)) for path, screen in SCREENS.items()),
            *(Route(path, _done(workshop, act), methods=["POST"]) for path, act in FORMS.items()),
            *(Route(path, _answered(workshop, f), methods=["POST"]) for path, f in ANSWERS.items()),
            *(pairing_routes(workshop.sharing) if workshop.sharing else ()),
            Mount("/static", StaticFiles(directory=_STATIC)),
        ],
        # what is secret on a page, its tokens, is new on every one, so its size gives nothing away
        middleware=[Middleware(GZipMiddleware, minimum_size=1000, compresslevel=5)],
        exception_handlers={HTTPException: _no_such_page(workshop), Exception: _broken(workshop)},
    )


def _shown(workshop: Workshop, screen: Callable[[Visit], Response]) -> Any:
    """A page to look at; one that cannot be shown says why, and what is safe."""

    def show(request: Request) -> Response:
        return _shown_or_why(_visit(workshop, request), screen)

    return show


def _shown_or_why(visit: Visit, screen: Callable[[Visit], Response]) -> Response:
    if not visit.workshop.begun() and not visit.path.startswith(_WITHOUT_FILE):
        return RedirectResponse("/first", 303)
    visit.use_her_units()  # for whatever a screen words before its page is made
    try:
        return screen(visit)
    except StashError as why:
        if isinstance(why, NotFound) and visit.notice and visit.notice.kind == "done":
            # undone, and the page of what the entry had made is gone with it
            return RedirectResponse(visit.going_to(place_of_page(visit.path), visit.notice), 303)
        return trouble(visit, why)


def _visit(workshop: Workshop, request: Request, form: FormData | None = None) -> Visit:
    pairs = form.multi_items() if form else []
    texts = [(name, value) for name, value in pairs if isinstance(value, str)]
    query = request.query_params
    return Visit(
        workshop,
        request.url.path,
        dict(query),
        {name: tuple(query.getlist(name)) for name in query},
        {name: _one_kind_of_line_end(value) for name, value in texts},
        {name: tuple(v for n, v in texts if n == name) for name, _ in texts},
        {name: value for name, value in pairs if isinstance(value, UploadFile) and value.filename},
        request.path_params,
        request.state.device,
        request.headers.get("x-part", ""),
    )


def _one_kind_of_line_end(text: str) -> str:
    """A browser sends the lines of a form ended by two signs."""
    return text.replace("\r\n", "\n")


def _done(workshop: Workshop, act: Callable[[Visit], Done]) -> Any:
    """What a form asks for, done once; then on to a page that says so."""
    return _sent(workshop, lambda visit: RedirectResponse(_pressed(visit, act), 303))


def _answered(workshop: Workshop, screen: Callable[[Visit], Response]) -> Any:
    """A page to look at that more must be sent for than an address holds; nothing is written."""
    return _sent(workshop, lambda visit: _shown_or_why(visit, screen))


def _sent(workshop: Workshop, answer: Callable[[Visit], Response]) -> Any:
    """What a form sent, answered; a device that only looks may send nothing."""

    async def read(request: Request) -> Response:
        if not request.state.device.may_change:
            return RedirectResponse(_only_looks(_visit(workshop, request), request), 303)
        async with request.form(max_fields=_MOST_FIELDS, max_files=_MOST_FILES) as form:
            return await run_in_threadpool(answer, _visit(workshop, request, form))

    return read


def _only_looks(visit: Visit, request: Request) -> str:
    """Back to the page it was pressed on, which the browser names; what was typed is not read."""
    notice = Notice((_ONLY_LOOKS,), "wrong", visit.path)
    return visit.going_to(own_address(request.headers.get("referer", "/"), host=True), notice)


def _pressed(visit: Visit, act: Callable[[Visit], Done]) -> str:
    """Where a pressed form leads. Nothing is written twice, and nothing by half."""
    token, tokens = visit.typed.get("token", ""), visit.workshop.tokens
    with visit.workshop.writing:
        if visit.device.out:  # unpaired while it waited
            return "/pair"
        if not tokens.known(token):
            return visit.going_to(visit.back(), _again(visit))
        if led_to := tokens.led_to(token):
            return led_to
        visit.use_her_units()
        try:
            before = _newest(visit)
            none_booked()
            done = act(visit)
            if learned := currency_learned():
                done = replace(done, words=(*done.words, said(currency_words(learned))))
        except (Ambiguous, Undecided) as question:
            return visit.going_to(visit.back(), _question(visit, question))
        except StashError as why:
            told = map(begun_large, explained(visit, why, tokens.seen(token)))
            return visit.going_to(visit.back(), _wrong(visit, why, *told))
        entry = _newest(visit) if done.undo else None
        notice = Notice(done.words, entry=entry if entry != before else None)
        to = visit.going_to(done.to, notice if done.words else None)
        tokens.use(token, visit.going_to(done.to, _once(done)))
        return to


def _newest(visit: Visit) -> int | None:
    if not visit.workshop.begun():
        return None
    entries = log(visit.book, 1)
    return entries[0].number if entries and entries[0].takes_back is None else None


def _typed(visit: Visit) -> dict[str, str]:
    return {name: value for name, value in visit.typed.items() if name not in ("token", "back")}


def _wrong(visit: Visit, why: StashError, *meanwhile: str) -> Notice:
    return Notice((said(why), *meanwhile), "wrong", visit.path, _typed(visit))


def _again(visit: Visit) -> Notice:
    words = "This page was open before stash was started. Nothing was saved: press once more."
    return Notice((words,), "wrong", visit.path, _typed(visit))


def _once(done: Done) -> Notice:
    words = "That was saved the first time; the second press changed nothing."
    return Notice((*done.words, words))


def _question(visit: Visit, question: Ambiguous | Undecided) -> Notice:
    """What is unclear with each reading as a button; as a mistake where no field can be found."""
    typed = _typed(visit)
    text = question.text if isinstance(question, Ambiguous) else None
    place = place_of(text, typed)
    if place is None:
        return _wrong(visit, question)
    name = place[0]
    if isinstance(question, Ambiguous):
        words = [*map(sentence, question.shown or question.readings)]
        values = [replaced(typed[name], question.text, one) for one in question.readings]
        what = f"“{question.text}” can be read in more than one way." if text else "Which one?"
    else:
        words = [said(way) for way, _ in question.ways]
        values = [sentence(value) for _, value in question.ways]
        what = said(question.what)
    choices = [
        Choice(one, {**typed, name: value}) for one, value in zip(words, values, strict=True)
    ]
    return Notice((what,), "question", visit.path, typed, choices)


def _no_such_page(workshop: Workshop) -> Any:
    def show(request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 404
        words = TOO_LARGE if status == 413 else NO_PAGE
        if request.state.device is None:
            return PlainTextResponse(words, status)
        missing = partial(trouble, why=words, status=status)
        return _shown_or_why(_visit(workshop, request), missing)

    return show


def _broken(workshop: Workshop) -> Any:
    """A fault of the program: said plainly; what it was goes to the terminal."""

    def show(request: Request, error: Exception) -> Response:
        if request.state.device is None:
            return PlainTextResponse(_BROKEN, 500)
        values = {
            "head": "Something broke here",
            "words": _BROKEN,
            "safe": "The terminal shows what it was. Go on from the record.",
        }
        return _visit(workshop, request).without_file("trouble.html", values, 500)

    return show
