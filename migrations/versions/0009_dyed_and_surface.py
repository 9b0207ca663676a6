"""How a lot was dyed, and what its strand looks like."""

from alembic import op

revision = "0009"
down_revision = "0008"

#: What each of the two columns may hold; nothing where it was not said.
_WORDS = {
    "dyed": ("solid", "heathered", "tweed", "speckled", "variegated", "striping"),
    "surface": ("smooth", "single", "cabled", "brushed", "looped"),
}


def upgrade() -> None:
    for column, words in _WORDS.items():
        listed = ", ".join(f"'{word}'" for word in ("", *words))
        op.get_bind().exec_driver_sql(
            f"ALTER TABLE lot ADD COLUMN {column} TEXT DEFAULT '' NOT NULL "
            f"CONSTRAINT ck_lot_{column}_known CHECK ({column} IN ({listed}))"
        )
