"""An article comes apart: its yarn goes back to the shelf, less the usual loss."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.aside import release_within
from stash.actions.book import Book, Pen
from stash.actions.preferences import Preferences
from stash.actions.sold import refuse_if_sold
from stash.actions.split import new_part
from stash.errors import Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.measures.rounding import shared_out
from stash.stock.article import Article, ArticleState
from stash.stock.holding import HeldSkein
from stash.stock.movement import Kind, Movement
from stash.store import article_rows, entry_rows, skein_rows
from stash.store.entry_rows import Step

#: What ends and worn places usually cost (our choice: tails are cut off, joins stay joined).
USUAL_LOSS = 0.05


@dataclass(frozen=True, slots=True)
class Returned:
    """One skein that got yarn back: `made` if it is new, and from which skein the yarn was."""

    skein: HeldSkein
    was: int
    mass: Mass
    made: bool


@dataclass(frozen=True, slots=True)
class Unravelled:
    """An article that came apart, and where its yarn lies now."""

    entry: int
    article: Article
    returned: tuple[Returned, ...]
    settings: Preferences


def unravel(
    book: Book,
    article: str,
    *,
    into: Mapping[int, int] | None = None,
    back: float | Mass = 1 - USUAL_LOSS,
    on: date | None = None,
) -> Unravelled:
    """Take an article apart.

    Each skein it used gets a new skein of the same lot beside it, unless `into` says that the yarn
    was wound back onto a skein of that lot (from number -> onto number). `back` is what came back:
    a share of what was used, or what the scale says of all of it, shared by what was used of each.
    """
    with book.entry("unravel", on) as pen:
        found = find.article(pen.db, article)
        if found.state not in (ArticleState.BEGUN, ArticleState.DONE):
            raise Refusal(f"article {found} is {found.state}; there is nothing to unravel")
        refuse_if_sold(pen, found)
        used = _used(pen, found)
        if not used:
            raise Refusal(f"article {found} has used no yarn; release it instead")
        _refuse_unused(found, used, into or {})
        placed = [_put_back(pen, found, n, kept, into or {}) for n, kept in _kept(used, back)]
        release_within(pen, found)
        entry_rows.add_step(pen.db, pen.number, Step(found.number, ArticleState.UNRAVELLED))
        total = sum((mass for _, _, mass, _ in placed), NO_MASS)
        pen.words = f"article {found} unravelled, {total} back on the shelf"
    return _told(book, pen, found, placed)


def _used(pen: Pen, article: Article) -> list[tuple[int, Mass]]:
    """What the article took of each skein, by number."""
    sums: dict[int, Mass] = {}
    for row in entry_rows.movements(pen.db, article_number=article.number):
        move = row.movement
        sums[move.skein] = sums.get(move.skein, NO_MASS) - move.change
    return [(number, mass) for number, mass in sorted(sums.items()) if mass > NO_MASS]


def _refuse_unused(
    article: Article, used: Sequence[tuple[int, Mass]], into: Mapping[int, int]
) -> None:
    numbers = [number for number, _ in used]
    for number in into:
        if number not in numbers:
            listed = ", ".join(map(str, numbers))
            raise Refusal(f"article {article} used no yarn of skein {number}; it used {listed}")


def _kept(used: Sequence[tuple[int, Mass]], back: float | Mass) -> list[tuple[int, Mass]]:
    """What came back of each skein; what was weighed is shared to the milligram."""
    if isinstance(back, Mass):
        total = sum((mass for _, mass in used), NO_MASS)
        if not NO_MASS < back <= total:
            raise Refusal(
                f"{back} cannot have come back of the {total} it used; "
                "leave the weight out, then `stash weigh` the skeins that come of it"
            )
        shares = shared_out(back.mg, [mass.mg for _, mass in used])
    elif 0 < back <= 1:
        shares = [round(mass.mg * back) for _, mass in used]
    else:
        raise Refusal(f"a loss of {1 - back:.0%} leaves nothing; give 0 to 99 %")
    return [(number, Mass(mg)) for (number, _), mg in zip(used, shares, strict=True) if mg]


def _put_back(
    pen: Pen, article: Article, number: int, mass: Mass, into: Mapping[int, int]
) -> tuple[int, int, Mass, bool]:
    was = pen.skein(number)
    onto = into.get(number)
    if onto is None:
        target, made = new_part(pen, was, None), True
    else:
        target, made = _same_lot(pen, was, onto), False
    pen.move([Movement(target, Kind.UNRAVELLED, mass, article=article.number)])
    return target, number, mass, made


def _same_lot(pen: Pen, was: HeldSkein, onto: int) -> int:
    held = skein_rows.held_skeins(pen.db, [onto])
    if not held or held[0].lot_id != was.lot_id:
        raise Refusal(
            f"skein {onto} is not of the lot of skein {was.number}; wind onto one that is"
        )
    if not held[0].opened:
        raise Refusal(f"skein {onto} is whole; wind back onto an opened one, or onto none")
    return onto


def _told(
    book: Book, pen: Pen, article: Article, placed: list[tuple[int, int, Mass, bool]]
) -> Unravelled:
    with book.reading() as db:
        numbers = sorted({target for target, *_ in placed})
        held = skein_rows.held_skeins(db, numbers)
        skeins = {skein.number: skein for skein in held}
        now = article_rows.articles(db, [article.number])[0]
    returned = tuple(Returned(skeins[t], was, mass, made) for t, was, mass, made in placed)
    return Unravelled(pen.number, now, returned, pen.preferences)
