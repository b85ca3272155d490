"""``crewapp --version``: which program this is, what it writes, and what it stands on."""

from __future__ import annotations

import argparse
import platform
from importlib.metadata import PackageNotFoundError, version

from crewapp.cli.example import Example
from crewapp.version import VERSION
from crewapp.words.translate import translate_later
from models.book.sqlite_version import sqlite_version
from models.book.steps import STEPS
from sync.segments.version import VERSION as SEGMENT

EXAMPLES = (
    Example("crewapp --version", translate_later("Which program this is, and what it stands on")),
)


def run(_: argparse.Namespace) -> int:
    """Print one line with the version; nothing that is slow to import is loaded."""
    print(
        f"crewapp {VERSION} (book {len(STEPS)}, segment {SEGMENT}) "
        f"Python {platform.python_version()}, {_kivy()}, SQLite {sqlite_version()}"
    )
    return 0


def _kivy() -> str:
    """Name Kivy's version as it was installed, without importing it, which would open a window."""
    try:
        return f"Kivy {version('kivy')}"
    except PackageNotFoundError:
        return "no Kivy"
