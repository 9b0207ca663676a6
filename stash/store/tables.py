"""The tables of a stash file, as the newest migration leaves them.

Every table is STRICT, amounts carry their unit in the column's name, constraints are named by one
convention. What is *append-only* (see `guards`) is never updated or deleted: a mistake is answered
by its opposite. The migrations make the tables; a test holds the two against each other.
"""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
    UniqueConstraint,
    text,
)
from sqlalchemy.sql.schema import SchemaItem

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}

metadata = MetaData(naming_convention=NAMES)


def _table(name: str, *items: SchemaItem) -> Table:
    return Table(name, metadata, *items, sqlite_strict=True, sqlite_autoincrement=True)


def _one_of(column: str, *words: str) -> CheckConstraint:
    listed = ", ".join(f"'{word}'" for word in words)
    return CheckConstraint(f"{column} IN ({listed})", name=f"{column}_known")


def _words(name: str) -> Column[str]:
    return Column(name, Text, nullable=False, server_default="")


def _flag(name: str) -> Column[int]:
    return Column(name, Integer, nullable=False, server_default=text("0"))


def _entry() -> Column[int]:
    return Column("entry_number", ForeignKey("entry.number"), nullable=False, index=True)


FULL_WORDS = ("band", "measured", "assumed", "missing")
DYED_WORDS = ("solid", "heathered", "tweed", "speckled", "variegated", "striping")
SURFACE_WORDS = ("smooth", "single", "cabled", "brushed", "looped")
MOVEMENT_WORDS = (
    "arrived",
    "used",
    "corrected",
    "restated",
    "given",
    "sold",
    "lost",
    "spoilt",
    "wound off",
    "unravelled",
    "mistaken",
)

entry = _table(
    "entry",
    Column("number", Integer, primary_key=True),
    Column("on_day", Text, nullable=False),
    Column("at_utc", Text, nullable=False),
    Column("kind", Text, nullable=False),
    Column("words", Text, nullable=False),
    Column("takes_back", ForeignKey("entry.number"), unique=True),
    Column("facts", Text),  # JSON, as `stock.entry` keeps it; NULL where `words` say it
    _words("device"),
)

yarn = _table(
    "yarn",
    Column("id", Integer, primary_key=True),
    _words("maker"),
    Column("name", Text, nullable=False),
    UniqueConstraint("maker", "name"),
)

lot = _table(
    "lot",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("yarn_id", ForeignKey("yarn.id"), nullable=False),
    _words("colour"),
    _words("colour_no"),
    _words("colours_hex"),
    _words("lot_text"),
    Column("lot_state", Text, nullable=False),
    Column("thickness_from", Integer),
    Column("thickness_to", Integer),
    _words("fibre"),
    Column("full_mg", Integer),
    Column("full_um", Integer),
    Column("full_from", Text, nullable=False),
    _flag("hand_dyed"),
    _words("care"),
    _words("note"),
    _words("conditions"),
    _flag("daylight"),
    _words("dyed"),
    _words("surface"),
    _one_of("dyed", "", *DYED_WORDS),
    _one_of("surface", "", *SURFACE_WORDS),
    _one_of("lot_state", "numbered", "claimed none", "unknown"),
    _one_of("full_from", *FULL_WORDS),
    CheckConstraint("(lot_state = 'numbered') = (lot_text <> '')", name="lot_text_if_numbered"),
    CheckConstraint("full_mg > 0 AND full_um > 0 OR full_from = 'missing'", name="pair_whole"),
    CheckConstraint(
        "thickness_from BETWEEN 0 AND thickness_to AND thickness_to <= 7", name="thickness_in_range"
    ),
    Index(None, "yarn_id", "colour", "colour_no", "lot_text"),
)

skein = _table(
    "skein",
    Column("number", Integer, primary_key=True),
    _entry(),
    Column("lot_id", ForeignKey("lot.id"), nullable=False, index=True),
    Column("own_mg", Integer),
    Column("own_um", Integer),
    Column("tare_mg", Integer),
    _flag("opened"),
    _flag("about"),
    _words("place"),
    _words("owner"),
    Column("bought_on", Text),
    Column("paid_coins", Integer),
    _words("note"),
    Column("parent", ForeignKey("skein.number"), index=True),
    Column("own_from", Text, nullable=False, server_default="measured"),
    CheckConstraint("own_mg > 0 AND own_um > 0 OR own_mg IS NULL", name="own_pair_whole"),
    _one_of("own_from", "band", "measured", "assumed"),
    CheckConstraint("tare_mg >= 0", name="tare_not_negative"),
)

design = _table(
    "design",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("name", Text, nullable=False),
    Column("plan", Text, nullable=False),
    _flag("dropped"),
)

item = _table(
    "item",
    Column("number", Integer, primary_key=True),
    _entry(),
    Column("design_id", ForeignKey("design.id")),
    _words("note"),
    Column("asked_coins", Integer),
    Column("asked_minutes", Integer),
    Column("order_number", ForeignKey("item_order.number")),
    Column("made_minutes", Integer),
)

item_order = _table(
    "item_order",
    Column("number", Integer, primary_key=True),
    _entry(),
    Column("who", Text, nullable=False),
    Column("design_id", ForeignKey("design.id"), nullable=False),
    _words("size"),
    _words("colours"),  # JSON: what is wanted of each colour of the design, in her words
    Column("count", Integer, nullable=False),
    Column("by_day", Text, nullable=False),
    Column("price_coins", Integer),
    _words("note"),
    _flag("dropped"),
    CheckConstraint("count > 0", name="count_is_something"),
    CheckConstraint("price_coins >= 0", name="price_not_negative"),
)

item_need = _table(
    "item_need",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("item_number", ForeignKey("item.number"), nullable=False, index=True),
    Column("role", Text, nullable=False),
    Column("expected_um", Integer, nullable=False),
    Column("set_aside_um", Integer, nullable=False),
    Column("source", Text, nullable=False),
)

item_step = _table(
    "item_step",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("item_number", ForeignKey("item.number"), nullable=False, index=True),
    Column("state", Text, nullable=False),
    _words("how"),
    Column("weighed_mg", Integer),
    Column("undoes", ForeignKey("item_step.id"), unique=True),
    _one_of("state", "planned", "begun", "done", "unravelled"),
)

movement = _table(
    "movement",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("skein_number", ForeignKey("skein.number"), nullable=False),
    Column("kind", Text, nullable=False),
    Column("change_mg", Integer, nullable=False),
    _words("typed"),
    Column("item_number", ForeignKey("item.number"), index=True),
    _words("role"),
    _flag("estimated"),
    Column("undoes", ForeignKey("movement.id"), unique=True),
    Column("price_coins", Integer),  # of all of it, where yarn was sold
    Column("fee_coins", Integer),
    _one_of("kind", *MOVEMENT_WORDS),
    CheckConstraint("change_mg <> 0", name="change_is_something"),
    Index("ix_movement_balance", "skein_number", "change_mg", "kind", "undoes"),
)

promise = _table(
    "promise",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("skein_number", ForeignKey("skein.number"), nullable=False),
    Column("item_number", ForeignKey("item.number"), nullable=False, index=True),
    _words("role"),
    Column("strand", Integer, nullable=False, server_default=text("1")),
    Column("kind", Text, nullable=False),
    Column("change_mg", Integer, nullable=False),
    Column("change_um", Integer),
    Column("undoes", ForeignKey("promise.id"), unique=True),
    _one_of("kind", "set aside", "used", "released", "restated"),
    Index("ix_promise_balance", "skein_number", "change_mg"),
)

weighing = _table(
    "weighing",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("skein_number", ForeignKey("skein.number"), nullable=False, index=True),
    Column("reading_mg", Integer, nullable=False),
    Column("tare_mg", Integer, nullable=False),
    Column("tare_from", Text, nullable=False),
    Column("net_mg", Integer, nullable=False),
    Column("held_before_mg", Integer, nullable=False),
    Column("booked", Text, nullable=False),
    Column("item_number", ForeignKey("item.number"), index=True),
    Column("at_row", Integer),
    CheckConstraint("at_row >= 0", name="at_row_not_negative"),
    _one_of("tare_from", "given", "skein", "none"),
    _one_of("booked", "use", "correction", "in agreement"),
)

sale = _table(
    "sale",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("item_number", ForeignKey("item.number"), nullable=False, index=True),
    Column("kind", Text, nullable=False),
    Column("price_coins", Integer, nullable=False),
    Column("fee_coins", Integer, nullable=False),
    _one_of("kind", "sold", "returned", "given", "lost"),
    CheckConstraint("price_coins >= 0 AND fee_coins >= 0", name="money_not_negative"),
)

fact = _table(
    "fact",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("thing", Text, nullable=False),
    Column("ref", Text, nullable=False),
    Column("name", Text, nullable=False),
    Column("old", Text),
    Column("new", Text),
    _one_of("thing", "skein", "lot", "design", "setting", "item", "order"),
    Index(None, "thing", "ref", "name"),
)

setting = _table(
    "setting",
    Column("name", Text, primary_key=True),
    Column("value", Text, nullable=False),
)

sheet = _table(
    "sheet",
    Column("id", Integer, primary_key=True),
    _entry(),
    Column("name", Text, nullable=False),
    Column("sha256", Text, nullable=False),
    Column("rows", Integer, nullable=False),
)

stocktake = _table(
    "stocktake",
    Column("id", Integer, primary_key=True),
    Column("place", Text, nullable=False),
    Column("begun_on", Text, nullable=False),
    Column("entry_number", ForeignKey("entry.number")),
)

stocktake_line = _table(
    "stocktake_line",
    Column("id", Integer, primary_key=True),
    Column("stocktake_id", ForeignKey("stocktake.id"), nullable=False),
    Column("skein_number", ForeignKey("skein.number"), nullable=False, index=True),
    Column("reading_mg", Integer),
    Column("tare_mg", Integer),
    UniqueConstraint("stocktake_id", "skein_number"),
)
