"""The journal by units of work: who and by which words, what it was, and each row before and after.

What was journalled before keeps its author, its day and what it says of records; its rows were not
kept, so it can no longer be taken back.

Revision ID: 0010
"""

from typing import Any

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None

_OLD = sa.table(
    "journal",
    sa.column("id", sa.Integer),
    sa.column("at", UtcDateTime),
    sa.column("chat_id", sa.Integer),
    sa.column("person_id", sa.Integer),
    sa.column("yard_id", sa.Integer),
    sa.column("action", sa.String),
    sa.column("subject_id", sa.Integer),
    sa.column("why", sa.String),
    sa.column("before", sa.JSON),
    sa.column("after", sa.JSON),
    sa.column("undone_at", UtcDateTime),
)


def upgrade() -> None:
    entries = list(op.get_bind().execute(sa.select(_OLD).order_by(_OLD.c.id)).mappings())
    op.drop_index("ix_journal_chat_id_id", "journal")
    op.drop_table("journal")
    journal = op.create_table(
        "journal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", UtcDateTime(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=True),
        sa.Column("turn", sa.String(), nullable=True),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("undone_in", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_journal_chat_id")),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_journal_person_id")),
        sa.ForeignKeyConstraint(["undone_in"], ["journal.id"], name=op.f("fk_journal_undone_in")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_journal_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal")),
    )
    op.create_index("ix_journal_chat_id_id", "journal", ["chat_id", "id"], unique=False)
    change = op.create_table(
        "journal_change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("journal_id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=True),
        sa.Column("action", sa.String(), nullable=False),
        sa.Column("subject_id", sa.Integer(), nullable=True),
        sa.Column("hangs_on", sa.JSON(), nullable=False),
        sa.Column("figures", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["journal_id"], ["journal.id"], name=op.f("fk_journal_change_journal_id")
        ),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_journal_change_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal_change")),
    )
    op.create_index(op.f("ix_journal_change_journal_id"), "journal_change", ["journal_id"])
    op.create_index(op.f("ix_journal_change_yard_id"), "journal_change", ["yard_id"])
    op.create_table(
        "journal_row",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("journal_id", sa.Integer(), nullable=False),
        sa.Column("table_name", sa.String(), nullable=False),
        sa.Column("row_id", sa.Integer(), nullable=False),
        sa.Column("before", sa.JSON(), nullable=True),
        sa.Column("after", sa.JSON(), nullable=True),
        sa.ForeignKeyConstraint(
            ["journal_id"], ["journal.id"], name=op.f("fk_journal_row_journal_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal_row")),
    )
    op.create_index(op.f("ix_journal_row_journal_id"), "journal_row", ["journal_id"])
    op.create_index("ix_journal_row_table_name_row_id", "journal_row", ["table_name", "row_id"])
    _fill(journal, change, entries)


def _fill(journal: sa.Table, change: sa.Table, entries: list[Any]) -> None:
    if not entries:
        return
    said = ("at", "chat_id", "person_id", "yard_id")
    op.bulk_insert(
        journal,
        [
            {"id": row["id"], **{name: row[name] for name in said}, "turn": None}
            | {"said": row["why"], "undone_in": None}
            for row in entries
        ],
    )
    # Who took a change back was noted with it; here it is said to have gone in its own time.
    undone = [row["id"] for row in entries if row["undone_at"] is not None]
    op.execute(journal.update().where(journal.c.id.in_(undone)).values(undone_in=journal.c.id))
    op.bulk_insert(
        change,
        [
            {"id": row["id"], "journal_id": row["id"], "yard_id": row["yard_id"]}
            | {"action": row["action"], "subject_id": row["subject_id"], "hangs_on": []}
            | {"figures": _figures(row)}
            for row in entries
        ],
    )
    if op.get_bind().dialect.name == "postgresql":
        for name in ("journal", "journal_change"):
            op.execute(f"SELECT setval('{name}_id_seq', (SELECT max(id) FROM {name}))")


def _figures(row: Any) -> dict[str, Any]:
    """Return what an edit of a record changed: the field, what it was, and what it is."""
    before, after = row["before"] or {}, row["after"] or {}
    names = {"record.edit": None, "record.redate": "applied_on", "record.amount": "amount"}
    if row["action"] not in names:
        return {name: after[name] for name in ("names", "name") if name in after}
    field = names[row["action"]] or next(iter(after))
    return {"field": field, "was": before.get(field), "now": after.get(field)}


def downgrade() -> None:
    op.drop_table("journal_row")
    op.drop_table("journal_change")
    op.drop_index("ix_journal_chat_id_id", "journal")
    op.drop_table("journal")
    op.create_table(
        "journal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", UtcDateTime(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=True),
        sa.Column("action", sa.String(), nullable=False),
        sa.Column("subject_id", sa.Integer(), nullable=True),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("before", sa.JSON(), nullable=False),
        sa.Column("after", sa.JSON(), nullable=False),
        sa.Column("undone_at", UtcDateTime(), nullable=True),
        sa.Column("undone_by", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_journal_chat_id")),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_journal_person_id")),
        sa.ForeignKeyConstraint(["undone_by"], ["person.id"], name=op.f("fk_journal_undone_by")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_journal_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal")),
    )
    op.create_index("ix_journal_chat_id_id", "journal", ["chat_id", "id"], unique=False)
