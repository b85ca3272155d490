"""Every module of the packages is reached from what a user starts, so that none lies dead.

A way leads along imports, at any depth of the code; along names of modules in texts, as
pages and their parts are named; from a command to its handler and from a query to its
presenter; and through the command line and the registries, which import by name what they find.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module

from crewapp.cli.modules import module_of
from crewapp.commands.command import Command
from crewapp.commands.query import Query
from crewapp.job.dispatch import module_for
from tests.house.tree import imports_of, is_within, modules, syntax

STARTS = ("crewapp.__main__", "crewapp.cli.main")
REGISTRIES = {"models.checks.registry": "check_", "models.audit.registry": "rule_"}

Ways = Mapping[str, frozenset[str]]


def texts_of(name: str) -> Iterator[str]:
    """Yield every text that stands in the code of a module."""
    for node in ast.walk(syntax(modules()[name])):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def kinds_in(name: str) -> list[type]:
    """Return the commands and queries that a module holds; it is imported only if it has any."""
    bases = {"Command", "Query"}
    has_any = any(
        isinstance(node, ast.ClassDef)
        and any(
            isinstance(one, ast.Name) and one.id in bases
            for base in node.bases
            for one in ast.walk(base)
        )
        for node in syntax(modules()[name]).body
    )
    if not has_any:
        return []
    held = vars(import_module(name)).values()
    return [
        one
        for one in held
        if isinstance(one, type) and issubclass(one, (Command, Query)) and one.__module__ == name
    ]


def named_in(name: str) -> Iterator[str]:
    """Yield what a module may import by its name: a text is a name or ``module:function``."""
    speaks_of_commands = name == "crewapp.cli.main" or name.endswith("arguments")
    for text in texts_of(name):
        yield text.partition(":")[0]
        if speaks_of_commands:
            yield module_of(text)
    yield from {module_for(kind) for kind in kinds_in(name)}
    if name in REGISTRIES:
        folder, stem = name.rpartition(".")[0], REGISTRIES[name]
        for other in modules():
            if is_within(other, folder) and other.rpartition(".")[2].startswith(stem):
                yield other


@cache
def ways() -> Ways:
    """Return for each module with code those that it imports, in whatever way."""
    return {
        name: (imports_of(path) | frozenset(named_in(name))) & modules().keys()
        for name, path in modules().items()
        if has_code(name)
    }


def is_run_by_itself(name: str) -> bool:
    """Tell whether a module is made to be run with ``python -m``."""
    return "__main__" in texts_of(name)


def has_code(name: str) -> bool:
    """Tell whether there is more in a module than the words that head a folder of data."""
    return len(syntax(modules()[name]).body) > 1


def unreached(known: Ways, starts: tuple[str, ...]) -> list[str]:
    """Return the modules to which no way leads; a package is reached with what is in it."""
    reached: set[str] = set()
    ahead = list(starts)
    while ahead:
        name = ahead.pop()
        if name not in reached:
            reached.add(name)
            ahead += known.get(name, ())
    return [name for name in known if not any(is_within(other, name) for other in reached)]


def starts() -> tuple[str, ...]:
    """Return what a user starts, and what runs by itself."""
    return (*STARTS, *filter(is_run_by_itself, modules()))


def test_every_module_is_reached() -> None:
    """What only tests import belongs to the tests, and what nothing imports to nobody."""
    assert unreached(ways(), starts()) == []


def test_a_dead_module_is_found() -> None:
    """One that nothing imports, and two that only import each other."""
    dead = {
        "models.left": frozenset({"models.errors"}),
        "models.one": frozenset({"models.other"}),
        "models.other": frozenset({"models.one"}),
    }

    assert unreached({**ways(), **dead}, starts()) == list(dead)


def test_a_module_that_loses_its_only_importer_is_found() -> None:
    """Ways by import, by a query, by the command line and by a registry are each cut once."""
    for lost in (
        "models.science.water.hooghoudt",
        "crewapp.pages.after_rain.presenter",
        "crewapp.cli.plan.gates",
        "models.checks.grade.check_belly",
    ):
        cut = {name: ways_on - {lost} for name, ways_on in ways().items()}
        assert lost in unreached(cut, starts())
        assert lost not in unreached(ways(), starts())
