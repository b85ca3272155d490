"""The app starts fast: what is heavy is imported when it is first needed."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.house.tree import ROOT

HEAVY = {"sqlalchemy", "pydantic", "fpdf", "uharfbuzz", "xlsxwriter", "plyer", "fontTools"}


def loaded_by(module: str, home: Path) -> set[str]:
    """Return the outside libraries that importing one module brings with it."""
    code = f"import sys, {module}; print(*{{n.split('.')[0] for n in sys.modules}})"
    quiet = {"KIVY_NO_ARGS": "1", "KIVY_LOG_MODE": "PYTHON", "KIVY_HOME": str(home)}
    done = subprocess.run(
        [sys.executable, "-c", code],
        cwd=ROOT,
        env=os.environ | quiet | {"SDL_VIDEODRIVER": "offscreen"},
        capture_output=True,
        text=True,
        check=True,
    )
    return set(done.stdout.split())


@pytest.mark.parametrize("module", ["crewapp.cli", "crewapp.__main__", "crewapp.app"])
def test_nothing_heavy_is_loaded_on_the_way_in(module: str, tmp_path: Path) -> None:
    """Neither the command nor the app imports storage, models or sheets before it must."""
    assert loaded_by(module, tmp_path) & HEAVY == set()


def test_command_line_needs_no_window(tmp_path: Path) -> None:
    """A command of the office never waits for Kivy."""
    assert "kivy" not in loaded_by("crewapp.cli", tmp_path)
