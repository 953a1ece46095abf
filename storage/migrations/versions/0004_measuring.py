"""Grass and notes of zones; labels in full; machines and their tries; photos of yards."""

from typing import Any

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def _columns() -> dict[str, list[sa.Column[Any]]]:
    """Return fresh columns by table; a column belongs to one table once it is used."""
    return {
        "person": [
            sa.Column("pace_m", sa.Double(), nullable=True),
            sa.Column("licence", sa.String(), nullable=True),
            sa.Column("licence_until", sa.Date(), nullable=True),
        ],
        "product": [
            sa.Column("max_applications", sa.Integer(), nullable=True),
            sa.Column("applications_period", sa.String(), nullable=True),
            sa.Column("smallest_interval_days", sa.Integer(), nullable=True),
            sa.Column("seeding_interval_days", sa.Integer(), nullable=True),
            sa.Column("is_residential_allowed", sa.Boolean(), nullable=True),
            sa.Column("turf_age_days", sa.Integer(), nullable=True),
            sa.Column("analysis", sa.String(), nullable=True),
            sa.Column("packs", sa.JSON(), server_default="[]", nullable=False),
            sa.Column("shelf_si", sa.Double(), nullable=True),
            sa.Column("level_cup_kg", sa.Double(), nullable=True),
        ],
        "yard": [
            sa.Column("owner", sa.String(), nullable=True),
            sa.Column("water_how", sa.String(), nullable=True),
            sa.Column("water_days", sa.String(), nullable=True),
            sa.Column("is_water_banned", sa.Boolean(), nullable=True),
            sa.Column("others_treat", sa.Boolean(), nullable=True),
            sa.Column("screening", sa.JSON(), nullable=True),
        ],
        "zone": [
            sa.Column("grass", sa.String(), nullable=True),
            sa.Column("part", sa.String(), server_default="every", nullable=False),
            sa.Column("buffer_length_m", sa.Double(), nullable=True),
            sa.Column("buffer_width_m", sa.Double(), nullable=True),
            sa.Column("notes", sa.JSON(), server_default="[]", nullable=False),
            sa.Column("locked_why", sa.String(), nullable=True),
            sa.Column("locked_on", sa.Date(), nullable=True),
        ],
    }


def upgrade() -> None:
    op.create_table(
        "machine",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("swath_m", sa.Double(), nullable=True),
        sa.Column("tank_l", sa.Double(), nullable=True),
        sa.Column("spray_l_ha", sa.Double(), nullable=True),
        sa.Column("changed_at", UtcDateTime(), nullable=False),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_machine_chat_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_machine")),
        sa.UniqueConstraint("chat_id", "kind", name=op.f("uq_machine_chat_id_kind")),
    )
    op.create_table(
        "machine_try",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("machine_id", sa.Integer(), nullable=False),
        sa.Column("product", sa.String(), nullable=False),
        sa.Column("setting", sa.Double(), nullable=True),
        sa.Column("rate_value", sa.Double(), nullable=False),
        sa.Column("rate_unit", sa.String(), nullable=False),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("at", UtcDateTime(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("undone_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(
            ["machine_id"], ["machine.id"], name=op.f("fk_machine_try_machine_id")
        ),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.id"], name=op.f("fk_machine_try_person_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_machine_try")),
    )
    op.create_index(op.f("ix_machine_try_machine_id"), "machine_try", ["machine_id"])
    op.create_table(
        "yard_photo",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("path", sa.String(), nullable=False),
        sa.Column("added_at", UtcDateTime(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("undone_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_yard_photo_person_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_yard_photo_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_yard_photo")),
    )
    op.create_index(op.f("ix_yard_photo_yard_id"), "yard_photo", ["yard_id"])
    for table, columns in _columns().items():
        with op.batch_alter_table(table) as batch:
            for column in columns:
                batch.add_column(column)


def downgrade() -> None:
    for table, columns in _columns().items():
        with op.batch_alter_table(table) as batch:
            for column in columns:
                batch.drop_column(column.name)
    op.drop_table("yard_photo")
    op.drop_table("machine_try")
    op.drop_table("machine")
