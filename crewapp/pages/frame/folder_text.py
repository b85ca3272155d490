"""A folder's path as people read it."""

from __future__ import annotations

from pathlib import Path


def folder_text(folder: str) -> str:
    """Return a folder's path as people read it: the user's own home is ``~``."""
    path, home = Path(folder), Path.home()
    return str("~" / path.relative_to(home)) if path.is_relative_to(home) else folder
