"""The row of an article at which a skein was weighed, where she said it."""

from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    op.execute(
        "ALTER TABLE weighing ADD COLUMN at_row INTEGER "
        "CONSTRAINT ck_weighing_at_row_not_negative CHECK (at_row >= 0)"
    )
