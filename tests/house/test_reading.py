"""What a book holds is read in one way that never raises, and instants made times in one place."""

from __future__ import annotations

import ast

from tests.house.tree import modules, syntax

READS_FOR_WRITING = {"models.entries.envelope"}
TIMES = "models.units.times"


def test_nobody_reads_a_kept_entry_in_a_way_that_raises() -> None:
    """``read_entry`` and ``read_body`` stay with who writes them: readers use ``entry_of``."""
    wrong = [
        f"{name}:{node.lineno}"
        for name, path in modules().items()
        if name not in READS_FOR_WRITING
        for node in ast.walk(syntax(path))
        if isinstance(node, ast.ImportFrom)
        and {alias.name for alias in node.names} & {"read_entry", "read_body"}
    ]

    assert wrong == []


def is_risky(node: ast.AST) -> bool:
    """Whether a call makes a time of milliseconds, which overflows past the years of a calendar."""
    if not isinstance(node, ast.Call):
        return False
    name = getattr(node.func, "attr", "") or getattr(node.func, "id", "")
    made_of_ms = name == "timedelta" and any(word.arg == "milliseconds" for word in node.keywords)
    return made_of_ms or name in {"fromtimestamp", "utcfromtimestamp"}


def test_instants_become_times_in_one_place() -> None:
    """Milliseconds become a day and an hour in ``models.units.times`` alone."""
    wrong = [
        f"{name}:{node.lineno}"
        for name, path in modules().items()
        if name != TIMES
        for node in ast.walk(syntax(path))
        if is_risky(node) and isinstance(node, ast.expr)
    ]

    assert wrong == []
    assert any(is_risky(node) for node in ast.walk(syntax(modules()[TIMES])))
