"""What a person's scale shows: its step and unit.

Revision ID: 0017
"""

import sqlalchemy as sa
from alembic import op

revision = "0017"
down_revision = "0016"
branch_labels = None
depends_on = None


def upgrade() -> None:
    with op.batch_alter_table("person") as person:
        person.add_column(sa.Column("scale_step", sa.Double(), nullable=True))
        person.add_column(sa.Column("scale_unit", sa.String(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("person") as person:
        person.drop_column("scale_unit")
        person.drop_column("scale_step")
