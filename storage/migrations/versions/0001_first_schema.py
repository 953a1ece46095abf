"""The first schema: chats, yards, zones, products, cells, seasons, applications, the outbox.

Revision ID: 0001
"""

import sqlalchemy as sa
from alembic import op

from storage.database import UtcDateTime

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "cell",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("source", sa.String(), nullable=False),
        sa.Column("lat_e2", sa.Integer(), nullable=False),
        sa.Column("lon_e2", sa.Integer(), nullable=False),
        sa.Column("place", sa.String(), nullable=False),
        sa.Column("is_invented", sa.Boolean(), nullable=False),
        sa.Column("soil_is_modelled", sa.Boolean(), nullable=False),
        sa.Column("fetched_at", UtcDateTime(), nullable=True),
        sa.Column("observed_at", UtcDateTime(), nullable=True),
        sa.Column("last_known_day", sa.Date(), nullable=True),
        sa.Column("forecast_first_day", sa.Date(), nullable=True),
        sa.Column("forecast", sa.LargeBinary(), nullable=True),
        sa.Column("hourly", sa.JSON(), nullable=True),
        sa.Column("trouble", sa.String(), nullable=True),
        sa.Column("trouble_since", UtcDateTime(), nullable=True),
        sa.Column("try_again_at", UtcDateTime(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_cell")),
        sa.UniqueConstraint(
            "source", "lat_e2", "lon_e2", name=op.f("uq_cell_source_lat_e2_lon_e2")
        ),
    )
    op.create_table(
        "chat",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("platform", sa.String(), nullable=False),
        sa.Column("address", sa.String(), nullable=False),
        sa.Column("title", sa.String(), nullable=False),
        sa.Column("language", sa.String(), nullable=False),
        sa.Column("units", sa.String(), nullable=False),
        sa.Column("is_active", sa.Boolean(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_chat")),
        sa.UniqueConstraint("platform", "address", name=op.f("uq_chat_platform_address")),
    )
    op.create_table(
        "clock",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("now", UtcDateTime(), nullable=False),
        sa.Column("climate", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_clock")),
    )
    op.create_table(
        "person",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("platform", sa.String(), nullable=False),
        sa.Column("address", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
        sa.UniqueConstraint("platform", "address", name=op.f("uq_person_platform_address")),
    )
    op.create_table(
        "cell_year",
        sa.Column("cell_id", sa.Integer(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("days", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["cell_id"], ["cell.id"], name=op.f("fk_cell_year_cell_id")),
        sa.PrimaryKeyConstraint("cell_id", "year", name=op.f("pk_cell_year")),
    )
    op.create_table(
        "product",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("form", sa.String(), nullable=False),
        sa.Column("ingredients", sa.JSON(), nullable=False),
        sa.Column("rate_value", sa.Double(), nullable=False),
        sa.Column("rate_unit", sa.String(), nullable=False),
        sa.Column("rate_si", sa.Double(), nullable=False),
        sa.Column("maxima", sa.JSON(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.Column("created_by", sa.Integer(), nullable=False),
        sa.Column("archived_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_product_chat_id")),
        sa.ForeignKeyConstraint(["created_by"], ["person.id"], name=op.f("fk_product_created_by")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_product")),
    )
    op.create_index(op.f("ix_product_chat_id"), "product", ["chat_id"], unique=False)
    op.create_table(
        "turn",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("at", UtcDateTime(), nullable=False),
        sa.Column("said", sa.JSON(), nullable=False),
        sa.Column("replies", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_turn_chat_id")),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_turn_person_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_turn")),
        sa.UniqueConstraint("key", name=op.f("uq_turn_key")),
    )
    op.create_index(op.f("ix_turn_chat_id"), "turn", ["chat_id"], unique=False)
    op.create_table(
        "yard",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("lat", sa.Double(), nullable=False),
        sa.Column("lon", sa.Double(), nullable=False),
        sa.Column("timezone", sa.String(), nullable=False),
        sa.Column("product_id", sa.Integer(), nullable=True),
        sa.Column("lead_days", sa.Integer(), nullable=False),
        sa.Column("split_days", sa.Integer(), nullable=False),
        sa.Column("rounds", sa.Integer(), nullable=False),
        sa.Column("next_check_at", UtcDateTime(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.Column("created_by", sa.Integer(), nullable=False),
        sa.Column("archived_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_yard_chat_id")),
        sa.ForeignKeyConstraint(["created_by"], ["person.id"], name=op.f("fk_yard_created_by")),
        sa.ForeignKeyConstraint(["product_id"], ["product.id"], name=op.f("fk_yard_product_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_yard")),
    )
    op.create_index(op.f("ix_yard_chat_id"), "yard", ["chat_id"], unique=False)
    op.create_index(op.f("ix_yard_next_check_at"), "yard", ["next_check_at"], unique=False)
    op.create_table(
        "alert",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("target", sa.String(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("episode_key", sa.String(), nullable=False),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.Column("due_at", UtcDateTime(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("lease_until", UtcDateTime(), nullable=True),
        sa.Column("lease_owner", sa.String(), nullable=True),
        sa.Column("sent_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_alert_chat_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_alert_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_alert")),
        sa.UniqueConstraint("episode_key", name=op.f("uq_alert_episode_key")),
    )
    op.create_index(
        "ix_alert_waiting",
        "alert",
        ["due_at"],
        unique=False,
        sqlite_where=sa.text("state IN ('due', 'sending')"),
        postgresql_where=sa.text("state IN ('due', 'sending')"),
    )
    op.create_index(op.f("ix_alert_yard_id"), "alert", ["yard_id"], unique=False)
    op.create_table(
        "application",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("target", sa.String(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("applied_at", UtcDateTime(), nullable=False),
        sa.Column("applied_on", sa.Date(), nullable=False),
        sa.Column("recorded_at", UtcDateTime(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("product_id", sa.Integer(), nullable=True),
        sa.Column("product", sa.JSON(), nullable=True),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("watered_in_on", sa.Date(), nullable=True),
        sa.Column("undone_at", UtcDateTime(), nullable=True),
        sa.Column("undone_by", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.id"], name=op.f("fk_application_person_id")
        ),
        sa.ForeignKeyConstraint(
            ["product_id"], ["product.id"], name=op.f("fk_application_product_id")
        ),
        sa.ForeignKeyConstraint(
            ["undone_by"], ["person.id"], name=op.f("fk_application_undone_by")
        ),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_application_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_application")),
    )
    op.create_index(op.f("ix_application_yard_id"), "application", ["yard_id"], unique=False)
    op.create_table(
        "dialogue",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("chat_id", sa.Integer(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=True),
        sa.Column("topic", sa.String(), nullable=True),
        sa.Column("schema", sa.Integer(), nullable=False),
        sa.Column("data", sa.JSON(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("updated_at", UtcDateTime(), nullable=False),
        sa.ForeignKeyConstraint(["chat_id"], ["chat.id"], name=op.f("fk_dialogue_chat_id")),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_dialogue_person_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_dialogue_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_dialogue")),
        sa.UniqueConstraint("chat_id", "person_id", name=op.f("uq_dialogue_chat_id_person_id")),
    )
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
    op.create_table(
        "season",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("target", sa.String(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("told", sa.JSON(), nullable=False),
        sa.Column("outlook", sa.JSON(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_season_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_season")),
        sa.UniqueConstraint("yard_id", "target", name=op.f("uq_season_yard_id_target")),
    )
    op.create_table(
        "season_event",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("target", sa.String(), nullable=False),
        sa.Column("year", sa.Integer(), nullable=False),
        sa.Column("at", UtcDateTime(), nullable=False),
        sa.Column("state_before", sa.String(), nullable=False),
        sa.Column("state_after", sa.String(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("facts", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["person_id"], ["person.id"], name=op.f("fk_season_event_person_id")
        ),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_season_event_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_season_event")),
    )
    op.create_index(op.f("ix_season_event_yard_id"), "season_event", ["yard_id"], unique=False)
    op.create_table(
        "watering",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("watered_on", sa.Date(), nullable=False),
        sa.Column("depth_mm", sa.Double(), nullable=False),
        sa.Column("recorded_at", UtcDateTime(), nullable=False),
        sa.Column("person_id", sa.Integer(), nullable=False),
        sa.Column("undone_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["person_id"], ["person.id"], name=op.f("fk_watering_person_id")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_watering_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_watering")),
    )
    op.create_index(op.f("ix_watering_yard_id"), "watering", ["yard_id"], unique=False)
    op.create_table(
        "zone",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("yard_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("said", sa.String(), nullable=False),
        sa.Column("echo", sa.String(), nullable=False),
        sa.Column("shape", sa.String(), nullable=False),
        sa.Column("area_m2", sa.Double(), nullable=False),
        sa.Column("is_treated", sa.Boolean(), nullable=False),
        sa.Column("created_at", UtcDateTime(), nullable=False),
        sa.Column("created_by", sa.Integer(), nullable=False),
        sa.Column("removed_at", UtcDateTime(), nullable=True),
        sa.ForeignKeyConstraint(["created_by"], ["person.id"], name=op.f("fk_zone_created_by")),
        sa.ForeignKeyConstraint(["yard_id"], ["yard.id"], name=op.f("fk_zone_yard_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_zone")),
    )
    op.create_index(op.f("ix_zone_yard_id"), "zone", ["yard_id"], unique=False)
    op.create_table(
        "alert_attempt",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("alert_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("started_at", UtcDateTime(), nullable=False),
        sa.Column("ended_at", UtcDateTime(), nullable=True),
        sa.Column("outcome", sa.String(), nullable=True),
        sa.Column("detail", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["alert_id"], ["alert.id"], name=op.f("fk_alert_attempt_alert_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_alert_attempt")),
    )
    op.create_index(op.f("ix_alert_attempt_alert_id"), "alert_attempt", ["alert_id"], unique=False)
    op.create_table(
        "application_zone",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("application_id", sa.Integer(), nullable=False),
        sa.Column("zone_id", sa.Integer(), nullable=False),
        sa.Column("zone_name", sa.String(), nullable=False),
        sa.Column("area_m2", sa.Double(), nullable=False),
        sa.Column("asked_si", sa.Double(), nullable=True),
        sa.Column("amount_si", sa.Double(), nullable=True),
        sa.Column("amount_unit", sa.String(), nullable=True),
        sa.Column("is_amount_said", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(
            ["application_id"], ["application.id"], name=op.f("fk_application_zone_application_id")
        ),
        sa.ForeignKeyConstraint(["zone_id"], ["zone.id"], name=op.f("fk_application_zone_zone_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_application_zone")),
        sa.UniqueConstraint(
            "application_id", "zone_id", name=op.f("uq_application_zone_application_id_zone_id")
        ),
    )
    op.create_index(
        op.f("ix_application_zone_application_id"),
        "application_zone",
        ["application_id"],
        unique=False,
    )


def downgrade() -> None:
    op.drop_table("application_zone")
    op.drop_table("alert_attempt")
    op.drop_table("zone")
    op.drop_table("watering")
    op.drop_table("season_event")
    op.drop_table("season")
    op.drop_table("journal")
    op.drop_table("dialogue")
    op.drop_table("application")
    op.drop_table("alert")
    op.drop_table("yard")
    op.drop_table("turn")
    op.drop_table("product")
    op.drop_table("cell_year")
    op.drop_table("person")
    op.drop_table("clock")
    op.drop_table("chat")
    op.drop_table("cell")
