"""The outbox's policy: what goes first, tries, repeats; indices that its queries really use.

Revision ID: 0009
"""

from typing import Any

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None

_COLUMNS = ("rank", "tries", "told_at", "repeat_until")


def _of(condition: str) -> dict[str, Any]:
    return {"sqlite_where": sa.text(condition), "postgresql_where": sa.text(condition)}


def upgrade() -> None:
    op.create_table(
        "heartbeat",
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_heartbeat")),
    )
    op.drop_index("ix_alert_waiting", table_name="alert")
    op.drop_index("ix_alert_yard_id", table_name="alert")
    # Columns that may be added as they are need no copy of the whole table.
    op.add_column("alert", sa.Column("rank", sa.Integer(), nullable=False, server_default="1"))
    op.add_column("alert", sa.Column("tries", sa.Integer(), nullable=False, server_default="0"))
    op.add_column("alert", sa.Column("told_at", UtcDateTime(), nullable=True))
    op.add_column("alert", sa.Column("repeat_until", UtcDateTime(), nullable=True))
    op.execute("UPDATE alert SET rank = 0 WHERE kind IN ('act_now', 'water_in')")
    op.execute("UPDATE alert SET told_at = sent_at WHERE sent_at IS NOT NULL")
    op.execute(
        "UPDATE alert SET tries ="
        " (SELECT count(*) FROM alert_attempt WHERE alert_attempt.alert_id = alert.id)"
    )
    # What may have arrived before there were repeats was told then, as far as anybody knows.
    op.execute(
        "UPDATE alert SET told_at ="
        " (SELECT max(started_at) FROM alert_attempt WHERE alert_attempt.alert_id = alert.id)"
        " WHERE state IN ('uncertain', 'sending')"
    )
    op.create_index("ix_alert_due", "alert", ["rank", "due_at", "id"], **_of("state = 'due'"))
    op.create_index("ix_alert_due_of_chat", "alert", ["chat_id", "due_at"], **_of("state = 'due'"))
    op.create_index("ix_alert_sending", "alert", ["lease_until"], **_of("state = 'sending'"))
    op.create_index("ix_alert_troubled", "alert", ["id"], **_of("state IN ('uncertain', 'dead')"))
    op.create_index("ix_alert_chat_id_told_at", "alert", ["chat_id", "told_at"])
    op.create_index("ix_alert_yard_id_kind", "alert", ["yard_id", "kind"])


def downgrade() -> None:
    for name in ("due", "due_of_chat", "sending", "troubled", "chat_id_told_at", "yard_id_kind"):
        op.drop_index(f"ix_alert_{name}", table_name="alert")
    with op.batch_alter_table("alert") as batch:
        for name in _COLUMNS:
            batch.drop_column(name)
    op.create_index("ix_alert_waiting", "alert", ["due_at"], **_of("state IN ('due', 'sending')"))
    op.create_index("ix_alert_yard_id", "alert", ["yard_id"])
    op.drop_table("heartbeat")
