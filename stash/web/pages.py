"""Templates, and what every page has: its places, the last entry, the tokens of its forms."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache, partial
from typing import TYPE_CHECKING, Any

from jinja2 import Environment, PackageLoader, StrictUndefined, pass_context
from markupsafe import Markup, escape

from stash.actions.log import to_undo
from stash.errors import Refusal
from stash.rendering.drawing.signs import Sign, sign
from stash.rendering.her_words import hers
from stash.rendering.sentences.say import sentence

if TYPE_CHECKING:
    from stash.stock.entry import Entry
    from stash.web.visit import Visit

#: The places of the page, in the order of its bar: address, name, and the sign that stands for it.
PLACES = (
    ("/", "Tonight", "tonight"),
    ("/shelf", "Shelf", "shelf"),
    ("/designs", "Designs", "designs"),
    ("/scale", "Scale", "scale"),
    ("/market", "Market", "market"),
)
#: A lot by its number in the file, with its colour: on a page the colour is enough.
_REF = re.compile(r"\bL[0-9]+ \(([^()]+)\)")
#: A letter of a sentence; the point of a number, or of "no. 4", ends none.
_LETTER = r"(?:[^.?;`]|(?<=\bno)\.|[.?](?=\S))"
#: Where a sentence begins, or a part of one after a semicolon; and where it ends.
_BEGINS, _ENDS = r"(?:^|(?<=[.?;])(?<!\bno\.) )", r"(?:[.?;](?=\s|$))?"
#: The rest of what names a command or an option, to where its part of the sentence ends.
_REST = rf"(?:{_LETTER}|`[^`]*`)*{_ENDS}"
#: A hint for the command line: a part of a sentence with a command in it.
_HINT = re.compile(rf"{_BEGINS}{_LETTER}*`stash[^`]*`{_REST}")
#: The same within the only part there is: from the last colon or comma before the command.
_SMALL_HINT = re.compile(rf"[:,] (?:(?![:,] ){_LETTER})*`stash[^`]*`{_REST}")
#: Another way by a command, behind one that is no command.
_OR_COMMAND = re.compile(r", (?:or|else) `stash[^`]*`(?=$|[;.])")
#: A sentence, or the part of one after a semicolon, that names an option.
_OPTION = re.compile(rf"{_BEGINS}{_LETTER}*(?<!\S)--[a-z]{_REST}")


@cache
def _templates() -> Environment:
    environment = Environment(
        loader=PackageLoader("stash.web"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
    environment.filters.update(said=said, large=begun_large, linked=linked, hers=_hers)
    environment.globals.update(sign=drawn_sign)
    return environment


@pass_context
def _hers(context: object, words: str) -> str:
    """The words as she spells them; by the context, so that no template is made with one spelling.

    Without it Jinja works out the filter of a plain text once, when the template is read.
    """
    return hers(words)


def rendered(template: str, visit: Visit, values: Mapping[str, Any]) -> str:
    """A page as HTML. Its template extends `frame.html`, which has the bar and the notice."""
    frame = {
        "visit": visit,
        "places": PLACES,
        "place": place_of_page(visit.path),
    }
    if "last" not in values:
        frame["last"], frame["newest"] = _last_entry(visit), visit.newest()
    frame["token"] = partial(visit.workshop.tokens.new, {**frame, **values}["newest"])
    return _templates().get_template(template).render(frame, **values)


def alone(template: str, values: Mapping[str, Any]) -> str:
    """A page that has nothing of the workshop."""
    return _templates().get_template(template).render(**values)


def place_of_page(path: str) -> str:
    """The place of the bar that an address belongs to."""
    first = f"/{path.split('/')[1]}"
    return {
        "/lot": "/shelf",
        "/skein": "/shelf",
        "/yarn-ideas": "/shelf",
        "/lot-ideas": "/shelf",
        "/labels": "/shelf",
        "/add": "/shelf",
        "/photo": "/shelf",
        "/sheet": "/shelf",
        "/pairs": "/designs",
        "/design": "/designs",
        "/pick": "/",
        "/tag": "/market",
        "/prices": "/market",
        "/item": "/",
        "/items": "/market",
        "/lasts": "/scale",
        "/count": "/scale",
    }.get(first, first)


def _last_entry(visit: Visit) -> Entry | None:
    """The entry that Undo in the bar would cancel: the newest of this device."""
    if not visit.workshop.begun():
        return None
    try:
        names = visit.device.names
        return visit.workshop.kept(("last entry", names), lambda: to_undo(visit.book, of=names))
    except Refusal:
        return None


def last_words(visit: Visit) -> str:
    """What that entry did, as the bar says it."""
    last = _last_entry(visit)
    return said(last.what) if last and visit.device.may_change else ""


def said(words: Any) -> str:
    """A note, an error or a sentence as it reads on a page: without hints for the command line."""
    text = _LOT_REF.sub("", _REF.sub(r"\1", sentence(words)))
    plain = _OR_COMMAND.sub("", text)
    without = _OPTION.sub("", _HINT.sub("", plain)) or _SMALL_HINT.sub("", plain)
    return without.strip().rstrip(";:,").replace("`", "")


#: What a lot is called at the command line.
_LOT_REF = re.compile(r" \(L\d+\)")
#: The number of an entry at the end of what a command answers.
_ENTRY = re.compile(r" *\(entry \d+\)")


def lines_said(text: str) -> tuple[str, ...]:
    """The lines of a command's answer as a page says them."""
    lines = (said(_ENTRY.sub("", line)) for line in text.split("\n"))
    return tuple(" ".join(line.split()) for line in lines if line.strip())


def begun_large(text: str) -> str:
    """A sentence that stands by itself begins with a capital."""
    return text[:1].upper() + text[1:]


#: What a sentence names by its number, and the address of its page.
_NAMED = re.compile(r"\b(item|skein) ([0-9]{1,9})\b", re.IGNORECASE)


def linked(text: str) -> Markup:
    """A sentence with a link to each item and skein that it names by its number."""
    return Markup(
        _NAMED.sub(
            lambda found: f'<a href="/{found[1].lower()}/{found[2]}">{found[0]}</a>',
            str(escape(text)),
        )
    )


def drawn_sign(name: str, size: int = 20) -> Markup:
    """A small sign; a word stands beside it."""
    return Markup(sign(Sign(name), size))
