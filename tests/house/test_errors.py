"""Every exception raised on purpose has a code of its own and a sentence that can be said."""

from __future__ import annotations

import ast
import importlib
from collections import Counter
from collections.abc import Iterator
from string import Formatter

import pytest

from models.errors import CrewError
from tests.house.tree import ROOT, imports_of, modules, python_files, syntax, way_to

WINDOWED = frozenset({"kivy", "plyer"})


def family(root: type[CrewError]) -> Iterator[type[CrewError]]:
    """Yield every class below a class, each once for every parent it has in the family."""
    for child in root.__subclasses__():
        yield child
        yield from family(child)


def load_errors() -> list[type[CrewError]]:
    """Import all that can be imported without a window and return the whole family."""
    for name, path in modules().items():
        ours = {"models.errors", "models", "CrewError"} & imports_of(path)
        if (ours or name == "models.errors") and not way_to(name, WINDOWED):
            importlib.import_module(name)
    return [
        error
        for error in sorted(set(family(CrewError)), key=lambda e: e.__qualname__)
        if error.__module__.split(".")[0] in {"models", "sync", "crewapp"}
    ]


ERRORS = load_errors()


def facts_of(error: type[CrewError]) -> set[str]:
    """Return the names that the sentence of an error is filled from."""
    return {name for _, name, _, _ in Formatter().parse(error.sentence) if name}


@pytest.mark.parametrize("error", ERRORS, ids=lambda e: e.__name__)
def test_sentence_can_be_said(error: type[CrewError]) -> None:
    """The sentence takes facts by name, reads as a sentence, and the facts stay readable."""
    facts = dict.fromkeys(facts_of(error), 1)
    said = error(**facts)

    assert all(name.isidentifier() for name in facts)
    assert error.sentence.endswith((".", "?", "}")), "ends neither as a sentence nor as a list"
    assert "{" not in str(said)
    assert said.context == facts


def test_codes_are_unique() -> None:
    """No two errors share a code, and none is without."""
    counts = Counter(error.code for error in ERRORS)

    assert {code: n for code, n in counts.items() if n > 1 or not code} == {}


def test_every_raise_gives_the_facts_of_its_sentence() -> None:
    """Where an error is made by name, all that its sentence needs is handed over."""
    needs = {error.__name__: facts_of(error) for error in ERRORS}
    short = []
    for path in python_files("models", "sync", "crewapp"):
        for node in ast.walk(syntax(path)):
            if not isinstance(node, ast.Call) or any(k.arg is None for k in node.keywords):
                continue
            name = str(getattr(node.func, "id", "") or getattr(node.func, "attr", ""))
            missing = needs.get(name, set()) - {str(k.arg) for k in node.keywords}
            if missing:
                short.append(f"{path.relative_to(ROOT)}:{node.lineno} {name} lacks {missing}")

    assert short == []
