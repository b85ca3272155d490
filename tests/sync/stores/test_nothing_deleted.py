"""Stores only grow: no code of theirs can take a file of a job away."""

from __future__ import annotations

import ast

from tests.house.tree import ROOT, python_files, syntax

DELETING = {"unlink", "remove", "rm", "rm_file", "rmdir", "rmtree", "removedirs", "delete"}


def test_only_temporary_files_are_taken_away() -> None:
    """No code of the stores deletes anything but what it has just written under a passing name."""
    found = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path in python_files("sync/stores")
        for node in ast.walk(syntax(path))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr in DELETING
        and "fresh" not in {getattr(node.func.value, "id", ""), *map(_name_of, node.args)}
    ]

    assert found == []


def _name_of(node: ast.expr) -> str:
    """Return the name that an argument is, if it is one."""
    return getattr(node, "id", "")
