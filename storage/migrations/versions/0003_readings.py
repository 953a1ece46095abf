"""Thermometer readings of yards and zones.

Revision ID: 0003
"""

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("zone_name", sa.String(), nullable=True),
        sa.Column("read_at", UtcDateTime(), nullable=False),
        sa.Column("read_on", sa.Date(), nullable=False),
        sa.Column("measured_c", sa.Double(), nullable=False),
        sa.Column("depth_m", sa.Double(), nullable=False),
        sa.Column("has_hour", sa.Boolean(), nullable=False),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("recorded_at", UtcDateTime(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("undone_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_reading_person_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_reading_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reading")),
    )
    op.create_index(op.f("ix_reading_yard_id"), "reading", ["yard_id"], unique=False)


def downgrade() -> None:
    op.drop_index(op.f("ix_reading_yard_id"), table_name="reading")
    op.drop_table("reading")
