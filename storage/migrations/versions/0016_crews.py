"""Crews: under whose licence somebody works, a share in all yards, and where a round starts.

Revision ID: 0016
"""

import sqlalchemy as sa
from alembic import op

revision = "0016"
down_revision = "0015"
branch_labels = None
depends_on = None

_NAMES = (("person", "works_under"), ("person", "under_licence"))
_OF_ALL = ("membership", "invitation")
_START = ("start_lat", "start_lon")


def upgrade() -> None:
    for table, name in _NAMES:
        op.add_column(table, sa.Column(name, sa.String(), nullable=True))
    for table in _OF_ALL:
        column: sa.Column[bool] = sa.Column(
            "is_of_all", sa.Boolean(), server_default=sa.false(), nullable=False
        )
        op.add_column(table, column)
    for name in _START:
        op.add_column("chat_wishes", sa.Column(name, sa.Double(), nullable=True))


def downgrade() -> None:
    for name in _START:
        op.drop_column("chat_wishes", name)
    for table in _OF_ALL:
        op.drop_column(table, "is_of_all")
    for table, name in _NAMES:
        op.drop_column(table, name)
