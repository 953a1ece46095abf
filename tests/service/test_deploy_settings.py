"""What deploy/ says about settings is what the program reads."""

import configparser
import re
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bot import cli
from bot.settings import Settings, load
from bot.terminal import TerminalMessenger
from bot.turn import Turn
from bot.wiring import assemble
from jobs.sources.simulated import SimulatedSource
from storage.database import Database

DEPLOY = Path(__file__).parents[2] / "deploy"
EXAMPLE = DEPLOY / ".env.example"
LINE = re.compile(r"^(#?)(SOILBELL_[A-Z_]+)=(.*)$", re.MULTILINE)


def every_name() -> list[str]:
    return [f"SOILBELL_{name}".upper() for name in Settings.model_fields]


def test_every_setting_stands_in_the_example_once():
    named = [name for _, name, _ in LINE.findall(EXAMPLE.read_text())]
    assert sorted(named) == sorted(every_name())


def test_the_example_is_read_as_the_defaults(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    defaults = load()
    (tmp_path / ".env").write_text(LINE.sub(r"\2=\3", EXAMPLE.read_text()))
    assert load() == defaults


def test_what_the_example_sets_is_taken(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    token = f"12:{'invented' * 4}"
    (tmp_path / ".env").write_text(
        EXAMPLE.read_text()
        .replace("SOILBELL_TOKEN=", f"SOILBELL_TOKEN={token}")
        .replace("#SOILBELL_SOURCE=open-meteo", "SOILBELL_SOURCE=nws")
    )
    assert load().token_text == token
    assert load().source == "nws"


@pytest.mark.parametrize("name", Settings.model_fields)
def test_every_setting_is_explained_in_the_example(name):
    before, _, _ = EXAMPLE.read_text().partition(f"SOILBELL_{name.upper()}=")
    # A setting follows its comment, or another setting of the same comment.
    block = before.rpartition("\n\n")[2]
    assert re.search(r"^# \w", block, re.MULTILINE), name


def test_only_settings_that_exist_are_named_in_deploy():
    known = {*every_name(), "SOILBELL_VENV", "SOILBELL_PYTHON"}
    for path in DEPLOY.iterdir():
        named = set(re.findall(r"\bSOILBELL_[A-Z_]*[A-Z]\b", path.read_text()))
        assert named <= known, path.name


def test_the_unit_starts_what_the_readme_of_its_head_installs():
    text = (DEPLOY / "soilbell.service").read_text()
    unit = configparser.ConfigParser(strict=False, interpolation=None)
    unit.optionxform = str
    unit.read_string(text)
    service = unit["Service"]
    assert service["ExecStart"] == "/opt/soilbell/bin/soilbell run"
    assert "python3 -m venv /opt/soilbell" in text
    assert service["EnvironmentFile"] in text.partition("[Unit]")[0]
    # A missing or malformed setting ends the program with 2; trying again does not cure it.
    assert service["RestartPreventExitStatus"] == str(cli.CANNOT)
    assert cli.NOT_NOW != cli.CANNOT
    assert f"with {cli.NOT_NOW}" in text


def test_the_image_is_built_from_what_it_is_allowed_to_see():
    ignored = (DEPLOY / "Dockerfile.dockerignore").read_text().splitlines()
    copied = re.findall(r"^COPY (?!--)(.+) \S+$", (DEPLOY / "Dockerfile").read_text(), re.MULTILINE)
    assert copied
    for name in " ".join(copied).split():
        assert f"!{name}" in ignored, name


def test_all_that_is_written_goes_into_the_one_folder_that_is_set(tmp_path):
    kept = tmp_path / "kept"
    db = Database(f"sqlite:///{tmp_path / 'elsewhere.sqlite3'}")
    db.upgrade()
    machine = assemble(db, SimulatedSource(0), TerminalMessenger(), owner="test", pictures=kept)
    at = datetime(2026, 4, 1, 14, tzinfo=UTC)
    said = ["front 60x40", "/product prodiamine 0.38% granule, 3.2 lb per 1000", "applied"]
    turns = [{"place": (39.18, -96.57)}, *({"text": text} for text in [*said, "/export"])]
    for number, content in enumerate(turns):
        replies = machine.conversation.handle(Turn(f"{number}", "test", "1", "1", at, **content))
    db.close()
    written = [Path(reply.file) for reply in replies if reply.file is not None]
    assert {path.suffix for path in written} == {".csv", ".xlsx", ".pdf", ".ics"}
    assert all(path.is_relative_to(kept) and path.exists() for path in written)
