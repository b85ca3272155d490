"""Every calculation is reached by the program: what only tests call is a promise nobody can use.

Ways are read from the syntax: from what code outside the calculations takes of them, on
through the calculations' own calls. That modules are reached is test_reached's part.
"""

from __future__ import annotations

import ast
from functools import cache

from tests.house.tree import is_within, modules, syntax

CALCULATIONS = "models.science"

Function = tuple[str, str]
"""A module and the name of a function in it."""


def functions_of(name: str) -> dict[str, ast.FunctionDef]:
    """Return the functions at the top of a module, private ones too, by their names."""
    return {
        node.name: node
        for node in syntax(modules()[name]).body
        if isinstance(node, ast.FunctionDef)
    }


def taken_names(name: str) -> dict[str, Function]:
    """Return what a module imports of calculations: its own word for it, and what it is."""
    found: dict[str, Function] = {}
    for node in ast.walk(syntax(modules()[name])):
        if (
            isinstance(node, ast.ImportFrom)
            and node.module
            and is_within(node.module, CALCULATIONS)
        ):
            for alias in node.names:
                found[alias.asname or alias.name] = (node.module, alias.name)
    return found


def words_in(node: ast.AST) -> set[str]:
    """Return every name and attribute that a piece of code uses."""
    return {
        word
        for one in ast.walk(node)
        for word in (getattr(one, "id", None), getattr(one, "attr", None))
        if isinstance(word, str)
    }


def calls_of(name: str, node: ast.AST) -> set[Function]:
    """Return the functions of calculations that a piece of a module may call."""
    own, taken = functions_of(name), taken_names(name)
    found = {taken[word] for word in words_in(node) if word in taken}
    return found | {(name, word) for word in words_in(node) if word in own}


@cache
def started_from() -> frozenset[Function]:
    """Return what the program outside calculations takes, and what their modules do at import."""
    roots: set[Function] = set()
    for name, path in modules().items():
        if not is_within(name, CALCULATIONS):
            roots |= calls_of(name, syntax(path))
            continue
        for node in syntax(path).body:
            if not isinstance(node, ast.FunctionDef | ast.Import | ast.ImportFrom):
                roots |= calls_of(name, node)
    return frozenset(roots)


def reached_from(roots: frozenset[Function]) -> set[Function]:
    """Return every function that a way leads to; outside the calculations ways end."""
    seen: set[Function] = set()
    ahead = list(roots)
    while ahead:
        name, word = one = ahead.pop()
        if one in seen or name not in modules():
            continue
        seen.add(one)
        node = functions_of(name).get(word)
        if node is not None and is_within(name, CALCULATIONS):
            ahead += calls_of(name, node)
    return seen


def unreached(roots: frozenset[Function]) -> set[str]:
    """Return the public functions of the calculations that no way leads to."""
    reached = reached_from(roots)
    return {
        f"{name.removeprefix(CALCULATIONS + '.')}.{word}"
        for name in modules()
        if is_within(name, CALCULATIONS)
        for word in functions_of(name)
        if word[0] != "_" and (name, word) not in reached
    }


def test_every_calculation_is_reached_by_the_program() -> None:
    """A public function of models/science serves something that a person can do."""
    assert unreached(started_from()) == set()


def test_a_calculation_that_loses_its_only_way_is_found() -> None:
    """Nothing else takes the peg test, nor the spacing by which drain spacings are reached."""
    for module, word, lost in (
        ("levelling.collimation", "collimation_error", "levelling.collimation.collimation_error"),
        ("water.hooghoudt", "soil_spacing", "water.hooghoudt.drain_spacing"),
    ):
        left = started_from() - {(f"{CALCULATIONS}.{module}", word)}
        assert unreached(left) >= {lost}
