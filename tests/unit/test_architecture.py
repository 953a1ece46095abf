"""Promises about the whole: commands told everywhere, the tree tidy, the clock in one place."""

import argparse
import ast
import re
import subprocess
import sys
import tomllib
from collections import Counter
from pathlib import Path

import pytest

from bot import cli
from bot.saying import catalogue, checking
from bot.settings import Settings
from bot.talk import table
from bot.talk.commands import COMMANDS, COMMANDS_BY_WORD

ROOT = Path(__file__).parents[2]
FLOORS = ("bot", "jobs", "storage")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def committed() -> list[Path]:
    """Every file of the repository; skips the test where this is no repository."""
    if not (ROOT / ".git").exists():
        pytest.skip("not a repository, so nobody knows what is committed")
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout
    return [ROOT / name for name in listed.split("\0") if name and (ROOT / name).exists()]


def modules() -> list[Path]:
    return [path for floor in FLOORS for path in sorted((ROOT / floor).rglob("*.py"))]


def subcommands(parser: argparse.ArgumentParser) -> dict[str, argparse.ArgumentParser]:
    found = {}
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            for name, sub in action.choices.items():
                deeper = subcommands(sub)
                found |= {f"{name} {rest}": each for rest, each in deeper.items()}
                if not deeper:
                    found[name] = sub
    return found


# What people can say.


def test_commands_are_words_of_their_own():
    assert len(COMMANDS_BY_WORD) == len(COMMANDS)


@pytest.mark.parametrize("word", COMMANDS_BY_WORD)
def test_a_command_is_in_the_readme(word):
    assert re.search(rf"^\| `/{word}` \|", README, re.MULTILINE)


@pytest.mark.parametrize("word", COMMANDS_BY_WORD)
def test_a_command_has_its_sentence_in_every_language(word):
    for lang in catalogue.languages():
        sentence = checking.sentences(lang)[f"commands.{word}"]
        # Descriptions of commands: 1 to 256 characters, one line (core.telegram.org/bots/api,
        # BotCommand); the word itself 1 to 32 of a-z, 0-9 and _.
        assert 1 <= len(sentence) <= 256
        assert "\n" not in sentence
    assert re.fullmatch(r"[a-z0-9_]{1,32}", word)


def test_no_sentence_describes_a_command_that_is_gone():
    described = {key for key in checking.sentences("en") if key.startswith("commands.")}
    assert described == {f"commands.{word}" for word in COMMANDS_BY_WORD}


def test_the_readme_names_no_command_that_is_gone():
    named = set(re.findall(r"^\| `/([a-z_]+)` \|", README, re.MULTILINE))
    assert named == set(COMMANDS_BY_WORD)


# What the command line offers.


def test_every_subcommand_is_in_the_readme_and_none_that_is_gone():
    named = set(re.findall(r"`soilbell ([a-z]+(?: [a-z]+)?)`", README))
    assert named == set(subcommands(cli._parser()))


def test_every_subcommand_explains_itself(capsys):
    with pytest.raises(SystemExit) as ended:
        cli.main(["--help"])
    assert ended.value.code == 0
    told = capsys.readouterr().out
    for name in subcommands(cli._parser()):
        assert re.search(rf"^ +{name.split()[0]} +\S", told, re.MULTILINE), name


@pytest.mark.parametrize("asked", [[], ["mow"], ["chat", "--quickly"], ["db"], ["replay"]])
def test_a_command_line_that_is_none_is_refused_in_one_line(asked, capsys):
    with pytest.raises(SystemExit) as ended:
        cli.main(asked)
    assert ended.value.code == cli.CANNOT
    said = capsys.readouterr().err
    assert re.fullmatch(r"soilbell: .+ See soilbell.* --help\.\n", said)


@pytest.mark.parametrize(
    ("asked", "not_loaded"),
    [
        ("bot.cli", "numpy sqlalchemy pydantic logging"),
        (
            "bot.subcommands",
            "aiohttp alembic httpx icalendar matplotlib pandas pint reportlab requests",
        ),
    ],
)
def test_a_start_waits_for_nothing_that_it_may_not_need(asked, not_loaded):
    code = (
        f"import sys, {asked}; sys.exit(str([n for n in sys.modules if n in {not_loaded.split()}]))"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert ended.stderr.strip() == "[]"


# The README and its neighbour.


def test_the_readme_opens_with_the_job_then_the_two_commands_then_a_season():
    before, *_ = README.partition("## What you can say")
    opening = before.split("\n\n")
    assert opening[0].startswith("# ")
    assert "pre-emergent" in opening[1]
    assert opening[2] == "## Two commands"
    assert before.index("deploy/try") < before.index("deploy/test") < before.index("<!-- season")


def test_the_changelog_is_the_last_section_and_tells_of_this_version():
    sections = re.findall(r"^## (.+)$", README, re.MULTILINE)
    assert sections[-1] == "CHANGELOG"
    assert f"### {PROJECT['project']['version']}" in README.partition("## CHANGELOG")[2]


def test_the_licence_is_named_in_both_places():
    assert PROJECT["project"]["license"] == "MIT"
    assert "MIT licence" in README


@pytest.mark.parametrize("name", Settings.model_fields)
def test_a_setting_is_in_the_readme(name):
    settings = README.partition("## Settings")[2].partition("\n## ")[0]
    assert f"`SOILBELL_{name.upper()}`" in settings


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
def test_what_is_pointed_at_is_there(text):
    links = re.findall(r"\]\(([^)#]+)\)", text)
    paths = re.findall(r"`((?:bot|jobs|storage|tests|deploy|\.ci)/[\w./-]*)`", text)
    scripts = re.findall(r"^(?:deploy|\.ci)/\w+", text, re.MULTILINE)
    assert scripts
    for name in {*links, *paths, *scripts}:
        assert (ROOT / name).exists(), name


# The tree.


def test_nothing_else_stands_at_the_top():
    tops = {path.relative_to(ROOT).parts[0] for path in committed()}
    visible = {name for name in tops if not name.startswith(".")}
    assert visible == {"README.md", "DEVELOPERS.md", "pyproject.toml", "deploy", "tests", *FLOORS}
    assert tops - visible == {".gitignore", ".ci"}


def test_the_wheel_ships_the_three_floors():
    assert PROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]["packages"] == list(FLOORS)


def test_every_folder_with_modules_is_a_package():
    for path in modules():
        assert (path.parent / "__init__.py").exists(), path


def test_a_module_is_told_by_its_name_alone():
    stems = Counter(path.stem for path in modules() if path.stem != "__init__")
    assert [stem for stem, count in stems.items() if count > 1] == []


def test_no_function_is_there_for_tests_alone():
    texts = {path: path.read_text(encoding="utf-8") for path in modules()}
    words = Counter(word for text in texts.values() for word in re.findall(r"\w+", text))
    assert [
        f"{path.name}: {each.name}"
        for path, text in texts.items()
        for each in ast.parse(text).body
        if isinstance(each, ast.FunctionDef | ast.ClassDef)
        if words[each.name] == 1 and not each.decorator_list
    ] == []


def test_beside_modules_there_are_only_tables_catalogues_grammars_and_what_hearing_learnt():
    beside = [path for path in committed() if path.relative_to(ROOT).parts[0] in FLOORS]
    hearing = ROOT / "bot" / "hearing" / "languages"
    kinds = {path.suffix for path in beside if hearing not in path.parents}
    assert kinds <= {".py", ".toml", ".ftl", ".lark"}
    assert {path.suffix for path in beside if hearing in path.parents} <= {".toml", ".txt", ".npz"}


def written() -> list[Path]:
    """Return the committed files that people wrote as text."""
    return [path for path in committed() if path.suffix != ".npz"]


def test_nothing_names_a_place_on_somebodys_machine():
    # Put together here, so that this file does not name them itself.
    folders = "|".join(("work", "root", "home", "Users", "tmp"))
    place = re.compile(rf"(?<![\w.}}*/:])/(?:{folders})/\w")
    hosts = re.compile("|".join((r"pypi\.o" + "rg", "python" + "hosted", r"npmjs\.c" + "om")))
    for path in written():
        text = path.read_text(encoding="utf-8")
        for pattern in (place, hosts):
            found = pattern.search(text)
            assert found is None, f"{path.relative_to(ROOT)}: {text[found.start() :][:40]}"


def test_nothing_bears_a_trade_mark():
    for path in written():
        assert not re.search("[\u00ae\u2122]", path.read_text(encoding="utf-8")), path


def test_nothing_is_left_for_later():
    words = re.compile(
        r"\b(?:" + "|".join(("TO" + "DO", "FIX" + "ME", "NotImplemented" + "Error")) + ")"
    )
    for path in written():
        if path.suffix == ".txt":
            continue  # sentences; in Spanish one of these words is "all"
        found = words.search(path.read_text(encoding="utf-8"))
        assert found is None, f"{path.relative_to(ROOT)}: {found}"


# The clock.


CLOCKS = {"now", "utcnow", "today", "time", "localtime", "gmtime"}


def test_only_the_wiring_asks_what_time_it_is():
    asked = set()
    for path in modules():
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not (isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute)):
                continue
            of = node.func.value
            name = of.id if isinstance(of, ast.Name) else getattr(of, "attr", "")
            if node.func.attr in CLOCKS and name in {"datetime", "date", "time", "Timestamp"}:
                asked.add(path.relative_to(ROOT).as_posix())
    assert asked == {"bot/wiring.py"}


def test_lint_bans_the_clock_everywhere_else():
    lint = PROJECT["tool"]["ruff"]["lint"]
    banned = set(lint["flake8-tidy-imports"]["banned-api"])
    assert banned >= {"datetime.datetime.now", "datetime.date.today", "time.time"}
    exempt = [path for path, rules in lint["per-file-ignores"].items() if "TID251" in rules]
    assert exempt == ["bot/wiring.py"]
    for path in modules():
        assert "noqa: TID251" not in path.read_text(encoding="utf-8"), path


#: What a yard's Standing holds is read by its loader alone.
_HELD_BY_STANDING = {
    "applications.application",
    "applications.waterings",
    "crews.members",
    "applications.of_yard",
    "products.product",
    "seasons.season",
    "seasons.of_yard",
    "seedings.of_yard",
    "readings.of_yard",
    "sightings.of_yard",
    "wishes.of_yard",
    "wishes.snoozes",
    "wishes.muted",
    "yards.zones",
    "grounds.origins",
}


def reads_again(floor: str) -> list[str]:
    found = []
    for path in sorted((ROOT / floor).rglob("*.py")):
        functions = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        for each in (node for node in functions if isinstance(node, ast.FunctionDef)):
            calls = {ast.unparse(c.func) for c in ast.walk(each) if isinstance(c, ast.Call)}
            if calls & _HELD_BY_STANDING and path.name != "standing.py":
                found.append(f"{path.name}: {each.name}")
    return found


@pytest.mark.parametrize("floor", ["bot", "jobs"])
def test_what_a_standing_holds_is_read_by_its_loader_alone(floor):
    assert reads_again(floor) == []


#: What talks: its rooms, what is told in them, where they stand, and alerts in words.
_TALKING = ("letters", "dialogue", "telling", "talk")


def floors_of(*packages: str) -> int:
    """Return how many floors modules stand on that borrow from those below alone."""
    names = {
        f"bot.{package}.{path.stem}": ast.parse(path.read_text(encoding="utf-8"))
        for package in packages
        for path in (ROOT / "bot" / package).glob("*.py")
        if path.stem != "__init__"
    }
    below = {
        name: {
            of
            for node in tree.body
            if isinstance(node, ast.ImportFrom)
            for each in node.names
            for of in (node.module, f"{node.module}.{each.name}")
            if of in names
        }
        for name, tree in names.items()
    }
    floors = 0
    while below:
        lowest = {name for name, borrowed in below.items() if not borrowed & below.keys()}
        assert lowest, f"in a circle: {sorted(below)}"
        below = {name: of for name, of in below.items() if name not in lowest}
        floors += 1
    return floors


@pytest.mark.parametrize("package", _TALKING)
def test_what_talks_borrows_from_below_alone_on_few_floors(package):
    assert floors_of(package) <= 4


def test_what_talks_stands_on_few_floors_together():
    assert floors_of(*_TALKING) <= 8


def test_rooms_of_talk_borrow_from_no_other_room():
    imported = {
        path.stem: {
            name
            for node in ast.parse(path.read_text(encoding="utf-8")).body
            if isinstance(node, ast.ImportFrom) and f"{node.module}.".startswith("bot.talk.")
            for each in node.names
            for name in (each.name, node.module.split(".")[-1])
        }
        for path in (ROOT / "bot" / "talk").glob("*.py")
    }
    rooms = {room.__name__.split(".")[-1] for room in table.SUBJECTS}
    assert rooms <= imported.keys()
    for room in rooms:
        assert not imported[room] & rooms, room


def test_imports_stand_at_the_top_where_floors_are_counted():
    for package in _TALKING:
        for path in (ROOT / "bot" / package).glob("*.py"):
            tree = ast.parse(path.read_text(encoding="utf-8"))
            late = [
                node
                for each in ast.walk(tree)
                if isinstance(each, ast.FunctionDef)
                for node in ast.walk(each)
                if isinstance(node, ast.Import | ast.ImportFrom)
            ]
            assert late == [], path
