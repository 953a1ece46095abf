"""Tables, one module a subject; all are had from here: ``from storage import models``.

Instants are UTC; names carry units; JSON columns hold only what is shown back or replayed whole,
never what a query has to look into. A yard belongs to a chat; persons are kept apart from chats, so
that a crew can share one.
"""

# ruff: noqa: F403 - the one place where all tables stand together
from storage.models.chat_rows import *
from storage.models.declarative import *
from storage.models.journal_rows import *
from storage.models.outbox_rows import *
from storage.models.product_rows import *
from storage.models.record_rows import *
from storage.models.running_rows import *
from storage.models.weather_rows import *
from storage.models.yard_rows import *
