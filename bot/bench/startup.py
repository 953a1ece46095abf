"""How long a start takes: the help, and the first answer of a chat, each in its own process."""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any, Final

#: Each is run so often; the quickest counts, as the machine may be busy otherwise.
_TIMES: Final = 5
_HEAVY: Final = ("alembic", "matplotlib", "numpy", "pandas", "pint", "reportlab", "requests")


def run() -> dict[str, Any]:
    """Return wall and processor time of the quickest start of each kind."""
    with tempfile.TemporaryDirectory() as folder:
        # As it is installed: what has been compiled once is not compiled again.
        around = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
        around["PYTHONPYCACHEPREFIX"] = str(Path(folder) / "compiled")
        chat = ["chat", "--json", "--db", f"sqlite:///{Path(folder) / 'chat.sqlite3'}"]
        return {
            "help": _quickest(["--help"], "", around),
            "chat": _quickest(chat, '{"say": "/start"}\n', around),
            "loaded_by_help": _loaded("bot.cli", around),
            "loaded_by_chat": _loaded("bot.subcommands", around),
        }


def _quickest(arguments: list[str], said: str, around: dict[str, str]) -> dict[str, float]:
    command = [sys.executable, "-m", "bot.cli", *arguments]
    taken = []
    # The first one compiles, and makes the database.
    for _ in range(_TIMES + 1):
        began_s, cpu_s = time.perf_counter(), _children_s()
        subprocess.run(
            command, input=said, text=True, env=around, check=True, stdout=subprocess.DEVNULL
        )
        taken.append((time.perf_counter() - began_s, _children_s() - cpu_s))
    return {
        "wall_s": round(min(wall for wall, _ in taken[1:]), 2),
        "cpu_s": round(min(cpu for _, cpu in taken[1:]), 2),
    }


def _children_s() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _loaded(module: str, around: dict[str, str]) -> dict[str, Any]:
    code = (
        f"import json, sys, {module}; print(json.dumps([len(sys.modules), "
        f"[each for each in {_HEAVY!r} if each in sys.modules]]))"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code], env=around, check=True, capture_output=True, text=True
    )
    count, heavy = json.loads(ended.stdout)
    return {"modules": count, "heavy": heavy}
