"""The program as people get it: a wheel made of the sdist, in a new environment far away.

Usually the new environment borrows the libraries of the one that tests, so that nothing is
fetched again; ``bash .setup/test wheel`` fetches them all, as an installer would.
"""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import tarfile
from dataclasses import dataclass
from pathlib import Path

from tests.house.tree import ROOT

IS_FRESH = os.environ.get("CREWAPP_WHEEL") == "fresh"
PASSED_ON = ("PATH", "LANG", "LC_ALL", "DISPLAY", "XAUTHORITY", "LIBGL_ALWAYS_SOFTWARE")
BORROWED = "libraries-of-the-tests.pth"
PATIENCE_S = 900


def passed_on() -> dict[str, str]:
    """Return what of our environment the program may have: no PYTHONPATH, no settings."""
    return {name: os.environ[name] for name in PASSED_ON if name in os.environ}


def run(words: list[str], folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """Run a command in a folder with a home of its own and none of our environment."""
    return subprocess.run(
        words,
        cwd=folder,
        env=passed_on() | more,
        capture_output=True,
        text=True,
        check=False,
        timeout=PATIENCE_S,
    )


@dataclass(frozen=True, slots=True)
class Installation:
    """An environment with the wheel in it, and the empty folder from which it is used."""

    environment: Path
    here: Path

    @property
    def python(self) -> str:
        """The environment's Python."""
        return str(self.environment / "bin" / "python")

    @property
    def command(self) -> str:
        """The environment's ``crewapp``."""
        return str(self.environment / "bin" / "crewapp")

    def surroundings(self) -> dict[str, str]:
        """Return what the program may know of its user: a home of its own."""
        return {"HOME": str(self.here / "home")}

    def run(self, *words: str, **more: str) -> subprocess.CompletedProcess[str]:
        """Run a command of any kind there."""
        return run(list(words), self.here, **self.surroundings(), **more)

    def crewapp(self, *words: str) -> str:
        """Run ``crewapp`` as its user does; return what it printed."""
        done = self.run(self.command, *words)
        assert done.returncode == 0, done.stderr
        assert done.stderr == ""
        return done.stdout

    def install(self, wheel: Path, *more: str) -> None:
        """Put a wheel into the environment."""
        words = [sys.executable, "-m", "pip", "--python", self.python, "install", "--quiet"]
        done = subprocess.run(
            [*words, "--disable-pip-version-check", *more, str(wheel)],
            cwd=self.here,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr


def build(folder: Path) -> tuple[Path, Path]:
    """Build the sdist of this checkout, then the wheel of what the sdist holds; return both."""
    hatch = [sys.executable, "-m", "hatchling", "build", "-d", str(folder), "-t"]
    subprocess.run([*hatch, "sdist"], cwd=ROOT, check=True, capture_output=True)
    (sdist,) = folder.glob("*.tar.gz")
    with tarfile.open(sdist) as packed:
        packed.extractall(folder / "unpacked", filter="data")
    (source,) = (folder / "unpacked").iterdir()
    subprocess.run([*hatch, "wheel"], cwd=source, check=True, capture_output=True)
    (wheel,) = folder.glob("*.whl")
    return sdist, wheel


def install(wheel: Path, folder: Path, *, fresh: bool = IS_FRESH) -> Installation:
    """Make a new environment with the wheel in it, its libraries fetched or borrowed."""
    made = Installation(folder / "environment", folder / "elsewhere")
    made.here.mkdir()
    (made.here / "home").mkdir()
    assert ROOT not in made.here.resolve().parents
    make = [sys.executable, "-m", "venv", "--without-pip", str(made.environment)]
    subprocess.run(make, check=True, capture_output=True)
    if fresh:
        made.install(Path(f"{wheel}[all]"))
    else:
        (libraries,) = made.environment.glob("lib/python*/site-packages")
        (libraries / BORROWED).write_text(sysconfig.get_path("purelib"), encoding="utf-8")
        made.install(wheel, "--no-deps", "--no-index")
    return made
