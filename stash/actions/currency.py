"""The one currency of a file: learnt from the first price that names one, and then fixed."""

from __future__ import annotations

from stash.actions.book import EntryWriter
from stash.errors import Refusal
from stash.measures.money import decimals
from stash.store import order_rows, sale_rows, skein_rows

#: Settings that are amounts of money.
_AMOUNTS = ("wage", "sundries")


def learn(writer: EntryWriter, currency: str) -> bool:
    """Keep the currency a price came in, if the file has none; whether it was kept just now.

    Raises Refusal where the file is kept in another: two currencies would be added up as one.
    """
    known = writer.settings.currency
    if not currency or currency == known:
        return False
    if known:
        raise Refusal("other_currency_kept", known=known)
    refuse_other_coins(writer, currency)
    return bool(writer.set_facts("setting", "currency", value=currency))


def refuse_change(writer: EntryWriter, currency: str | None) -> None:
    """A currency that prices are kept in stays: their figures would mean other money."""
    known = writer.settings.currency
    if known and currency != known and _prices_kept(writer):
        raise Refusal("prices_kept_in_currency", known=known)
    refuse_other_coins(writer, currency or "")


def refuse_other_coins(writer: EntryWriter, currency: str) -> None:
    """Prices without a currency were read in hundredths; a yen has none, a dinar a thousandth."""
    if not writer.settings.currency and decimals(currency) != decimals("") and _prices_kept(writer):
        raise Refusal("other_digits_kept", currency=currency, digits=decimals(currency))


def _prices_kept(writer: EntryWriter) -> bool:
    """Whether any amount above nothing is kept: of a skein, order or sale, or in her settings."""
    kept = writer.settings.kept or {}
    return (
        any(int(kept.get(name, 0)) for name in _AMOUNTS)
        or skein_rows.any_priced(writer.db)
        or order_rows.any_order_priced(writer.db)
        or sale_rows.any_paid(writer.db)
    )
