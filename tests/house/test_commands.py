"""Every command has one handler and every query one presenter, and both are found by type."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import is_dataclass

import pytest

from crewapp.commands.command import Command
from crewapp.commands.day import LogNote
from crewapp.job.dispatch import answers, function_for, handles, module_for
from crewapp.job.open_job import JobChanges
from crewapp.pages.day.view import ReadClock
from tests.house.test_reached import kinds_in
from tests.house.tree import modules, python_files, syntax

CALL_BY_TEXT = re.compile(r"crewapp\.(?!pages\.[a-z_.]+:[A-Z])[a-z_.]+:[A-Za-z_]+")
"""A function named in a text; pages and their parts, which are classes, are found so."""


def kinds() -> list[type]:
    """Return every command and query of the program."""
    return [kind for name in modules() for kind in kinds_in(name)]


def texts_that_call(tree: ast.AST) -> Iterator[str]:
    """Yield the texts of a module that name a function to be called."""
    for node in ast.walk(tree):
        text = node.value if isinstance(node, ast.Constant) else None
        if isinstance(text, str) and CALL_BY_TEXT.fullmatch(text):
            yield text


def test_each_kind_is_carried_out_by_one_function_of_its_module() -> None:
    """The function stands where the kind says, and takes the job and the kind."""
    assert len(kinds()) > 60
    wrong = [
        kind.__name__
        for kind in kinds()
        if function_for(kind).__module__ != module_for(kind)
        or list(function_for(kind).__annotations__.values())[:2] != ["OpenJob", kind.__name__]
    ]

    assert wrong == []


def test_each_kind_is_a_frozen_value() -> None:
    """It can be compared, sent to another thread and kept; nobody alters it on the way."""
    for kind in kinds():
        assert is_dataclass(kind)
        params = vars(kind)["__dataclass_params__"]
        assert params.frozen, kind.__name__


def test_nothing_is_called_by_a_text() -> None:
    """A wrong name is found by the type checker, so no function is looked up by a text."""
    found = {
        f"{path.name}: {text}"
        for path in python_files("crewapp", "models", "sync", "tests")
        for text in texts_that_call(syntax(path))
        if path.name != "test_commands.py"
    }

    assert found == set()


def test_a_call_by_text_is_found() -> None:
    """A function is found; a part of a page, which is a class, is not."""
    tree = ast.parse('do("crewapp.handlers.day:log_note"); go("crewapp.pages.day.sign_part:Sign")')

    assert list(texts_that_call(tree)) == ["crewapp.handlers.day:log_note"]


def test_a_second_function_for_a_kind_is_refused() -> None:
    """Two handlers of one command would be one too many; so would two presenters of a query."""
    function_for(LogNote)
    with pytest.raises(TypeError, match="LogNote is taken already"):
        handles(LogNote)(lambda job, command: JobChanges(()))
    function_for(ReadClock)
    with pytest.raises(TypeError, match="ReadClock is taken already"):
        answers(ReadClock)(lambda job, query: 0)


def test_a_kind_without_a_handler_is_named() -> None:
    """A command that nobody carries out says so, and where its handler should stand."""

    class Nothing(Command):
        handler_module = "crewapp.handlers.day"

    with pytest.raises(LookupError, match=r"crewapp\.handlers\.day has nothing for Nothing"):
        function_for(Nothing)
