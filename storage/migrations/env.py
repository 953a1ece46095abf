"""Runs migrations on the connection that `storage.database` hands over."""

from alembic import context

from storage.models import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    transaction_per_migration=True,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
