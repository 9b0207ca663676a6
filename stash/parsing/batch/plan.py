"""What the lines of a plan mean: wants, mixes and limits; all mistakes are named at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from stash.errors import BadInput, Unreadable
from stash.matching.question.wish import Named, Wished
from stash.measures.note import Note
from stash.parsing import coins, facts, numbers, settings, work
from stash.parsing.batch.lines import Findings, Line, PlanLines
from stash.parsing.design import runs
from stash.parsing.design.runs import Chart
from stash.parsing.wish import limits as limits_typed
from stash.planning.model.asked import WantAsked
from stash.planning.model.batch import MixWanted, Terms
from stash.planning.model.problem import Aim
from stash.requirements.design.design import Design
from stash.requirements.fit.grading import Run, SizeAsked

#: More than this many of one thing is a slip of the finger.
MOST = 10_000
_Read = TypeVar("_Read")
_Usual = TypeVar("_Usual")


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What the words are read against: her designs, sizes and currency, and the day.

    `ordered` are wants that come before those that are read.
    """

    plan_of: Callable[[str], Design]
    chart: Chart
    currency: str
    today: date
    ordered: tuple[WantAsked, ...] = ()


@dataclass(frozen=True, slots=True)
class PlanRead:
    """A plan that was read; `contrast` is for all wants that have none of their own."""

    wants: tuple[WantAsked, ...]
    terms: Terms
    kept_out: tuple[str, ...]
    contrast: Wished | None = None


def plan_read(plan: PlanLines, aim: str, around: Surroundings) -> PlanRead:
    """Everything the lines mean; `aim` as typed beside them outweighs theirs."""
    found = Findings(plan.name)
    reader = _Reader(found, around)
    wants = tuple(reader.want(line) for line in plan.wants)
    mixes = tuple(reader.mix(line, wants) for line in plan.mixes)
    minutes, by = reader.hours(plan.limits)
    aims_typed = aims(aim or plan.aim, any(want.coins for want in wants))
    terms = Terms(
        aims_typed,
        minutes,
        reader.read(plan.limits, "per_pair", item_count, None),
        reader.read(plan.limits, "hold_back", percent, 0) or 0,
        (*mixes, *reader.per_colour(plan.limits)),
        by,
        reader.different(plan.limits, [*around.ordered, *wants]),
    )
    contrast = reader.read(plan.limits, "contrast", settings.contrast, None)
    found.refuse()
    if not (wants or around.ordered):
        raise BadInput("nothing_wanted")
    kept_out = [part.strip() for part in plan.limits.get("keep_out").split(",") if part.strip()]
    return PlanRead((*around.ordered, *wants), terms, tuple(kept_out), contrast)


#: An aim as plans of before have it.
_BEFORE = {"articles": "items"}


def aims(text: str, valued: bool) -> tuple[Aim, ...]:
    """Aims in their order: `value, leftovers`; else most value where one is said, or items."""
    words = [word.strip().lower() for word in text.split(",") if word.strip()]
    words = [_BEFORE.get(word, word) for word in words]
    for word in words:
        if word not in set(Aim):
            raise Unreadable(word, "no_aim", choices=tuple(Aim))
    if not valued and not {Aim.VALUE, Aim.PROFIT}.isdisjoint(words):
        raise BadInput("aim_without_values")
    found = [Aim(word) for word in dict.fromkeys(words)]
    return tuple(found) or ((Aim.VALUE,) if valued else (Aim.ITEMS,))


def item_count(text: str) -> int:
    """A whole number of items."""
    number = numbers.fraction(text)
    if number.denominator != 1 or not 0 <= number <= MOST:
        raise Unreadable(text, "no_count_of_items", most=MOST)
    return int(number)


def different_count(text: str) -> int:
    """How many sets of yarns are to differ: a whole number from 1 on."""
    try:
        count = item_count(text)
    except BadInput:
        count = 0
    if not count:
        raise Unreadable(text, "no_count_of_different", most=MOST)
    return count


def percent(text: str) -> int:
    """A share in whole hundredths: `20%`, `20`."""
    number = numbers.fraction(text.removesuffix("%"))
    if number.denominator != 1 or not 0 <= number <= 100:
        raise Unreadable(text, "no_whole_percent")
    return int(number)


class _Reader:
    """Reads key by key; what cannot be read is put down, and the rest goes on."""

    def __init__(self, found: Findings, around: Surroundings) -> None:
        self.found, self.around = found, around

    def read(
        self, line: Line, key: str, how: Callable[[str], _Read], usual: _Usual
    ) -> _Read | _Usual:
        """What a key means, or what is usual where it is not there or cannot be read."""
        text = line.get(key)
        try:
            return how(text) if text else usual
        except BadInput as bad:
            self.found.add(line, key, bad)
            return usual

    def want(self, line: Line) -> WantAsked:
        if not line.get("design"):
            self.found.add(line, "", Note("want_of_no_design"))
            return WantAsked("")
        key = "price" if line.get("price") else "value"
        money = self.read(line, key, lambda t: coins.money(t, self.around.currency).coins, 0)
        least = self.read(line, "at_least", item_count, 0) or 0
        most = self.read(line, "at_most", item_count, None)
        if most is not None and most < least:
            self.found.add(line, "at_most", Note("most_below_least", most=most, least=least))
        return WantAsked(
            line.get("design"),
            self._run(line),
            ", ".join(t for t in map(line.get, ("size", "brim", "band")) if t),
            least,
            most,
            money or 0,
            self.read(line, "hours", work.minutes, None),
            self._colours(line, "colour"),
            self._colours(line, "not_colour"),
            self.read(line, "contrast", settings.contrast, None),
            different=self._different(line, most),
        )

    def _colours(self, line: Line, key: str) -> dict[str, tuple[Named, ...]]:
        """`A=blue, B=teal`: a role goes on until the next one is named."""
        texts: list[str] = []
        for part in line.get(key).split(","):
            if "=" in part or not texts:
                texts.append(part)
            else:
                texts[-1] += f",{part}"
        option = f"--{key.replace('_', '-')}"
        return self.read(line, key, lambda _: limits_typed.colours(texts, option), None) or {}

    def _run(self, line: Line) -> Run | None:
        """The size and options as one row of a grading; None where it stays as it is planned."""
        if not any(map(line.get, ("size", "brim", "band"))):
            return None
        plan = self.around.plan_of(line.get("design"))
        usual = (SizeAsked(""),)
        sizes = self.read(
            line, "size", lambda t: _one(runs.sizes(t, plan, self.around.chart), t), usual
        )
        brims = self.read(line, "brim", lambda t: _one(runs.brims(t), t), ())
        bands = self.read(line, "band", lambda t: _one(runs.bands(t, plan), t), ())
        return Run(sizes or usual, brims or (), bands or ())

    def different(self, limits: Line, wants: Sequence[WantAsked]) -> int:
        """How many different sets of yarns there must be among all that is made."""
        each = [MOST if want.at_most is None else want.at_most for want in wants]
        return self._different(limits, sum(each))

    def _different(self, line: Line, most: int | None) -> int:
        found = self.read(line, "different", different_count, 0) or 0
        if most is not None and found > most:
            what = Note("more_different_than_items", different=found, most=most)
            self.found.add(line, "different", what)
        return found

    def mix(self, line: Line, wants: Sequence[WantAsked]) -> MixWanted:
        design, size = line.get("design"), line.get("size")
        family = self.read(line, "family", facts.family, "") or ""
        of = [w for w in wants if design.lower() in ("", w.design.lower()) and size in ("", w.size)]
        if not of or not (design or size or family):
            self.found.add(line, "", Note("mix_of_nothing_wanted"))
        both = [line.get("at_least"), line.get("at_most")]
        share = any(text.endswith("%") for text in both)
        if share and not all(text.endswith("%") for text in both if text):
            self.found.add(line, "at_most", Note("counts_and_shares"))
        how = percent if share else item_count
        least = self.read(line, "at_least", how, 0)
        return MixWanted(
            design, size, family, least or 0, self.read(line, "at_most", how, None), share
        )

    def per_colour(self, limits: Line) -> list[MixWanted]:
        """No more than so many whose main yarn is of one family of colours, whichever it is."""
        most = self.read(limits, "per_colour", item_count, None)
        return [] if most is None else [MixWanted(family=f, at_most=most) for f in facts.FAMILIES]

    def hours(self, limits: Line) -> tuple[int | None, date | None]:
        """The minutes there are, from the hours or from hours a week until the day."""
        by = self.read(limits, "date", self._day_to_come, None)
        weekly = self.read(limits, "hours_a_week", work.hours, None)
        in_all = self.read(limits, "hours", work.minutes, None)
        if weekly is None or in_all is not None:
            return in_all, by
        if by is None:
            self.found.add(limits, "hours_a_week", Note("hours_until_when"))
            return None, by
        return round(60 * weekly * (by - self.around.today).days / 7), by

    def _day_to_come(self, text: str) -> date:
        try:
            day = date.fromisoformat(text)
        except ValueError:
            raise Unreadable(text, "no_iso_day") from None
        if day < self.around.today:
            raise Unreadable(text, "day_gone_by", today=self.around.today)
        return day


def _one(found: tuple[_Read, ...], text: str) -> tuple[_Read, ...]:
    if len(found) != 1:
        raise Unreadable(text, "several_choices")
    return found
