"""The device that wrote an entry; nothing where it was this computer."""

from alembic import op

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    op.get_bind().exec_driver_sql("ALTER TABLE entry ADD COLUMN device TEXT DEFAULT '' NOT NULL")
