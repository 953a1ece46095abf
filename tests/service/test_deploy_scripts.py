"""The scripts in deploy/, run for real against a make-believe Python: set up once, fail kindly."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SCRIPTS = ("try", "test", "check")

#: All that the scripts may count on beside a Python.
TOOLS = (
    "sh",
    "basename",
    "cat",
    "chmod",
    "cksum",
    "cp",
    "date",
    "dirname",
    "grep",
    "mkdir",
    "tail",
)

#: A Python that notes what it is asked, makes environments holding itself, and installs nothing.
MAKE_BELIEVE = """#!/bin/sh
printf '%s\\n' "$*" >>"{log}"
case "$*" in
    *"import ensurepip"*) exit {no_venv} ;;
    "-c "*) exit {too_old} ;;
    "-m venv"*) for folder; do :; done; mkdir -p "$folder/bin"; cp "$0" "$folder/bin/python"
        for tool in soilbell ruff mypy lint-imports; do
            printf '#!/bin/sh\\nprintf "%%s\\\\n" "'$tool' $*" >>"{log}"\\n' >"$folder/bin/$tool"
            chmod +x "$folder/bin/$tool"
        done ;;
    *"pip install"*) {install} ;;
esac
"""
NO_INDEX = (
    "echo 'WARNING: Retrying after connection broken'; "
    "echo 'ERROR: No matching distribution found for hatchling'; exit 1"
)


class Tree:
    """A copy of what the scripts need, and a machine with little on it."""

    def __init__(self, folder: Path) -> None:
        self.root = folder / "tree of a newcomer"
        self.root.mkdir()
        shutil.copytree(ROOT / "deploy", self.root / "deploy")
        shutil.copy(ROOT / "pyproject.toml", self.root)
        self.log = folder / "asked.txt"
        self.bin = folder / "bin"
        self.bin.mkdir()
        for tool in TOOLS:
            (self.bin / tool).symlink_to(shutil.which(tool))

    def put_python(self, *, too_old: int = 0, no_venv: int = 0, install: str = "exit 0") -> None:
        python = self.bin / "python3"
        python.write_text(
            MAKE_BELIEVE.format(log=self.log, too_old=too_old, no_venv=no_venv, install=install)
        )
        python.chmod(0o755)

    def run(self, script: str, *arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [self.root / "deploy" / script, *arguments],
            env={"PATH": str(self.bin)},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            timeout=60,
            check=False,
        )

    def asked(self, words: str) -> int:
        return sum(words in line for line in self.log.read_text().splitlines())


@pytest.fixture
def tree(tmp_path):
    return Tree(tmp_path)


@pytest.mark.parametrize("script", SCRIPTS)
def test_without_a_python_it_says_what_to_install(tree, script):
    done = tree.run(script)
    assert done.returncode == 1
    *_, told = done.stderr.splitlines()
    assert "no Python from 3.11 on" in told
    assert "Install one" in told


def test_a_python_that_is_too_old_is_not_taken(tree):
    tree.put_python(too_old=1)
    assert "no Python from 3.11 on" in tree.run("test").stderr


def test_a_python_without_its_venv_module_is_explained(tree):
    tree.put_python(no_venv=1)
    done = tree.run("try")
    assert done.returncode == 1
    assert "python3-venv" in done.stderr.splitlines()[-1]


@pytest.mark.parametrize("script", SCRIPTS)
def test_without_a_package_index_it_says_so(tree, script):
    tree.put_python(install=NO_INDEX)
    done = tree.run(script)
    assert done.returncode == 1
    assert "couldn't reach a Python package index" in done.stderr.splitlines()[-1]


def test_any_other_trouble_of_installing_is_shown(tree):
    tree.put_python(install="echo 'ERROR: No space left on device'; exit 1")
    done = tree.run("test")
    assert done.returncode == 1
    assert "No space left on device" in done.stderr


@pytest.mark.parametrize("script", SCRIPTS)
def test_it_says_in_one_line_what_it_does(tree, script):
    tree.put_python()
    said = tree.run(script).stderr.splitlines()
    assert len(said) == 1
    assert said[0].startswith(f"deploy/{script}: ")


@pytest.mark.parametrize("script", SCRIPTS)
def test_the_second_run_installs_nothing_again(tree, script):
    tree.put_python()
    for _ in range(2):
        done = tree.run(script)
        assert done.returncode == 0, done.stderr
    assert tree.asked("-m venv") == 1
    assert tree.asked("pip install") == 1


def test_a_changed_list_of_needs_is_installed_again(tree):
    tree.put_python()
    tree.run("test")
    with (tree.root / "pyproject.toml").open("a") as file:
        file.write("# one more need\n")
    tree.run("test")
    assert tree.asked("-m venv") == 1
    assert tree.asked("pip install") == 2


def test_a_failed_installation_is_tried_again(tree):
    tree.put_python(install=NO_INDEX)
    tree.run("test")
    tree.put_python()
    shutil.copy(tree.bin / "python3", tree.root / ".venv" / "bin" / "python")
    assert tree.run("test").returncode == 0
    assert tree.asked("-m pytest") == 1


def test_an_environment_moved_with_its_folder_is_made_anew(tree):
    tree.put_python()
    tree.run("check")
    moved = tree.root.with_name("moved")
    tree.root.rename(moved)
    tree.root = moved
    assert tree.run("check").returncode == 0
    assert tree.asked("-m venv") == 2


def test_somebody_elses_environment_is_used_as_it_is(tree):
    tree.put_python()
    own = tree.root / ".venv" / "bin"
    own.mkdir(parents=True)
    shutil.copy(tree.bin / "python3", own / "python")
    tree.run("test")
    assert tree.asked("-m venv") == 0
    assert tree.asked("pip install") == 1


def test_arguments_of_test_go_to_pytest(tree):
    tree.put_python()
    tree.run("test", "-k", "amounts or zones")
    assert tree.asked("-m pytest -k amounts or zones") == 1


def test_check_runs_every_check_and_fails_with_any(tree):
    tree.put_python()
    assert tree.run("check").returncode == 0
    for tool in ("ruff check .", "ruff format --check .", "mypy", "lint-imports"):
        assert tree.asked(tool) >= 1
    (tree.root / ".venv" / "bin" / "mypy").write_text("#!/bin/sh\nexit 1\n")
    done = tree.run("check")
    assert done.returncode == 1
    assert tree.asked("lint-imports") == 2


def test_try_without_a_terminal_plays_the_tour(tree):
    tree.put_python()
    assert tree.run("try").returncode == 0
    assert tree.asked("soilbell tour") == 1


def test_try_in_a_terminal_opens_one_chat_that_lasts(tree):
    tree.put_python()
    for _ in range(2):
        terminal, ours = os.openpty()
        subprocess.run(
            [tree.root / "deploy" / "try"],
            env={"PATH": str(tree.bin)},
            stdin=ours,
            capture_output=True,
            timeout=60,
            check=True,
        )
        os.close(terminal)
        os.close(ours)
        # What a first chat leaves behind.
        (tree.root / ".soilbell" / "try.sqlite3").touch()
    chats = [line for line in tree.log.read_text().splitlines() if line.startswith("soilbell chat")]
    assert len(chats) == 2
    assert "-02-15T" in chats[0]
    assert "--start" not in chats[1]


def test_an_environment_elsewhere_is_made_there(tree, tmp_path):
    tree.put_python()
    subprocess.run(
        [tree.root / "deploy" / "test"],
        env={"PATH": str(tree.bin), "SOILBELL_VENV": str(tmp_path / "elsewhere")},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        timeout=60,
        check=True,
    )
    assert (tmp_path / "elsewhere" / "bin" / "python").exists()
    assert not (tree.root / ".venv").exists()
