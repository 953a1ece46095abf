"""The one module that reads the packaged tables beside it (`tables/*.toml`)."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import Any


@cache
def load(name: str) -> dict[str, Any]:
    """Return the packaged table ``name`` (without ``.toml``). Treat as read-only: it is shared.

    Raises
    ------
    FileNotFoundError
        If there is no such table.
    """
    file = resources.files("jobs.agronomy") / "tables" / f"{name}.toml"
    return tomllib.loads(file.read_text(encoding="utf-8"))
