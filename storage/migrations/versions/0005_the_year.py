"""Rounds, records and what came of them."""

from typing import Any

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def _columns() -> dict[str, list[sa.Column[Any]]]:
    """Return fresh columns by table; a column belongs to one table once it is used."""
    no = sa.text("false")
    return {
        "chat": [sa.Column("record_asked_at", UtcDateTime(), nullable=True)],
        "yard": [
            sa.Column("has_late_summer_round", sa.Boolean(), server_default=no, nullable=False),
            sa.Column("has_dormant_half", sa.Boolean(), server_default=no, nullable=False),
            sa.Column("is_asked_what_came", sa.Boolean(), server_default=no, nullable=False),
        ],
        "product": [sa.Column("registration", sa.String(), nullable=True)],
        "application": [
            sa.Column("by_whom", sa.String(), nullable=True),
            sa.Column("details", sa.JSON(), server_default="{}", nullable=False),
        ],
    }


def upgrade() -> None:
    op.create_table(
        "seeding",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("zone_name", sa.String(), nullable=False),
        sa.Column("species", sa.String(), nullable=True),
        sa.Column("method", sa.String(), nullable=False),
        sa.Column("seed_on", sa.Date(), nullable=False),
        sa.Column("is_done", sa.Boolean(), nullable=False),
        sa.Column("is_before_round", sa.Boolean(), nullable=False),
        sa.Column("label_days", sa.Integer(), nullable=True),
        sa.Column("mowings", sa.Integer(), nullable=False),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("undone_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_seeding_person_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_seeding_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_seeding")),
    )
    op.create_index(op.f("ix_seeding_yard_id"), "seeding", ["yard_id"])
    op.create_table(
        "sighting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("zone_name", sa.String(), nullable=True),
        sa.Column("weed", sa.String(), nullable=False),
        sa.Column("is_seen", sa.Boolean(), nullable=False),
        sa.Column("seen_on", sa.Date(), nullable=False),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("recorded_at", UtcDateTime(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("undone_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_sighting_person_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_sighting_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sighting")),
    )
    op.create_index(op.f("ix_sighting_yard_id"), "sighting", ["yard_id"])
    op.create_table(
        "calendar_entry",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("uid", sa.String(), nullable=False),
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("content", sa.JSON(), nullable=False),
        sa.Column("changed_at", UtcDateTime(), nullable=False),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_calendar_entry_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_calendar_entry")),
        sa.UniqueConstraint("yard_id", "uid", name=op.f("uq_calendar_entry_yard_id_uid")),
    )
    for table, columns in _columns().items():
        with op.batch_alter_table(table) as batch:
            for column in columns:
                batch.add_column(column)


def downgrade() -> None:
    for table, columns in _columns().items():
        with op.batch_alter_table(table) as batch:
            for column in columns:
                batch.drop_column(column.name)
    op.drop_table("calendar_entry")
    op.drop_table("sighting")
    op.drop_table("seeding")
