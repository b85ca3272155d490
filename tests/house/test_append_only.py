"""What leaves the tablet is never taken back: no code of sync deletes or renames a file."""

from __future__ import annotations

import ast
from pathlib import Path

from tests.house.tree import ROOT, python_files, syntax

TAKES_AWAY = {"unlink", "remove", "removedirs", "rmdir", "rmtree", "rm", "rm_file", "delete"}
TAKES_AWAY |= {"delete_object", "truncate", "rename", "renames", "move", "mv"}
PARTS_ALONE = {
    # What was still being written under another name; never a file that has its own.
    "sync/stores/folder.py",
    "sync/stores/sftp.py",
    "sync/stores/webdav.py",
    "sync/stores/object_store.py",
    "sync/stores/server_store.py",
    "sync/stores/secrets.py",
}
FILES = [
    path
    for path in python_files("sync")
    if "papers" not in path.parts and str(path.relative_to(ROOT)) not in PARTS_ALONE
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


def test_nothing_is_deleted() -> None:
    """Segments, photos and books of others stay where they are, whatever they hold."""
    found = {str(path.relative_to(ROOT)): takes_away(path) for path in FILES}

    assert {path: lines for path, lines in found.items() if lines} == {}


def test_a_deletion_is_found(tmp_path: Path) -> None:
    """The search sees a planted deletion, and leaves a writer's own unfinished part alone."""
    planted = tmp_path / "planted.py"
    planted.write_text("path.unlink()\npart.rename(name)\nrows.append(1)\n", "utf-8")

    assert takes_away(planted) == ["line 1: unlink"]
