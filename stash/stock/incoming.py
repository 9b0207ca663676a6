"""What comes onto the shelf in one line, however it was typed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from stash.measures.colour import Colour
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.stock.yarn import Condition, Dyed, Lot, LotState, Surface

#: The name of a yarn whose label gives none.
NO_NAME = "unnamed yarn"


@dataclass(frozen=True, slots=True)
class Incoming:
    """One line of yarn: the facts on the band, how many skeins, and what is left of them.

    `full_mass` and `full_length` are what a full skein weighs and measures; either may be unknown,
    and both together are the put-up. `left` is what a part skein weighs or measures; None means
    whole, unless `opened` says otherwise: a whole skein may hold more or less than its pair says.
    `part_balls` are opened skeins beside those `count` ones, by what is left of each.
    `measured` says that the pair was measured rather than read off a band, `assumed` that
    its mass is only inferred. `paid` is for the whole line. `number` and `record` ask for a certain
    skein and lot number (from a sheet given out before); lines of one record share it.
    `about` marks a figure said to be rough ("about 200 yd"). `typed` is the line as it was typed.
    """

    name: str
    maker: str = ""
    colour: str = ""
    colour_no: str = ""
    colours: tuple[Colour, ...] = ()
    lot: str = ""
    lot_state: LotState = LotState.UNKNOWN
    thickness_from: int | None = None
    thickness_to: int | None = None
    fibre: str = ""
    full_mass: Mass | None = None
    full_length: Length | None = None
    measured: bool = False
    assumed: bool = False
    count: int = 1
    left: Mass | Length | None = None
    part_balls: tuple[Mass | Length, ...] = ()
    opened: bool | None = None
    tare: Mass | None = None
    place: str = ""
    owner: str = ""
    bought: date | None = None
    paid: Money | None = None
    care: str = ""
    note: str = ""
    hand_dyed: bool = False
    conditions: tuple[Condition, ...] = ()
    daylight: bool = False
    dyed: Dyed | None = None
    surface: Surface | None = None
    about: bool = False
    number: int | None = None
    record: int | None = None
    typed: str = ""

    @classmethod
    def like(cls, record: Lot, lot: tuple[str, LotState]) -> Incoming:
        """A line of yarn just like a record, but of another dye lot."""
        text, state = lot
        return cls(
            name=record.yarn.name,
            maker=record.yarn.maker,
            colour=record.colour,
            colour_no=record.colour_no,
            colours=record.colours,
            lot=text,
            lot_state=state,
            thickness_from=record.thickness_from,
            thickness_to=record.thickness_to,
            fibre=record.fibre,
            full_mass=record.full_mass,
            hand_dyed=record.hand_dyed,
            care=record.care,
            dyed=record.dyed,
            surface=record.surface,
        ).trimmed()

    @property
    def opened_amounts(self) -> tuple[Mass | Length, ...]:
        """What is left of each skein that is not whole."""
        return (*(() if self.left is None else (self.left,) * self.count), *self.part_balls)

    @property
    def full_skeins(self) -> Fraction:
        """How many full skeins it is worth: an opened one carries its share of a full one.

        One whose full size is not known counts as one.
        """
        opened = self.opened_amounts
        whole = self.count + len(self.part_balls) - len(opened)
        return Fraction(whole) + sum((self._share(left) for left in opened), Fraction(0))

    def _share(self, left: Mass | Length) -> Fraction:
        if isinstance(left, Mass):
            return Fraction(left.mg, self.full_mass.mg) if self.full_mass else Fraction(1)
        return Fraction(left.um, self.full_length.um) if self.full_length else Fraction(1)

    def trimmed(self) -> Incoming:
        """The same line with its names trimmed; a lot number of blanks is a lot not known."""
        lot = self.lot.strip() if self.lot_state is LotState.NUMBERED else ""
        blank = self.lot_state is LotState.NUMBERED and not lot
        return replace(
            self,
            name=self.name.strip(),
            maker=self.maker.strip(),
            colour=self.colour.strip(),
            colour_no=self.colour_no.strip(),
            lot=lot,
            lot_state=LotState.UNKNOWN if blank else self.lot_state,
        )
