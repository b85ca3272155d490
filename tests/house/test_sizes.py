"""How long a module, a function and a test may be: past a length worth a look, past a cap a fault.

A module of over 300 lines or a function of over 40 is listed as a warning, to be parted where its
subject parts. Only the caps fail: a rule must not cut what belongs together.
"""

from __future__ import annotations

import ast
import warnings
from collections.abc import Iterator
from pathlib import Path

from tests.house.tree import ROOT, python_files, syntax

MODULE_LINES, FUNCTION_LINES, TEST_LINES = 300, 40, 30
MODULE_CAP, FUNCTION_CAP, TEST_CAP = 400, 60, 40


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


def is_test(path: Path, name: str) -> bool:
    """Tell whether a function is a test."""
    return path.is_relative_to(ROOT / "tests") and name.startswith("test_")


def longer(path: Path, module: int, function: int, test: int) -> list[str]:
    """Return what in a file is longer than the lines given, with its own."""
    lines = len(path.read_text(encoding="utf-8").splitlines())
    found = [f"{path.name}: {lines} lines"] if lines > module else []
    return found + [
        f"{path.name}, {one.name}: {length(one)} lines"
        for one in functions(path)
        if length(one) > (test if is_test(path, one.name) else function)
    ]


def test_modules_and_functions_are_short_enough() -> None:
    """A module has at most 400 lines, a function 60, a test 40; from 300, 40, 30 it is listed."""
    files = python_files("models", "sync", "crewapp", "tests")
    long = [one for path in files for one in longer(path, MODULE_LINES, FUNCTION_LINES, TEST_LINES)]
    if long:
        with warnings.catch_warnings():
            warnings.simplefilter("default")
            warnings.warn("worth parting where the subject parts: " + "; ".join(long), stacklevel=1)

    found = [one for path in files for one in longer(path, MODULE_CAP, FUNCTION_CAP, TEST_CAP)]

    assert found == []


def test_what_is_too_long_is_found(tmp_path: Path) -> None:
    """A planted file shows that each cap can be broken, and that a docstring does not count."""
    planted = tmp_path / "test_planted.py"
    planted.write_text(
        'def short():\n    """' + "word\n" * 70 + '    """\n'
        "def long():\n" + "    x = 1\n" * 60 + "y = 1\n" * 400,
        "utf-8",
    )

    found = longer(planted, MODULE_CAP, FUNCTION_CAP, TEST_CAP)

    assert found == ["test_planted.py: 533 lines", "test_planted.py, long: 61 lines"]
