"""Wishes about days and messages, crews, and what sources disagree on."""

from typing import Any

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def _columns() -> dict[str, list[sa.Column[Any]]]:
    """Return fresh columns by table; a column belongs to one table once it is used."""
    return {
        "cell": [
            sa.Column("disagrees_by_c", sa.Double(), nullable=True),
            sa.Column("out_since", UtcDateTime(), nullable=True),
            sa.Column("back_at", UtcDateTime(), nullable=True),
        ],
        "alert": [sa.Column("told_with", sa.Integer(), nullable=True)],
    }


def upgrade() -> None:
    op.create_table(
        "yard_wishes",
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("ground", sa.String(), nullable=True),
        sa.Column("is_slope", sa.Boolean(), nullable=False),
        sa.Column("free_hours", sa.JSON(), nullable=True),
        sa.Column("sprinkler_mm_h", sa.Double(), nullable=True),
        sa.Column("label_terms", sa.JSON(), nullable=False),
        sa.Column("label_product_id", sa.Integer(), nullable=True),
        sa.Column("snoozed_until", UtcDateTime(), nullable=True),
        sa.Column("snoozed_until_c", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(
            ["label_product_id"], ["product.id"], name=op.f("fk_yard_wishes_label_product_id")
        ),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_yard_wishes_yard_id")),
        sa.PrimaryKeyConstraint("yard_id", name=op.f("pk_yard_wishes")),
    )
    op.create_table(
        "chat_wishes",
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("quiet_from", sa.Integer(), nullable=False),
        sa.Column("quiet_until", sa.Integer(), nullable=False),
        sa.Column("wake_at", sa.Integer(), nullable=True),
        sa.Column("daily_cap", sa.Integer(), nullable=False),
        sa.Column("yards_a_day", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_chat_wishes_chat_id")),
        sa.PrimaryKeyConstraint("chat_id", name=op.f("pk_chat_wishes")),
    )
    op.create_table(
        "mute",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("target", sa.String(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("at", UtcDateTime(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_mute_person_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_mute_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_mute")),
        sa.UniqueConstraint("yard_id", "target", "year", name=op.f("uq_mute_yard_id_target_year")),
    )
    op.create_table(
        "membership",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("invited_by", sa.Integer(), nullable=False),
        sa.Column("since", UtcDateTime(), nullable=False),
        sa.Column("ended_at", UtcDateTime(), nullable=True),
        sa.Column("ended_by", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_membership_chat_id")),
        sa.ForeignKeyConstraint(["ended_by"], ["person.id"], name=op.f("fk_membership_ended_by")),
        sa.ForeignKeyConstraint(
            ["invited_by"], ["person.id"], name=op.f("fk_membership_invited_by")
        ),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_membership_person_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_membership_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_membership")),
    )
    op.create_index(op.f("ix_membership_chat_id"), "membership", ["chat_id"])
    op.create_index(op.f("ix_membership_yard_id"), "membership", ["yard_id"])
    op.create_table(
        "invitation",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.Column("created_by", sa.Integer(), nullable=False),
        sa.Column("expires_at", UtcDateTime(), nullable=False),
        sa.Column("used_at", UtcDateTime(), nullable=True),
        sa.Column("used_by", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["created_by"], ["person.id"], name=op.f("fk_invitation_created_by")
        ),
        sa.ForeignKeyConstraint(["used_by"], ["person.id"], name=op.f("fk_invitation_used_by")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_invitation_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_invitation")),
        sa.UniqueConstraint("code", name=op.f("uq_invitation_code")),
    )
    op.create_index(op.f("ix_invitation_yard_id"), "invitation", ["yard_id"])
    for table, columns in _columns().items():
        with op.batch_alter_table(table) as batch:
            for column in columns:
                batch.add_column(column)


def downgrade() -> None:
    for table, columns in _columns().items():
        with op.batch_alter_table(table) as batch:
            for column in columns:
                batch.drop_column(column.name)
    for table in ("invitation", "membership", "mute", "chat_wishes", "yard_wishes"):
        op.drop_table(table)
