"""The fast tier: which test files ``bash .setup/test fast`` runs, told by where they stand.

Of the folders of what can be tested without a tablet it takes the files that open no window,
start no other program and read no PDF, themselves or by what they import from the tests.
"""

from __future__ import annotations

import os
import re
from functools import cache
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[1]
IS_FAST: Final = os.environ.get("CREWAPP_TESTS") == "fast"
"""Set by ``bash .setup/test fast``."""

FOLDERS: Final = (
    *("tests/models", "tests/published", "tests/sync/papers", "tests/sync/segments"),
    *("tests/crewapp/handlers", "tests/crewapp/imports", "tests/crewapp/job"),
    *("tests/crewapp/kit/input", "tests/crewapp/pages", "tests/crewapp/tablet"),
)
"""Models and what is published of them, papers, handlers, imports, views and presenters."""

SLOW: Final = ("kivy", "tests.uidriver", "subprocess", "multiprocessing", "pypdf")
"""What a file of the tier imports none of: windows, other programs, a reader of PDFs."""

_IMPORT = re.compile(r"^\s*(?:from|import) ([\w.]+)", re.MULTILINE)


@cache
def imported(path: Path) -> frozenset[str]:
    """Return the modules that a file names, and those that its neighbours in the tests name."""
    found = set(_IMPORT.findall(path.read_text(encoding="utf-8")))
    for name in [name for name in found if name.startswith("tests.")]:
        beside = ROOT / f"{name.replace('.', '/')}.py"
        if beside.exists() and beside.name != "conftest.py" and beside != path:
            found |= imported(beside)
    return frozenset(found)


def slow_imports(path: Path) -> list[str]:
    """Return what keeps a file out of the tier."""
    names = imported(path)
    return [
        slow for slow in SLOW if any(name == slow or name.startswith(f"{slow}.") for name in names)
    ]


def is_in_folders(path: Path) -> bool:
    """Whether a file stands in one of the tier's folders, or a folder is one or leads to one."""
    place = path.relative_to(ROOT).as_posix()
    if path.is_dir():
        return any(f"{one}/".startswith(f"{place}/") for one in FOLDERS) or is_in_folders(
            path / "any.py"
        )
    return any(place.startswith(f"{folder}/") for folder in FOLDERS)


def is_fast(path: Path) -> bool:
    """Whether the tier takes a file, or looks into a folder."""
    return is_in_folders(path) and (path.is_dir() or not slow_imports(path))
