"""The heading row of a sheet: where it is, and which of our columns stands where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stash.errors import Unreadable
from stash.exchange import cell_kinds
from stash.exchange.findings import Finding
from stash.parsing import headings
from stash.parsing.headings import KnownHeadings, Meaning
from stash.rendering.her_words import hers

#: Rows as text, cell by cell.
Rows = Sequence[Sequence[str]]

#: The headings stand among so many rows from the top, or nowhere.
SEARCHED = 200


@dataclass(frozen=True, slots=True)
class Head:
    """A heading and what it means, or what it may mean where that is not sure."""

    theirs: str
    place: int
    meaning: Meaning

    def __str__(self) -> str:
        guess = " (a guess)" if self.meaning.guessed else ""
        meant = str(self.meaning)
        return f"{self.theirs} as {hers(meant)}{guess}" if meant != self.theirs else meant

    @property
    def sure_enough(self) -> bool:
        """Whether the heading is like enough to a word for a column of ours."""
        return self.meaning.likeness >= headings.TAKEN_FROM


@dataclass(frozen=True, slots=True)
class HeadingRow:
    """The headings that were taken, by place, and what is to be said of them and of the others."""

    taken: tuple[Head, ...]
    notes: tuple[Finding, ...]


def heading_place(rows: Rows, known: KnownHeadings) -> tuple[int, int]:
    """Which row names the most of our columns, and how many; the first of equals.

    Only where no row names two in words that are known do words like them count.
    """
    counts = [_different(_exact(cells, (), known)) for cells in rows[:SEARCHED]]
    if max(counts, default=0) < 2:
        counts = [_different(_offers(cells, (), known)) for cells in rows[:SEARCHED]]
    most = max(counts, default=0)
    return (counts.index(most) if counts else 0), most


def _different(offers: Sequence[Head]) -> int:
    return len({head.meaning.column for head in offers if head.sure_enough})


def read_headings(line: int, cells: Sequence[str], below: Rows, known: KnownHeadings) -> HeadingRow:
    """Which heading is taken for which column; one column is taken once, the surest first.

    Every guess is named in a note, and so is what is left out. Raises Unreadable where a heading
    named with --map is not there, or two of them are for one column.
    """
    _refuse_strange_maps(cells, known)
    offers = _offers(cells, below, known)
    by_column: dict[str, Head] = {}
    for head in sorted(offers, key=lambda one: (-_trust(one, known), one.place)):
        if head.sure_enough:
            by_column.setdefault(head.meaning.column, head)
    offered = {head.place: head for head in offers}
    notes = [
        Finding(line, cell, text)
        for place, cell in enumerate(cells)
        for text in _said(cell, offered.get(place), by_column, known)
    ]
    taken = sorted(by_column.values(), key=lambda head: head.place)
    return HeadingRow(tuple(taken), tuple(notes))


def _trust(head: Head, known: KnownHeadings) -> float:
    said = headings.key(head.theirs)
    return head.meaning.likeness + 2 * (said in known.mapped) + (said in known.kept)


def _offers(cells: Sequence[str], below: Rows, known: KnownHeadings) -> list[Head]:
    """What each heading means or may mean; nothing for one that is like no word of ours."""
    likely = [
        Head(cell, place, meaning)
        for place, cell in enumerate(cells)
        if cell and known.meaning(cell) is None
        if (meaning := headings.nearest_column(cell)) is not None
    ]
    return [*_exact(cells, below, known), *likely]


def _exact(cells: Sequence[str], below: Rows, known: KnownHeadings) -> list[Head]:
    found, open_ones = [], []
    for place, cell in enumerate(cells):
        meaning = known.meaning(cell) if cell else None
        if meaning and meaning.column:
            found.append(Head(cell, place, meaning))
        elif meaning is None and headings.plain(cell) in headings.BY_ITS_CELLS:
            open_ones.append((place, cell))
    others = {head.meaning.column for head in found}
    for place, cell in open_ones:
        texts = [row[place] for row in below if place < len(row)]
        meaning = cell_kinds.meaning(cell, texts, others)
        if meaning:
            found.append(Head(cell, place, meaning))
    return found


def _said(
    cell: str, head: Head | None, by_column: dict[str, Head], known: KnownHeadings
) -> Iterator[str]:
    """What is to be said of a heading: that it was guessed, or why it was left out."""
    if not cell:
        return
    if head is None:
        yield _why_left_out(cell, known)
        return
    column, first = head.meaning.column, by_column.get(head.meaning.column)
    if first is head:
        if head.meaning.guessed:
            yield (
                f'read as {column} (a guess); if so add --map "{cell}={column}", if not '
                f'--map "{cell}="'
            )
    elif first is not None and head.sure_enough:
        yield f"left out: {first.theirs!r} is the {column} already"
    else:
        yield f'left out; if it is the {column}, add --map "{cell}={column}"'


def _why_left_out(cell: str, known: KnownHeadings) -> str:
    if known.meaning(cell) is not None:
        return "left out, as you asked"
    if headings.plain(cell) in headings.UNCERTAIN:
        return (
            f"left out: is it a count, yarn or money? Add "
            f'--map "{cell}=count", --map "{cell}=left g" or --map "{cell}=paid"'
        )
    if headings.plain(cell) in headings.WEIGHT:
        return (
            "left out: is it grams or a thickness? Add "
            f'--map "{cell}=mass g" or --map "{cell}=thickness"'
        )
    return "left out: not a column we know"


def _refuse_strange_maps(cells: Sequence[str], known: KnownHeadings) -> None:
    there = {headings.key(cell) for cell in cells if cell}
    taken: dict[str, str] = {}
    for heading, said in known.mapped.items():
        if heading not in there:
            there_are = tuple(cell for cell in cells if cell)
            raise Unreadable(heading, "no_heading_of_this_sheet", headings=there_are)
        column = headings.column_named(said).column
        if column and taken.setdefault(column, heading) != heading:
            raise Unreadable(heading, "column_mapped_twice", column=column, heading=taken[column])
