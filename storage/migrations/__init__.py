"""Alembic migrations; their configuration is built in code (`storage.database`)."""
