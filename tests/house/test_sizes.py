"""How long a module, a function and a test may be."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.house.tree import ROOT, python_files, syntax

MODULE_LINES = 300
FUNCTION_LINES = 40
TEST_LINES = 30
FILES = python_files("models", "sync", "crewapp", "tests")


def functions(path: Path) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Yield every function of a file, also those inside classes and functions."""
    for node in ast.walk(syntax(path)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield node


def length(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Return the lines from def to the end, less those of the docstring."""
    lines = (function.end_lineno or function.lineno) - function.lineno + 1
    if ast.get_docstring(function, clean=False) is None:
        return lines
    words = function.body[0]
    return lines - ((words.end_lineno or words.lineno) - words.lineno + 1)


def limit_for(path: Path, function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Return how many lines this function may have."""
    is_test = path.is_relative_to(ROOT / "tests") and function.name.startswith("test_")
    return TEST_LINES if is_test else FUNCTION_LINES


def name_of(path: Path) -> str:
    """Return the path as it reads from the top of the project."""
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize("path", FILES, ids=name_of)
def test_module_and_functions_are_short_enough(path: Path) -> None:
    """A module fits in 300 lines, a function in 40, a test in 30."""
    lines = len(path.read_text(encoding="utf-8").splitlines())
    long = [f"the module: {lines} lines"] if lines > MODULE_LINES else []
    long += [
        f"{function.name}: {length(function)} lines"
        for function in functions(path)
        if length(function) > limit_for(path, function)
    ]

    assert long == []
