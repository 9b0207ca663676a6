"""A plan: articles with every cut they are made of. It checks itself, without the solver."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from stash.planning.cutting import (
    Cannot,
    Cutting,
    Strand,
    exactly,
    thriftily,
    with_fewer_joins,
)
from stash.planning.problem import Aim, Column, Mix, Problem

#: So many steps go into cutting with fewer joins than the rules find: in all, and for one lot.
POLISH_STEPS, LOT_STEPS = 4_000, 500


class Taken(NamedTuple):
    """So much of a piece for one strand of a part of an article; strands count from 0."""

    lot: int
    piece: int
    article: int
    part: int
    strand: int
    um: int


@dataclass(frozen=True, slots=True)
class Plan:
    """The articles by kind, in order, and what each takes of which piece."""

    articles: tuple[Column, ...]
    taken: tuple[Taken, ...]

    def made(self) -> Counter[int]:
        """How many of each want."""
        return Counter(article.want for article in self.articles)


def cut_out(problem: Problem, articles: Sequence[Column], polish: int = 0) -> Plan | None:
    """The plan with every cut; None where some lot's pieces do not give what is asked of them.

    `polish` is how many steps are taken in all to find cuttings with fewer joins.
    """
    articles = sorted(articles)
    taken: list[Taken] = []
    for lot, asked in sorted(asked_of_lots(problem, articles).items()):
        strands = [strand for _, strand in asked]
        cutting, steps = _cut(problem, lot, strands, min(polish, LOT_STEPS))
        if cutting is None:
            return None
        polish -= steps
        for cut in cutting.cuts:
            article, part, strand = asked[cut.strand][0]
            taken.append(Taken(lot, cut.piece, article, part, strand, cut.um))
    return Plan(tuple(articles), tuple(taken))


def polished(problem: Problem, plan: Plan) -> Plan:
    """The same articles cut with fewer joins, as far as the search for that may go."""
    return cut_out(problem, plan.articles, POLISH_STEPS) or plan


def _cut(
    problem: Problem, lot: int, strands: Sequence[Strand], steps: int
) -> tuple[Cutting | None, int]:
    """The cutting of one lot, and the steps that a search for fewer joins may have taken."""
    stock, ends = problem.lots[lot], problem.ends
    if problem.use_up:
        found: Cutting | Cannot | None = thriftily(stock, strands, ends)
        found = found or exactly(stock, strands, ends)
    else:
        found = exactly(stock, strands, ends)
    if isinstance(found, Cannot):
        return None, 0
    if problem.use_up or not steps or len(found.cuts) == len(strands):
        return found, 0
    return with_fewer_joins(stock, strands, ends, found, steps), steps


Asked = tuple[tuple[int, int, int], Strand]


def asked_of_lots(problem: Problem, articles: Sequence[Column]) -> dict[int, list[Asked]]:
    """The strands that every lot is to give, each with its article, part and number."""
    found: dict[int, list[Asked]] = {}
    for number, column in enumerate(articles):
        for at, (part, place) in enumerate(problem.places(column)):
            found.setdefault(place.lot, []).extend(
                ((number, at, i), Strand(um, place.pool))
                for i, um in enumerate(part.strand_lengths)
            )
    return found


def total(problem: Problem, aim: Aim | None, plan: Plan) -> int:
    """What a plan comes to: coins, articles, micrometres of part balls, or of need that is met.

    Without an aim, what it misses of all that is wanted at least, below 0. Of part balls count no
    tails of joins, so that joining more uses up no more.
    """
    if aim is None:
        return -sum(missed(problem, plan.articles))
    if aim is Aim.LEFTOVERS:
        return sum(_leftovers(problem, plan))
    return sum(problem.worth(column, aim) for column in plan.articles)


def _leftovers(problem: Problem, plan: Plan) -> Iterator[int]:
    opened, asked = Counter[int](), Counter[int]()
    for cut in plan.taken:
        if not problem.lots[cut.lot].pieces[cut.piece].whole:
            opened[cut.lot] += cut.um
    for column in plan.articles:
        for part, place in problem.places(column):
            asked[place.lot] += part.um
    for lot, um in opened.items():
        yield min(um, asked[lot])


def missed(problem: Problem, articles: Sequence[Column]) -> list[int]:
    """How many articles each want lacks of its least, then each mix of its own."""
    made = Counter(article.want for article in articles)
    wants = [max(0, want.at_least - made[i]) for i, want in enumerate(problem.wants)]
    return wants + [lacking(mix, articles) for mix in problem.mixes]


def lacking(mix: Mix, articles: Sequence[Column]) -> int:
    """How many articles a mix lacks of what it asks for at least."""
    inside = sum(mix.holds(article) for article in articles)
    least = -(-mix.at_least * len(articles) // 100) if mix.share else mix.at_least
    return max(0, least - inside)


def trimmed(problem: Problem, articles: Sequence[Column]) -> list[Column]:
    """Without the last articles of which a mix has too many, or too large a share."""
    kept = [*articles]
    while over := next((mix for mix in problem.mixes if _too_many(mix, kept)), None):
        del kept[max(i for i, article in enumerate(kept) if over.holds(article))]
    return kept


def _too_many(mix: Mix, articles: Sequence[Column]) -> bool:
    if mix.at_most is None:
        return False
    inside = sum(mix.holds(article) for article in articles)
    return 100 * inside > mix.at_most * len(articles) if mix.share else inside > mix.at_most


def broken(problem: Problem, plan: Plan) -> str:
    """The first rule that the plan breaks, in words for whoever mends the planner; "" for none."""
    return next(_broken(problem, plan), "")


def _broken(problem: Problem, plan: Plan) -> Iterator[str]:
    for want, count in plan.made().items():
        if count > problem.wants[want].at_most:
            yield f"want {want} is made {count} times"
    minutes = sum(problem.wants[article.want].minutes for article in plan.articles)
    if problem.minutes is not None and minutes > problem.minutes:
        yield f"{minutes} minutes are planned"
    pairs = Counter(article.pair for article in plan.articles)
    if problem.per_pair is not None and max(pairs.values(), default=0) > problem.per_pair:
        yield "a pair is shared too often"
    for mix in problem.mixes:
        if _too_many(mix, plan.articles):
            yield "a mix has too many"
    for article in plan.articles:
        yield from _ill_assorted(problem, article)
    yield from _miscut(problem, plan)


def _ill_assorted(problem: Problem, article: Column) -> Iterator[str]:
    want = problem.wants[article.want]
    for part, lot in zip(want.parts, article.lots, strict=True):
        if lot not in part.places:
            yield f"lot {lot} does not fill {part.role}"
    for i, lot in enumerate(article.lots):
        if not all(want.beside.row(lot) >> other & 1 for other in article.lots[:i]):
            yield f"lot {lot} does not stand beside the others"


def _miscut(problem: Problem, plan: Plan) -> Iterator[str]:
    """Every strand whole with the tails of its joins, and no piece cut twice."""
    strands: dict[tuple[int, int, int], list[Taken]] = {}
    pieces, lots = Counter[tuple[int, int]](), Counter[int]()
    for cut in plan.taken:
        strands.setdefault((cut.article, cut.part, cut.strand), []).append(cut)
        pieces[cut.lot, cut.piece] += cut.um
        lots[cut.lot] += cut.um
    for (lot, piece), um in pieces.items():
        if um > problem.lots[lot].pieces[piece].um:
            yield f"piece {piece} of lot {lot} is cut beyond its end"
    for lot, um in lots.items():
        if um > problem.lots[lot].most_um:
            yield f"lot {lot} gives more than it may"
    for number, article in enumerate(plan.articles):
        for at, (part, place) in enumerate(problem.places(article)):
            for i, um in enumerate(part.strand_lengths):
                cuts = strands.pop((number, at, i), [])
                yield from _mismeasured(problem, um, place.pool, place.lot, cuts)
    if strands:
        yield "something is cut for nothing"


def _mismeasured(
    problem: Problem, um: int, pool: int, lot: int, cuts: Sequence[Taken]
) -> Iterator[str]:
    ends = problem.ends
    if um and sum(cut.um for cut in cuts) != um + ends.join_um * (len(cuts) - 1):
        yield "a strand is not as long as it must be"
    if any(cut.lot != lot or not pool >> cut.piece & 1 for cut in cuts):
        yield "a strand is cut from a piece that is not for it"
    if len(cuts) > 1 and min(cut.um for cut in cuts) < ends.shortest_um:
        yield "an end too short to use is joined in"


def left_um(problem: Problem, plan: Plan) -> Mapping[tuple[int, int], int]:
    """What is left of each piece that is cut, by lot and piece."""
    found: dict[tuple[int, int], int] = {}
    for cut in plan.taken:
        key = cut.lot, cut.piece
        found[key] = found.get(key, problem.lots[cut.lot].pieces[cut.piece].um) - cut.um
    return found
