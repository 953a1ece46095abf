"""Whoever puts a yard off puts it off for themselves: a snooze belongs to a chat.

Revision ID: 0013
"""

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0013"
down_revision = "0012"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "snooze",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("until", UtcDateTime(), nullable=True),
        sa.Column("until_c", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_snooze_chat_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_snooze_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_snooze")),
        sa.UniqueConstraint("yard_id", "chat_id", name=op.f("uq_snooze_yard_id_chat_id")),
    )
    # Who asked is not known: what was put off for all is put off for the yard's own people.
    op.execute(
        "INSERT INTO snooze (yard_id, chat_id, until, until_c)"
        " SELECT w.yard_id, y.chat_id, w.snoozed_until, w.snoozed_until_c"
        " FROM yard_wishes w JOIN yard y ON y.id = w.yard_id"
        " WHERE w.snoozed_until IS NOT NULL OR w.snoozed_until_c IS NOT NULL"
    )
    op.drop_column("yard_wishes", "snoozed_until")
    op.drop_column("yard_wishes", "snoozed_until_c")


def downgrade() -> None:
    op.add_column("yard_wishes", sa.Column("snoozed_until", UtcDateTime(), nullable=True))
    op.add_column("yard_wishes", sa.Column("snoozed_until_c", sa.Double(), nullable=True))
    for name, old in (("until", "snoozed_until"), ("until_c", "snoozed_until_c")):
        op.execute(
            f"UPDATE yard_wishes SET {old} = (SELECT s.{name} FROM snooze s JOIN yard y"
            " ON y.id = s.yard_id AND y.chat_id = s.chat_id"
            " WHERE s.yard_id = yard_wishes.yard_id)"
        )
    op.drop_table("snooze")
