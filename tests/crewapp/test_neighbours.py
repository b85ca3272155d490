"""crewapp starts only with its own models and sync, and never imports anybody else's."""

from __future__ import annotations

import compileall
import os
import subprocess
import sys
from pathlib import Path

import pytest

from crewapp import neighbours
from crewapp.neighbours import find_foreign
from tests.house.tree import ROOT

SCRIPT = [str(Path(sys.executable).with_name("crewapp"))]
BY_MODULE = [sys.executable, "-m", "crewapp"]
BY_IMPORT = [sys.executable, "-c", "import crewapp.app"]
RAN = "raise SystemExit('the foreign package was imported')"
ALONE = "Install the wheel file you were given into an environment of its own"

DRAW = """
from pathlib import Path
from crewapp.screenshots.window import GlassSize, NoPictureError, draw_in_window
try:
    here = Path("scratch").absolute()
    draw_in_window(Path("no.book"), Path("out"), "8in", GlassSize(800, 1280, 189), here)
except NoPictureError as fault:
    print(fault)
"""


def start(words: list[str], folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """Run a command in a folder, with nothing on Python's way but what is named."""
    bare = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    env = bare | {"CREWAPP_HOME": str(folder / "home")} | more
    return subprocess.run(
        words, cwd=folder, env=env, capture_output=True, text=True, check=False, timeout=300
    )


def foreign(folder: Path, name: str) -> Path:
    """Make a package of somebody else's that tells when it is imported."""
    package = folder / name
    package.mkdir(parents=True)
    (package / "__init__.py").write_text(RAN, encoding="utf-8")
    return package


def small_install(folder: Path) -> Path:
    """Copy what the guard looks at, and nothing more, to another place."""
    for file in ("crewapp/__init__.py", "crewapp/neighbours.py", *OURS):
        (folder / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / file).write_bytes((ROOT / file).read_bytes())
    return folder


OURS = ("models/__init__.py", "sync/__init__.py")


def ask(folder: Path) -> str:
    """Return what the guard of a small install says."""
    code = "from crewapp.neighbours import find_foreign; print(find_foreign())"
    done = start([sys.executable, "-S", "-c", code], folder)
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def test_here_they_are_our_own() -> None:
    """In this checkout, as its tests run, nothing is in the way."""
    assert find_foreign() == ""


@pytest.mark.parametrize("words", [BY_MODULE, BY_IMPORT], ids=["module", "app"])
@pytest.mark.parametrize("name", ["models", "sync"])
def test_module_in_the_current_folder_is_told(tmp_path: Path, words: list[str], name: str) -> None:
    """A models.py beside one's notes, as many projects have: a sentence, exit 2, nothing made."""
    (tmp_path / f"{name}.py").write_text(RAN, encoding="utf-8")

    done = start([*words, "demo"], tmp_path)

    assert done.returncode == 2
    assert done.stderr == (
        f"crewapp can't start: Python finds another package named {name}, at "
        f"{tmp_path / name}.py, in the folder it was started from. Start it from another folder.\n"
    )
    assert [path.name for path in tmp_path.iterdir()] == [f"{name}.py"]


@pytest.mark.parametrize("words", [SCRIPT, BY_MODULE, BY_IMPORT], ids=["script", "module", "app"])
@pytest.mark.parametrize("name", ["models", "sync"])
def test_package_on_the_python_path_is_told(tmp_path: Path, words: list[str], name: str) -> None:
    """Another project's package that Python would import first: told before it is imported."""
    package = foreign(tmp_path / "theirs", name)
    here = tmp_path / "here"
    here.mkdir()

    done = start([*words, "demo"], here, PYTHONPATH=str(package.parent))

    assert done.returncode == 2
    assert f"another package named {name}, at {package}. {ALONE}" in done.stderr
    assert done.stderr.count("\n") == 1
    assert list(here.iterdir()) == []


def test_script_does_not_look_into_the_current_folder(tmp_path: Path) -> None:
    """The command of its own imports nothing from where one stands, so nothing is refused."""
    (tmp_path / "models.py").write_text(RAN, encoding="utf-8")

    done = start([*SCRIPT, "--version"], tmp_path)

    assert (done.returncode, done.stderr) == (0, "")


def test_pictures_are_drawn_beside_a_foreign_module(tmp_path: Path) -> None:
    """The processes that draw find our own packages; they stop at the book, which is none."""
    (tmp_path / "models.py").write_text(RAN, encoding="utf-8")
    (tmp_path / "no.book").write_text("no book", encoding="utf-8")

    done = start([sys.executable, "-P", "-c", DRAW], tmp_path)

    assert "foreign" not in done.stdout
    assert "NotABookError" in done.stdout, done.stderr


def test_package_written_over_is_told(tmp_path: Path) -> None:
    """Another distribution put its own file in our place: the mark is gone."""
    here = small_install(tmp_path)
    assert ask(here) == ""
    (here / "models" / "__init__.py").write_text("# theirs\n", encoding="utf-8")

    assert ask(here) == (
        "crewapp can't start: Python finds another package named models, at "
        f"{here / 'models'}. {ALONE}, with uv tool install or pipx install."
    )


def test_package_that_is_gone_is_told(tmp_path: Path) -> None:
    """A broken install says which package is missing, and where."""
    here = small_install(tmp_path)
    (here / "sync" / "__init__.py").unlink()
    (here / "sync").rmdir()

    assert ask(here).startswith(f"crewapp can't start: its package sync is not in {here}. Install")


def test_compiled_files_alone_will_do(tmp_path: Path) -> None:
    """A tablet may hold nothing but compiled files, without docstrings."""
    here = small_install(tmp_path)
    compileall.compile_dir(here, quiet=2, legacy=True, optimize=2)
    for source in here.rglob("*.py"):
        source.unlink()

    assert ask(here) == ""


def test_link_to_our_own_folder_will_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same folder by another name is our own."""
    (tmp_path / "link").symlink_to(ROOT)
    monkeypatch.setattr(neighbours, "HOME", tmp_path / "link")

    assert find_foreign() == ""


def test_nothing_is_imported_on_the_way_to_the_guard(tmp_path: Path) -> None:
    """Importing the command line imports neither models nor sync: the guard comes first."""
    code = "import sys, crewapp.cli.main; print({'models', 'sync'} & set(sys.modules))"

    assert start([sys.executable, "-c", code], tmp_path).stdout == "set()\n"
