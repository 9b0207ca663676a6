"""The first tables: yarn, lots, skeins, the books, promises, pieces, articles, settings."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    op.create_table(
        "entry",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("on_day", sa.Text(), nullable=False),
        sa.Column("at_utc", sa.Text(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("takes_back", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["takes_back"], ["entry.number"], name=op.f("fk_entry_takes_back_entry")
        ),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_entry")),
        sa.UniqueConstraint("takes_back", name=op.f("uq_entry_takes_back")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "setting",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_setting")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "yarn",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("maker", sa.Text(), server_default="", nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_yarn")),
        sa.UniqueConstraint("maker", "name", name=op.f("uq_yarn_maker_name")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_table(
        "fact",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("thing", sa.Text(), nullable=False),
        sa.Column("ref", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("old", sa.Text(), nullable=True),
        sa.Column("new", sa.Text(), nullable=True),
        sa.CheckConstraint(
            "thing IN ('skein', 'lot', 'piece', 'setting')", name=op.f("ck_fact_thing_known")
        ),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_fact_entry_number_entry")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fact")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_fact_entry_number"), "fact", ["entry_number"], unique=False)
    op.create_index(op.f("ix_fact_thing_ref_name"), "fact", ["thing", "ref", "name"], unique=False)
    op.create_table(
        "lot",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("yarn_id", sa.Integer(), nullable=False),
        sa.Column("colour", sa.Text(), server_default="", nullable=False),
        sa.Column("colour_no", sa.Text(), server_default="", nullable=False),
        sa.Column("colours_hex", sa.Text(), server_default="", nullable=False),
        sa.Column("lot_text", sa.Text(), server_default="", nullable=False),
        sa.Column("lot_state", sa.Text(), nullable=False),
        sa.Column("class_from", sa.Integer(), nullable=True),
        sa.Column("class_to", sa.Integer(), nullable=True),
        sa.Column("fibre", sa.Text(), server_default="", nullable=False),
        sa.Column("full_mg", sa.Integer(), nullable=True),
        sa.Column("full_um", sa.Integer(), nullable=True),
        sa.Column("pair_from", sa.Text(), nullable=False),
        sa.Column("hand_dyed", sa.Integer(), server_default=sa.text("0"), nullable=False),
        sa.Column("care", sa.Text(), server_default="", nullable=False),
        sa.Column("note", sa.Text(), server_default="", nullable=False),
        sa.CheckConstraint(
            "(lot_state = 'numbered') = (lot_text <> '')", name=op.f("ck_lot_lot_text_if_numbered")
        ),
        sa.CheckConstraint(
            "full_mg > 0 AND full_um > 0 OR pair_from = 'missing'", name=op.f("ck_lot_pair_whole")
        ),
        sa.CheckConstraint(
            "lot_state IN ('numbered', 'claimed none', 'unknown')",
            name=op.f("ck_lot_lot_state_known"),
        ),
        sa.CheckConstraint(
            "pair_from IN ('band', 'measured', 'assumed', 'missing')",
            name=op.f("ck_lot_pair_from_known"),
        ),
        sa.CheckConstraint(
            "class_from BETWEEN 0 AND class_to AND class_to <= 7",
            name=op.f("ck_lot_class_in_range"),
        ),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_lot_entry_number_entry")
        ),
        sa.ForeignKeyConstraint(["yarn_id"], ["yarn.id"], name=op.f("fk_lot_yarn_id_yarn")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_lot")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_lot_entry_number"), "lot", ["entry_number"], unique=False)
    op.create_index(
        op.f("ix_lot_yarn_id_colour_colour_no_lot_text"),
        "lot",
        ["yarn_id", "colour", "colour_no", "lot_text"],
        unique=False,
    )
    op.create_table(
        "piece",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("plan", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_piece_entry_number_entry")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_piece")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_piece_entry_number"), "piece", ["entry_number"], unique=False)
    op.create_table(
        "sheet",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("rows", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_sheet_entry_number_entry")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sheet")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_sheet_entry_number"), "sheet", ["entry_number"], unique=False)
    op.create_table(
        "article",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("piece_id", sa.Integer(), nullable=True),
        sa.Column("note", sa.Text(), server_default="", nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_article_entry_number_entry")
        ),
        sa.ForeignKeyConstraint(["piece_id"], ["piece.id"], name=op.f("fk_article_piece_id_piece")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_article")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_article_entry_number"), "article", ["entry_number"], unique=False)
    op.create_table(
        "skein",
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("lot_id", sa.Integer(), nullable=False),
        sa.Column("own_mg", sa.Integer(), nullable=True),
        sa.Column("own_um", sa.Integer(), nullable=True),
        sa.Column("tare_mg", sa.Integer(), nullable=True),
        sa.Column("opened", sa.Integer(), server_default=sa.text("0"), nullable=False),
        sa.Column("about", sa.Integer(), server_default=sa.text("0"), nullable=False),
        sa.Column("place", sa.Text(), server_default="", nullable=False),
        sa.Column("owner", sa.Text(), server_default="", nullable=False),
        sa.Column("bought_on", sa.Text(), nullable=True),
        sa.Column("paid_coins", sa.Integer(), nullable=True),
        sa.Column("note", sa.Text(), server_default="", nullable=False),
        sa.CheckConstraint(
            "own_mg > 0 AND own_um > 0 OR own_mg IS NULL", name=op.f("ck_skein_own_pair_whole")
        ),
        sa.CheckConstraint("tare_mg >= 0", name=op.f("ck_skein_tare_not_negative")),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_skein_entry_number_entry")
        ),
        sa.ForeignKeyConstraint(["lot_id"], ["lot.id"], name=op.f("fk_skein_lot_id_lot")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_skein")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_skein_entry_number"), "skein", ["entry_number"], unique=False)
    op.create_index(op.f("ix_skein_lot_id"), "skein", ["lot_id"], unique=False)
    op.create_table(
        "article_need",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("article_number", sa.Integer(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("expected_um", sa.Integer(), nullable=False),
        sa.Column("set_aside_um", sa.Integer(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["article_number"],
            ["article.number"],
            name=op.f("fk_article_need_article_number_article"),
        ),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_article_need_entry_number_entry")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_article_need")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(
        op.f("ix_article_need_article_number"), "article_need", ["article_number"], unique=False
    )
    op.create_index(
        op.f("ix_article_need_entry_number"), "article_need", ["entry_number"], unique=False
    )
    op.create_table(
        "article_step",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("article_number", sa.Integer(), nullable=False),
        sa.Column("state", sa.Text(), nullable=False),
        sa.Column("how", sa.Text(), server_default="", nullable=False),
        sa.Column("weighed_mg", sa.Integer(), nullable=True),
        sa.Column("undoes", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "state IN ('planned', 'begun', 'done', 'unravelled')",
            name=op.f("ck_article_step_state_known"),
        ),
        sa.ForeignKeyConstraint(
            ["article_number"],
            ["article.number"],
            name=op.f("fk_article_step_article_number_article"),
        ),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_article_step_entry_number_entry")
        ),
        sa.ForeignKeyConstraint(
            ["undoes"], ["article_step.id"], name=op.f("fk_article_step_undoes_article_step")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_article_step")),
        sa.UniqueConstraint("undoes", name=op.f("uq_article_step_undoes")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(
        op.f("ix_article_step_article_number"), "article_step", ["article_number"], unique=False
    )
    op.create_index(
        op.f("ix_article_step_entry_number"), "article_step", ["entry_number"], unique=False
    )
    op.create_table(
        "movement",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("skein_number", sa.Integer(), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("change_mg", sa.Integer(), nullable=False),
        sa.Column("typed", sa.Text(), server_default="", nullable=False),
        sa.Column("article_number", sa.Integer(), nullable=True),
        sa.Column("role", sa.Text(), server_default="", nullable=False),
        sa.Column("estimated", sa.Integer(), server_default=sa.text("0"), nullable=False),
        sa.Column("undoes", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('arrived', 'used', 'corrected', 'restated', "
            "'given', 'sold', 'lost', 'spoilt')",
            name=op.f("ck_movement_kind_known"),
        ),
        sa.CheckConstraint("change_mg <> 0", name=op.f("ck_movement_change_is_something")),
        sa.ForeignKeyConstraint(
            ["article_number"], ["article.number"], name=op.f("fk_movement_article_number_article")
        ),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_movement_entry_number_entry")
        ),
        sa.ForeignKeyConstraint(
            ["skein_number"], ["skein.number"], name=op.f("fk_movement_skein_number_skein")
        ),
        sa.ForeignKeyConstraint(
            ["undoes"], ["movement.id"], name=op.f("fk_movement_undoes_movement")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_movement")),
        sa.UniqueConstraint("undoes", name=op.f("uq_movement_undoes")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(
        op.f("ix_movement_article_number"), "movement", ["article_number"], unique=False
    )
    op.create_index(
        "ix_movement_balance",
        "movement",
        ["skein_number", "change_mg", "kind", "undoes"],
        unique=False,
    )
    op.create_index(op.f("ix_movement_entry_number"), "movement", ["entry_number"], unique=False)
    op.create_table(
        "promise",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("skein_number", sa.Integer(), nullable=False),
        sa.Column("article_number", sa.Integer(), nullable=False),
        sa.Column("role", sa.Text(), server_default="", nullable=False),
        sa.Column("strand", sa.Integer(), server_default=sa.text("1"), nullable=False),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("change_mg", sa.Integer(), nullable=False),
        sa.Column("change_um", sa.Integer(), nullable=True),
        sa.Column("undoes", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('set aside', 'used', 'released', 'restated')",
            name=op.f("ck_promise_kind_known"),
        ),
        sa.ForeignKeyConstraint(
            ["article_number"], ["article.number"], name=op.f("fk_promise_article_number_article")
        ),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_promise_entry_number_entry")
        ),
        sa.ForeignKeyConstraint(
            ["skein_number"], ["skein.number"], name=op.f("fk_promise_skein_number_skein")
        ),
        sa.ForeignKeyConstraint(["undoes"], ["promise.id"], name=op.f("fk_promise_undoes_promise")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_promise")),
        sa.UniqueConstraint("undoes", name=op.f("uq_promise_undoes")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_promise_article_number"), "promise", ["article_number"], unique=False)
    op.create_index("ix_promise_balance", "promise", ["skein_number", "change_mg"], unique=False)
    op.create_index(op.f("ix_promise_entry_number"), "promise", ["entry_number"], unique=False)
    op.create_table(
        "weighing",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("entry_number", sa.Integer(), nullable=False),
        sa.Column("skein_number", sa.Integer(), nullable=False),
        sa.Column("reading_mg", sa.Integer(), nullable=False),
        sa.Column("tare_mg", sa.Integer(), nullable=False),
        sa.Column("tare_from", sa.Text(), nullable=False),
        sa.Column("net_mg", sa.Integer(), nullable=False),
        sa.Column("held_before_mg", sa.Integer(), nullable=False),
        sa.Column("booked", sa.Text(), nullable=False),
        sa.Column("article_number", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "booked IN ('use', 'correction', 'in agreement')", name=op.f("ck_weighing_booked_known")
        ),
        sa.CheckConstraint(
            "tare_from IN ('given', 'skein', 'none')", name=op.f("ck_weighing_tare_from_known")
        ),
        sa.ForeignKeyConstraint(
            ["article_number"], ["article.number"], name=op.f("fk_weighing_article_number_article")
        ),
        sa.ForeignKeyConstraint(
            ["entry_number"], ["entry.number"], name=op.f("fk_weighing_entry_number_entry")
        ),
        sa.ForeignKeyConstraint(
            ["skein_number"], ["skein.number"], name=op.f("fk_weighing_skein_number_skein")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_weighing")),
        sqlite_autoincrement=True,
        sqlite_strict=True,
    )
    op.create_index(
        op.f("ix_weighing_article_number"), "weighing", ["article_number"], unique=False
    )
    op.create_index(op.f("ix_weighing_entry_number"), "weighing", ["entry_number"], unique=False)
    op.create_index(op.f("ix_weighing_skein_number"), "weighing", ["skein_number"], unique=False)
