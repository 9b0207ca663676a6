"""Measures and money as text that reads back to the very same."""

from __future__ import annotations

from fractions import Fraction

from stash.measures.length import INCH_UM, YARD_UM, Length
from stash.measures.mass import OUNCE_MG, POUND_MG, Mass
from stash.measures.money import Money, decimals

#: The signs people write and the currencies they may stand for (common practice, no source).
SIGNS: dict[str, tuple[str, ...]] = {
    "£": ("GBP",), "€": ("EUR",), "¥": ("JPY", "CNY"), "₹": ("INR",), "₩": ("KRW",),
    "zł": ("PLN",), "Kč": ("CZK",), "Fr": ("CHF",), "R": ("ZAR",), "R$": ("BRL",),
    "A$": ("AUD",), "AU$": ("AUD",), "C$": ("CAD",), "CA$": ("CAD",), "NZ$": ("NZD",),
    "US$": ("USD",), "S$": ("SGD",), "HK$": ("HKD",), "MX$": ("MXN",),
    "$": ("USD", "AUD", "CAD", "NZD", "SGD", "HKD", "MXN"), "kr": ("SEK", "NOK", "DKK", "ISK"),
}  # fmt: skip


def show_money(amount: Money, currency: str = "") -> str:
    """An amount with its sign or code, so that it reads back to the same coins: `£3.20`."""
    places = decimals(currency)
    digits = str(abs(amount.coins)).rjust(places + 1, "0")
    figure = f"{digits[: len(digits) - places]}.{digits[len(digits) - places :]}".rstrip(".")
    figure = f"-{figure}" if amount.coins < 0 else figure
    signs = [sign for sign, codes in SIGNS.items() if codes[0] == currency and sign in "£€¥$"]
    if signs:
        return f"{signs[0]}{figure}"
    return f"{figure} {currency}".strip()


def show_minutes(value: int) -> str:
    """A time of work in whole minutes: `2 h 10 min`, `45 min`."""
    whole, minutes = divmod(value, 60)
    parts = [f"{whole} h" if whole else "", f"{minutes} min" if minutes or not whole else ""]
    return " ".join(part for part in parts if part)


#: What each unit is in milligrams or micrometres, from the constants the measures stand on.
MASS_UNITS: dict[str, Fraction] = {
    "g": Fraction(1000), "kg": Fraction(1_000_000), "oz": OUNCE_MG, "lb": POUND_MG,
}  # fmt: skip


LENGTH_UNITS: dict[str, Fraction] = {
    "m": Fraction(1_000_000), "cm": Fraction(10_000), "mm": Fraction(1000),
    "in": Fraction(INCH_UM), "ft": Fraction(12 * INCH_UM), "yd": Fraction(YARD_UM),
}  # fmt: skip


def show(value: Mass | Length, unit: str) -> str:
    """A weight or a length in one of our units, so that it reads back to the same measure."""
    return show_mass(value, unit) if isinstance(value, Mass) else show_length(value, unit)


def show_mass(value: Mass, unit: str = "g") -> str:
    """A weight in g, kg, oz or lb, with as few decimals as read back to the same milligram."""
    return _shown(value.mg, MASS_UNITS[unit], unit)


def show_length(value: Length, unit: str = "m") -> str:
    """A length in m, cm, mm, yd, ft or in, likewise to the same micrometre."""
    return _shown(value.um, LENGTH_UNITS[unit], unit)


def _shown(whole: int, size: Fraction, unit: str) -> str:
    exact = Fraction(abs(whole)) / size
    places = next(p for p in range(12) if round(round(exact, p) * size) == abs(whole))
    digits = str(round(exact * 10**places)).rjust(places + 1, "0")
    split = len(digits) - places
    before, after = digits[:split], digits[split:]
    if places == 3 and before != "0" and len(before) <= 3:
        after += "0"  # three digits after a point would read as thousands
    return f"{'-' if whole < 0 else ''}{before}{'.' if after else ''}{after} {unit}"
