"""What leaves the tablet is never taken back: no code of sync deletes or renames a file."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.house.tree import ROOT, python_files, syntax

TAKES_AWAY = {"unlink", "remove", "removedirs", "rmdir", "rmtree", "rm", "rm_file", "delete"}
TAKES_AWAY |= {"delete_object", "truncate", "rename", "renames", "move", "mv"}
PARTS_ALONE = {
    # What was still being written under another name; never a file that has its own.
    "sync/stores/folder.py",
    "sync/stores/sftp.py",
    "sync/stores/webdav.py",
    "sync/stores/objects.py",
    "sync/stores/served.py",
    "sync/stores/secrets.py",
}
FILES = [
    path
    for path in python_files("sync")
    if "sheets" not in path.parts and str(path.relative_to(ROOT)) not in PARTS_ALONE
]


def takes_away(path: Path) -> list[str]:
    """Return where a module deletes, renames or empties a file."""
    return [
        f"line {node.lineno}: {node.func.attr}"
        for node in ast.walk(syntax(path))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr in TAKES_AWAY
        # A list of rows, and what a writer was still writing under another name.
        and getattr(node.func.value, "id", "") not in {"runs", "part"}
    ]


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_nothing_is_deleted(path: Path) -> None:
    """Segments, photos and books of others stay where they are, whatever they hold."""
    assert takes_away(path) == []
