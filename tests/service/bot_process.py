"""The bot as a real process, talking to the stand-in for the chat platform."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from storage.database import Database
from tests.made_once import database_at
from tests.service.platform_standin import TOKEN, PlatformStandin

ROOT = Path(__file__).resolve().parents[2]

#: What must not stand in a log of a run in which nothing went wrong on our side.
OUR_FAULT = ("Traceback", "CRITICAL", "Exception ignored", "was never retrieved")


def closed_port() -> int:
    """Return a loopback port on which nobody listens."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


#: What a program is told of where it runs.
_KEPT = ("PATH", "HOME", "LANG", "PYTHONPYCACHEPREFIX")


def environment(folder: Path, **settings: object) -> dict[str, str]:
    """Return an environment with these settings, in which nothing but loopback can be reached."""
    nowhere = f"http://127.0.0.1:{closed_port()}"
    ours = {f"SOILBELL_{name.upper()}": str(value) for name, value in settings.items()}
    proxies = {
        name: nowhere
        for kind in ("HTTP_PROXY", "HTTPS_PROXY", "ALL_PROXY")
        for name in (kind, kind.lower())
    }
    kept = {name: os.environ[name] for name in _KEPT if name in os.environ}
    return {
        **kept,
        **proxies,
        "NO_PROXY": "127.0.0.1",
        "no_proxy": "127.0.0.1",
        "PYTHONPATH": str(ROOT),
        "PYTHONWARNINGS": "error",
        "SOILBELL_DATABASE_URL": f"sqlite:///{folder / 'bot.sqlite3'}",
        **ours,
    }


def soilbell(folder: Path, *arguments: str, **settings: object) -> subprocess.CompletedProcess[str]:
    """Run a command to its end."""
    return subprocess.run(
        [sys.executable, "-m", "bot.cli", *arguments],
        cwd=folder,
        env=environment(folder, **settings),
        capture_output=True,
        text=True,
        timeout=30,
        check=False,
    )


class BotProcess:
    """A running `soilbell run` (or bot, or worker), stopped at the end however the test ends.

    Parameters
    ----------
    folder
        Where its database and log are.
    standin
        Its chat platform.
    command
        run, bot or worker.
    name
        What its log is called, where there are several of a kind.
    within
        A command that runs the one behind it, in narrower bounds.
    shorter
        Constants that say how long something is waited for, made shorter [s].
    weather_trouble
        One call in so many for the invented weather goes wrong.
    settings
        More settings, over those for a demonstration on invented weather.
    """

    def __init__(
        self,
        folder: Path,
        standin: PlatformStandin,
        command: str = "run",
        name: str = "",
        within: Sequence[str] = (),
        shorter: Mapping[str, float] | None = None,
        weather_trouble: int = 0,
        **settings: object,
    ) -> None:
        usual: dict[str, object] = {
            "token": TOKEN,
            "platform_url": standin.base_url,
            "platform_timeout_s": 2,
            "source": "simulated",
            "clock_start": "2026-03-10T14:00",
        }
        self.folder = folder
        if "database_url" not in settings:
            # Its tables are made already: how they come to be has tests of its own.
            database_at(folder / "bot.sqlite3").close()
        self._command = command
        self._within = list(within)
        self._altered = {
            **({"SOILBELL_SHORTER": json.dumps(shorter)} if shorter else {}),
            **({"SOILBELL_WEATHER_TROUBLE": str(weather_trouble)} if weather_trouble else {}),
        }
        self._environment = environment(folder, **{**usual, **settings})
        self._log_path = folder / f"{name or command}.log"
        self._process: subprocess.Popen[bytes] | None = None
        self._database: Database | None = None
        self._is_wanted = False
        standin.watched.append((command, lambda: self.is_running or not self._is_wanted))

    def __enter__(self) -> BotProcess:
        self.start()
        return self

    def __exit__(self, _kind: object, error: BaseException | None, _traceback: object) -> None:
        process = self._process
        self._is_wanted = False
        if error is not None:
            error.add_note(f"log of {self._command}:\n{self.log[-6000:]}")
        if self._database is not None:
            self._database.close()
        if process is not None and process.poll() is None:
            process.terminate()
            try:
                process.wait(15)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()
                raise AssertionError(f"it did not stop when told to\n{self.log}") from None

    def start(self, kill_at: str = "") -> None:
        """Start it; its log goes on where it was.

        With a point of `tests.service.altered`, such as ``turn kept:2``, it dies there.
        """
        self._is_wanted = not kill_at
        altered = {**self._altered, **({"SOILBELL_KILL_AT": kill_at} if kill_at else {})}
        module = "tests.service.altered" if altered else "bot.cli"
        with self._log_path.open("ab") as out:
            self._process = subprocess.Popen(
                [*self._within, sys.executable, "-m", module, self._command],
                cwd=self.folder,
                env={**self._environment, **altered},
                stdin=subprocess.DEVNULL,
                stdout=out,
                stderr=out,
            )

    def stop(self) -> int:
        """Tell it to stop; return its exit code."""
        return self._end(signal.SIGTERM)

    def kill(self) -> None:
        """Kill it without a warning."""
        self._end(signal.SIGKILL)

    def wait(self, seconds: float = 15) -> int:
        """Return its exit code once it has ended by itself."""
        assert self._process is not None
        return self._process.wait(seconds)

    @property
    def is_running(self) -> bool:
        """Whether it runs."""
        return self._process is not None and self._process.poll() is None

    @property
    def memory_kb(self) -> int:
        """How much memory it holds now [kB]."""
        assert self._process is not None
        status = Path(f"/proc/{self._process.pid}/status").read_text(encoding="ascii")
        return next(int(line.split()[1]) for line in status.splitlines() if "VmRSS" in line)

    @property
    def log(self) -> str:
        """What it has logged."""
        return self._log_path.read_text(encoding="utf-8")

    def database(self) -> Database:
        """Return its database, opened once more until the process is left."""
        if self._database is None:
            self._database = Database(self._environment["SOILBELL_DATABASE_URL"])
        return self._database

    def _end(self, how: int) -> int:
        assert self._process is not None
        self._is_wanted = False
        self._process.send_signal(how)
        return self._process.wait(20)
