"""A folder's path as people read it."""

from __future__ import annotations

from pathlib import Path


def shown_folder(folder: str) -> str:
    """A folder as it is told: the user's own home is ``~``."""
    home = str(Path.home())
    return f"~{folder.removeprefix(home)}" if folder.startswith(home) else folder
