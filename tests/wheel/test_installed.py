"""What is installed works far from the checkout, and prints what the checkout prints."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from contextlib import suppress
from email.parser import HeaderParser
from pathlib import Path
from zipfile import ZipFile

import pytest

from crewapp.pages.frame.page_list import PLACES
from crewapp.version import VERSION
from tests.house.tree import PACKAGES, ROOT, walk
from tests.wheel.installation import IS_FRESH, Installation, passed_on

pytestmark = pytest.mark.wheel
PAPERS = ("sheets", "plan", "asbuilt")
START_S = 120
"""The app shows its book within seconds; on a machine with much else to do it may take longer."""
DIST_INFO = f"crewapp-{VERSION}.dist-info"

ONE_TABLET = """
import sys
from crewapp.cli.main import main
from crewapp.cli import pictures
pictures.PROFILES = {"tiny": (320, 200, 37)}
pictures.TURNS = {"portrait": True}
sys.exit(main(["pictures", "--json", *sys.argv[1:]]))
"""

WHERE = """
import sys, crewapp, models, sync
print(crewapp.__file__, models.__file__, sync.__file__)
print(*sys.path, sep="\\n")
"""

ON_A_BOOK = """
import sys
from pathlib import Path
from crewapp.tablet.settings import Settings, Tablet
Tablet.of_user().keep_settings(Settings(author="Wren", last_book=str(Path(sys.argv[1]).absolute())))
"""


def papers(folder: Path, *parts: str) -> dict[str, bytes]:
    """Return every file below the folders of papers by its path."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for part in parts or PAPERS
        for path in sorted((folder / part).rglob("*"))
        if path.is_file()
    }


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo as the checkout makes it."""
    folder = tmp_path_factory.mktemp("own")
    words = [sys.executable, "-m", "crewapp", "demo", "--out", str(folder)]
    subprocess.run(words, cwd=ROOT, check=True, capture_output=True)
    return folder


@pytest.fixture(scope="module")
def demo(installed: Installation) -> Path:
    """The demo as the installed program makes it."""
    (installed.here / "models.py").write_text("raise SystemExit('not ours')", encoding="utf-8")
    installed.crewapp("demo", "--out", "demo")
    (installed.here / "models.py").unlink()
    return installed.here / "demo"


def test_wheel_holds_the_packages_and_nothing_else(wheel: Path) -> None:
    """Every file of the three packages as it stands in the tree, by way of the sdist."""
    with ZipFile(wheel) as packed:
        held = {name: packed.read(name) for name in packed.namelist()}
    files = [path for package in PACKAGES for path in walk(ROOT / package)]
    wanted = {path.relative_to(ROOT).as_posix(): path.read_bytes() for path in files}

    assert {name.split("/")[0] for name in held} == {*PACKAGES, DIST_INFO}
    assert {n: data for n, data in held.items() if not n.startswith(DIST_INFO)} == wanted
    assert [n for n in held if n.split("/")[-1].startswith(("test_", "bench_", "conftest"))] == []


def test_wheel_says_what_it_is(wheel: Path) -> None:
    """Its licence by the identifier alone, no text of one; README as its description."""
    with ZipFile(wheel) as packed:
        names = packed.namelist()
        told = HeaderParser().parsestr(packed.read(f"{DIST_INFO}/METADATA").decode())

    assert (told["Name"], told["Version"]) == ("crewapp", VERSION)
    assert told["License-Expression"] == "Apache-2.0"
    assert told["License-File"] is None
    assert [name for name in names if "LICEN" in name.upper()] == []
    assert told.get_payload() == (ROOT / "README.md").read_text(encoding="utf-8")


def test_all_of_it_comes_from_the_wheel(installed: Installation) -> None:
    """The three packages are those of the new environment; the checkout is nowhere on the way."""
    done = installed.run(installed.python, "-c", WHERE)
    files, *way = done.stdout.splitlines()

    assert all(Path(file).is_relative_to(installed.environment) for file in files.split())
    assert not {str(ROOT), os.fspath(ROOT.resolve())} & set(way)


def test_version_is_told(installed: Installation) -> None:
    """By the command and by the module."""
    assert installed.crewapp("--version").startswith(f"crewapp {VERSION} (book ")
    done = installed.run(installed.python, "-m", "crewapp", "--version")
    assert done.stdout == installed.crewapp("--version")


def test_demo_prints_what_the_checkout_prints(demo: Path, own: Path) -> None:
    """Sheets, take-off, stake-out and as-built, byte for byte."""
    assert len(papers(demo)) > 20
    assert papers(demo) == papers(own)


def test_stripped_python_prints_the_same(installed: Installation, own: Path) -> None:
    """Nothing rests on asserts or docstrings, which a tablet's build takes away."""
    words = ["-OO", "-m", "crewapp", "demo", "--out", "stripped", "--json"]
    done = installed.run(installed.python, *words)

    assert (done.returncode, done.stderr) == (0, "")
    assert papers(installed.here / "stripped") == papers(own)


def test_papers_are_printed_again_from_the_books(installed: Installation, demo: Path) -> None:
    """``sheet``, ``asbuilt``, ``plan takeoff`` and ``plan stakeout`` find all they need."""
    book = f"{demo.name}/larkfield.book"
    installed.crewapp("sheet", book, "--day", "2026-05-13", "--out", "again/sheets")
    installed.crewapp("plan", "takeoff", book, "--out", "again/plan")
    installed.crewapp("plan", "stakeout", book, "--setup", "L3", "--out", "again/plan")
    finished = f"{demo.name}/larkfield-finished.book"
    installed.crewapp("asbuilt", finished, "--out", "again/asbuilt")

    again = papers(installed.here / "again")
    assert {n.split("/")[0] for n in again} == set(PAPERS)
    assert again.items() <= papers(demo).items()
    assert papers(installed.here / "again", "asbuilt") == papers(demo, "asbuilt")


def test_lines_are_laid(installed: Installation, demo: Path) -> None:
    """Planning finds its libraries: a layout of a surface of the demo, only shown."""
    slits = ["--surface", "G5", "--sand-slits", "16in", "--dry-run", "--json"]
    told = json.loads(installed.crewapp("plan", "layout", f"{demo.name}/larkfield.book", *slits))

    assert told["written"] == 0
    assert [use["pieces"] > 0 for use in told["uses"]] == [True, True]


def test_screens_are_drawn(installed: Installation, demo: Path) -> None:
    """Every page is there, though a models.py of somebody else lies where it was started."""
    (installed.here / "models.py").write_text("raise SystemExit('not ours')", encoding="utf-8")
    words = ["--book", f"{demo.name}/larkfield.book", "--out", "pictures"]
    done = installed.run(installed.python, "-P", "-c", ONE_TABLET, *words)
    (installed.here / "models.py").unlink()
    assert (done.returncode, done.stderr) == (0, "")
    drawn = [installed.here / path for path in json.loads(done.stdout)["pictures"]]

    assert {f"{place}-portrait-tiny.png" for place in PLACES} <= {path.name for path in drawn}
    assert all(path.read_bytes().startswith(b"\x89PNG") for path in drawn)


@pytest.mark.skipif(not IS_FRESH, reason="three minutes of drawing: bash .setup/test wheel")
def test_every_picture_of_the_checkout_is_drawn(installed: Installation, tmp_path: Path) -> None:
    """``crewapp pictures`` draws the demo's pages on each tablet, as many as the checkout does."""
    words = [sys.executable, "-m", "crewapp", "pictures", "--out", str(tmp_path)]
    subprocess.run(words, cwd=ROOT, check=True, capture_output=True)
    installed.crewapp("pictures", "--out", "all")

    drawn = {path.name for path in (installed.here / "all").iterdir()}
    assert drawn == {path.name for path in tmp_path.iterdir()}


@pytest.mark.skipif(not os.environ.get("DISPLAY"), reason="no X server: DISPLAY is not set")
def test_app_opens_on_a_screen(installed: Installation, demo: Path) -> None:
    """A window on a real X server; behind its first frame the book is opened and shown."""
    set_up = installed.run(installed.python, "-c", ON_A_BOOK, f"{demo.name}/larkfield.book")
    assert set_up.returncode == 0, set_up.stderr
    app = subprocess.Popen(
        [installed.command],
        cwd=installed.here,
        env=passed_on() | installed.surroundings() | {"SDL_VIDEODRIVER": "x11"},
        stderr=subprocess.PIPE,
        text=True,
    )
    try:
        look = ["xdotool", "search", "--sync", "--onlyvisible", "--pid", str(app.pid)]
        assert subprocess.run(look, capture_output=True, text=True, check=True).stdout
        face = shown(installed.here / "home", app)
    finally:
        app.terminate()
        said = app.communicate()[1]
    assert face["book"] == str(demo / "larkfield.book")
    assert "Traceback" not in said


def shown(home: Path, app: subprocess.Popen[str]) -> dict[str, str]:
    """Wait until the app has shown Today for its book; return what it then keeps of it."""
    end = time.monotonic() + START_S
    while time.monotonic() < end:
        assert app.poll() is None, "the app ended"
        for kept in home.rglob("today.json"):
            with suppress(ValueError):
                told: dict[str, str] = json.loads(kept.read_text(encoding="utf-8"))
                return told
        time.sleep(0.1)
    raise AssertionError("Today was never shown")
