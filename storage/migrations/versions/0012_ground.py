"""Ground with an identity: what was put down, seen, sown, measured and watered hangs on it."""

from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0012"
down_revision = "0011"
branch_labels = None
depends_on = None

#: Tables that named a zone, with whether a row may speak of the whole yard.
_NAMED = {"application_zone": False, "reading": True, "seeding": False, "sighting": True}


def upgrade() -> None:
    op.create_table(
        "ground",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_ground_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_ground")),
    )
    op.create_index(op.f("ix_ground_yard_id"), "ground", ["yard_id"])
    op.create_table(
        "ground_origin",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("ground_id", sa.Integer(), nullable=False),
        sa.Column("from_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("area_m2", sa.Double(), nullable=False),
        sa.ForeignKeyConstraint(
            ["ground_id"], ["ground.id"], name=op.f("fk_ground_origin_ground_id")
        ),
        sa.ForeignKeyConstraint(["from_id"], ["ground.id"], name=op.f("fk_ground_origin_from_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_ground_origin")),
        sa.UniqueConstraint(
            "ground_id", "from_id", name=op.f("uq_ground_origin_ground_id_from_id")
        ),
    )
    # Others point at the table of zones: SQLite could not make it anew with a reference.
    op.add_column("zone", sa.Column("ground_id", sa.Integer(), nullable=False, server_default="0"))
    for table in _NAMED:
        with op.batch_alter_table(table) as batch:
            batch.add_column(sa.Column("ground_id", sa.Integer(), nullable=True))
            batch.create_foreign_key(op.f(f"fk_{table}_ground_id"), "ground", ["ground_id"], ["id"])
    op.add_column("application_zone", sa.Column("of_m2", sa.Double(), nullable=True))
    op.add_column(
        "application_zone", sa.Column("beside", sa.JSON(), nullable=False, server_default="[]")
    )
    op.add_column("application_zone", sa.Column("watered_in_on", sa.Date(), nullable=True))
    op.add_column("watering", sa.Column("grounds", sa.JSON(), nullable=True))
    op.add_column(
        "watering", sa.Column("after_id", sa.Integer(), nullable=False, server_default="0")
    )
    _carry_over(op.get_bind())
    op.drop_column("zone", "name")
    for table, may_be_whole in _NAMED.items():
        with op.batch_alter_table(table) as batch:
            batch.drop_column("zone_name")
            if not may_be_whole:
                batch.alter_column("ground_id", existing_type=sa.Integer(), nullable=False)
            if table == "application_zone":
                batch.alter_column("of_m2", existing_type=sa.Double(), nullable=False)
    op.drop_column("application", "watered_in_on")
    op.create_index(op.f("ix_zone_ground_id"), "zone", ["ground_id"])


def downgrade() -> None:
    bind = op.get_bind()
    op.add_column("application", sa.Column("watered_in_on", sa.Date(), nullable=True))
    bind.exec_driver_sql(
        "UPDATE application SET watered_in_on = (SELECT max(s.watered_in_on) FROM application_zone"
        " s WHERE s.application_id = application.id) WHERE NOT EXISTS (SELECT 1 FROM"
        " application_zone s WHERE s.application_id = application.id AND s.watered_in_on IS NULL)"
    )
    op.drop_index(op.f("ix_zone_ground_id"), "zone")
    for table, column in (("zone", "name"), *((table, "zone_name") for table in _NAMED)):
        op.add_column(table, sa.Column(column, sa.String(), nullable=True))
        bind.exec_driver_sql(
            f"UPDATE {table} SET {column} = (SELECT name FROM ground WHERE id = ground_id)"
        )
    for name in ("grounds", "after_id"):
        op.drop_column("watering", name)
    op.drop_column("zone", "ground_id")
    for table, may_be_whole in _NAMED.items():
        with op.batch_alter_table(table) as batch:
            batch.drop_constraint(op.f(f"fk_{table}_ground_id"), type_="foreignkey")
            batch.drop_column("ground_id")
            if not may_be_whole:
                batch.alter_column("zone_name", existing_type=sa.String(), nullable=False)
            if table == "application_zone":
                for name in ("beside", "of_m2", "watered_in_on"):
                    batch.drop_column(name)
    op.drop_table("ground_origin")
    op.drop_table("ground")


def _carry_over(bind: sa.Connection) -> None:
    """Give each name of a yard (any case) its ground, as names have stood for ground so far."""
    ground = sa.table("ground", sa.column("id"), sa.column("yard_id"), sa.column("name"))
    ids: dict[tuple[int, str], int] = {}

    def ground_of(yard_id: int, name: str) -> int:
        key = (yard_id, name.casefold())
        if key not in ids:
            ids[key] = len(ids) + 1
            bind.execute(ground.insert().values(id=ids[key], yard_id=yard_id, name=name))
        return ids[key]

    def set_ground(table: str, rows: list[dict[str, Any]]) -> None:
        for row in rows:
            if row["name"] is not None:
                bind.execute(
                    sa.text(f"UPDATE {table} SET ground_id = :ground WHERE id = :id"),
                    {"ground": ground_of(row["yard_id"], row["name"]), "id": row["id"]},
                )

    # The newest spelling first: it is what the ground is called.
    query = "SELECT id, yard_id, name FROM zone ORDER BY removed_at IS NOT NULL, id DESC"
    set_ground("zone", _rows(bind, query))
    query = (
        "SELECT s.id, a.yard_id, s.zone_name AS name FROM application_zone s"
        " JOIN application a ON a.id = s.application_id"
    )
    set_ground("application_zone", _rows(bind, query))
    for table in ("reading", "seeding", "sighting"):
        set_ground(table, _rows(bind, f"SELECT id, yard_id, zone_name AS name FROM {table}"))
    if bind.dialect.name == "postgresql":
        bind.exec_driver_sql(
            "SELECT setval(pg_get_serial_sequence('ground', 'id'), coalesce(max(id), 1),"
            " max(id) IS NOT NULL) FROM ground"
        )
    bind.exec_driver_sql("UPDATE application_zone SET of_m2 = area_m2")
    bind.exec_driver_sql(
        "UPDATE application_zone SET watered_in_on = (SELECT watered_in_on FROM application"
        " WHERE application.id = application_zone.application_id)"
    )
    _carry_waterings(bind)


def _carry_waterings(bind: sa.Connection) -> None:
    """Note after which application each watering was told of, as the journal has it."""
    newest: dict[int, int] = {}
    query = "SELECT yard_id, action, subject_id FROM journal_change WHERE subject_id IS NOT NULL"
    for row in _rows(bind, f"{query} ORDER BY id"):
        if row["action"] == "application.add":
            newest[row["yard_id"]] = max(newest.get(row["yard_id"], 0), row["subject_id"])
        elif row["action"] == "watering.add":
            bind.execute(
                sa.text("UPDATE watering SET after_id = :after WHERE id = :id"),
                {"after": newest.get(row["yard_id"], 0), "id": row["subject_id"]},
            )


def _rows(bind: sa.Connection, query: str) -> list[dict[str, Any]]:
    return [dict(row) for row in bind.execute(sa.text(query)).mappings()]
