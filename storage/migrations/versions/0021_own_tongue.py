"""In which language and units each person is answered, in every chat.

Revision ID: 0021
"""

import sqlalchemy as sa
from alembic import op

revision = "0021"
down_revision = "0020"
branch_labels = None
depends_on = None

#: Whoever has a chat of their own is answered everywhere as there.
_OWN = """
UPDATE person SET {column} = (
    SELECT chat.{column} FROM chat
    WHERE chat.platform = person.platform AND chat.address = person.address
)
"""


def upgrade() -> None:
    for column in ("language", "units"):
        op.add_column("person", sa.Column(column, sa.String(), nullable=True))
        op.execute(_OWN.format(column=column))


def downgrade() -> None:
    for column in ("units", "language"):
        op.drop_column("person", column)
