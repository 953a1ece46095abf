"""The `soilbell` command and its subcommands."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from typing import Final, NoReturn

#: Exit code of a command that was asked for something it cannot do.
CANNOT: Final = 2

#: The same where it may be able to in a while (EX_TEMPFAIL of sysexits.h): start it again.
NOT_NOW: Final = 75


class _Parser(argparse.ArgumentParser):
    """A parser that says in one line what is wrong, and where help is."""

    def error(self, message: str) -> NoReturn:
        self.exit(CANNOT, f"soilbell: {message}. See {self.prog} --help.\n")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command line; return its exit code."""
    # What is kept is nobody else's to read, whatever the shell says.
    os.umask(0o077)
    # Our matrices are small: threads that wait for parts of them cost more than they bring.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    parser = _parser()
    options = parser.parse_args(arguments)
    # Whoever only asks for help does not wait for the rest to be loaded. What is loaded stays:
    # nobody need look through it for garbage, now or later.
    gc.disable()
    from bot import subcommands

    gc.freeze()
    # A unit of work of fifty yards makes thousands of rows that all go at its end.
    gc.set_threshold(20_000, 20, 10)
    gc.enable()
    try:
        return subcommands.carry_out(options)
    except subcommands.CannotDo as problem:
        print(f"soilbell: {problem}", file=sys.stderr)
        return NOT_NOW if isinstance(problem, subcommands.CannotDoNow) else CANNOT
    except BrokenPipeError:
        # Whoever read our output has left (`| head`); there is nobody to tell.
        sys.stderr.close()
        return 0
    except KeyboardInterrupt:
        return 130


def _parser() -> _Parser:
    parser = _Parser(
        prog="soilbell", description="When, where and how much pre-emergent a lawn needs."
    )
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    _add_chat(commands)
    _add_tour(commands)
    _add_running(commands)
    _add_replay(commands)
    _add_hindcast(commands)
    _add_heard(commands)
    _add_db(commands)
    _add_bench(commands)
    return parser


_Commands = argparse._SubParsersAction  # argparse has no public name for it


def _add_chat(commands: _Commands[_Parser]) -> None:
    chat = commands.add_parser("chat", help="talk in the terminal")
    chat.add_argument("--json", action="store_true", help="one JSON object a line, both ways")
    chat.add_argument("--db", metavar="URL", help="database (default: the setting)")
    chat.add_argument(
        "--climate",
        default="simulated",
        metavar="NAME",
        help="simulated, recorded:PATH, open-meteo or nws (default: simulated)",
    )
    chat.add_argument("--start", metavar="ISO", help="clock of a new database")
    chat.add_argument("--user", type=int, default=1, metavar="N", help="who is talking")
    chat.add_argument("--language", metavar="CODE", help="of a new chat, such as es (default: en)")
    chat.add_argument("--seed", type=int, default=0, metavar="N", help="of the simulated climate")
    chat.set_defaults(duty="chat")


def _add_tour(commands: _Commands[_Parser]) -> None:
    season = commands.add_parser("tour", help="watch an invented season go by, start to end")
    season.add_argument("--seed", type=int, default=0, metavar="N", help="of the simulated climate")
    season.set_defaults(duty="tour")


def _add_running(commands: _Commands[_Parser]) -> None:
    both = commands.add_parser("run", help="answer on the chat platform, and watch the soil")
    both.set_defaults(duty="run", answers=True, ticks=True)
    bot = commands.add_parser("bot", help="the half of run that answers")
    bot.set_defaults(duty="run", answers=True, ticks=False)
    worker = commands.add_parser("worker", help="the half of run that watches and alerts")
    worker.set_defaults(duty="run", answers=False, ticks=True)
    doctor = commands.add_parser("doctor", help="check token, database, sources and clock")
    doctor.set_defaults(duty="doctor")


def _add_replay(commands: _Commands[_Parser]) -> None:
    replay = commands.add_parser("replay", help="play the machine over a station's past years")
    replay.add_argument("station", metavar="STATION.csv[.gz]")
    replay.add_argument("--year", required=True, metavar="Y|Y-Z", help="year, or first-last")
    replay.add_argument("--apply-after", metavar="P3D", help="confirm so long after each call")
    replay.add_argument("--units", choices=("us", "metric"), default="us")
    replay.add_argument("--at", metavar="LAT,LON", help="place, where no INDEX.csv has it")
    replay.add_argument("--json", action="store_true", help="one JSON object a line")
    replay.set_defaults(duty="replay")


def _add_hindcast(commands: _Commands[_Parser]) -> None:
    hindcast = commands.add_parser("hindcast", help="write what the outlook would have said")
    hindcast.add_argument("station", metavar="STATION.csv[.gz]")
    hindcast.add_argument("--threshold-f", type=float, default=55.0, metavar="F")
    hindcast.add_argument("--from-year", type=int, required=True, metavar="Y")
    hindcast.add_argument("--to-year", type=int, required=True, metavar="Y")
    hindcast.add_argument("--every-days", type=int, default=7, metavar="N")
    hindcast.add_argument("--forecast", default="none", metavar="none|FILE.csv[.gz]")
    hindcast.add_argument("--out", required=True, metavar="FORECASTS.csv")
    hindcast.add_argument("--at", metavar="LAT,LON", help="place, where no INDEX.csv has it")
    hindcast.set_defaults(duty="hindcast")


def _add_heard(commands: _Commands[_Parser]) -> None:
    heard = commands.add_parser("heard", help="read what was not understood, where chats agreed")
    heard.add_argument("--db", metavar="URL", help="database (default: the setting)")
    heard.add_argument("--most", type=int, default=100, metavar="N", help="texts shown at most")
    heard.set_defaults(duty="heard")


def _add_db(commands: _Commands[_Parser]) -> None:
    db = commands.add_parser("db", help="look after the database")
    duties = db.add_subparsers(title="duties", required=True, metavar="DUTY")
    upgrade = duties.add_parser("upgrade", help="bring the schema to the newest revision")
    upgrade.add_argument("--db", metavar="URL", help="database (default: the setting)")
    upgrade.set_defaults(duty="upgrade")
    backup = duties.add_parser("backup", help="copy the database whole, also while it is in use")
    backup.add_argument("--db", metavar="URL", help="database (default: the setting)")
    backup.add_argument(
        "--to", metavar="PATH", default=".", help="file, or folder for one with today's name"
    )
    backup.set_defaults(duty="backup")


def _add_bench(commands: _Commands[_Parser]) -> None:
    bench = commands.add_parser("bench", help="measure how fast this machine is, as JSON")
    kinds = bench.add_subparsers(title="benches", required=True, metavar="BENCH", dest="bench")
    kinds.add_parser("startup", help="help, and the first answer of a chat")
    outlook = kinds.add_parser("outlook", help="outlooks of weather cells")
    outlook.add_argument("--cells", type=int, default=400, metavar="N")
    tick = kinds.add_parser("tick", help="a morning on which every yard is due, and the next")
    tick.add_argument("--yards", type=int, default=10_000, metavar="N")
    tick.add_argument("--cells", type=int, default=400, metavar="M")
    tick.add_argument("--postgres", metavar="URL", help="an empty database there; else SQLite")
    tick.add_argument("--baseline", action="store_true", help="beside it one yard at a time")
    deliver = kinds.add_parser("deliver", help="alerts that leave at the platform's pace")
    deliver.add_argument("--alerts", type=int, default=1_000, metavar="N")
    deliver.add_argument("--history", type=int, default=0, metavar="H", help="sent before")
    deliver.add_argument("--latency-ms", type=int, default=100, metavar="MS")
    deliver.add_argument("--replies-a-second", type=int, default=0, metavar="N")
    talk = kinds.add_parser("talk", help="people who ask one thing after another")
    talk.add_argument("--chats", type=int, default=20, metavar="N")
    talk.add_argument("--turns", type=int, default=20, metavar="M", help="in each chat")
    talk.add_argument("--charts", type=int, default=0, metavar="C", help="others want a chart")
    talk.add_argument("--pause-ms", type=int, default=0, metavar="MS", help="before each turn")
    talk.add_argument("--baseline", action="store_true", help="beside it a bot that only echoes")
    bench.set_defaults(duty="bench")


if __name__ == "__main__":
    sys.exit(main())
