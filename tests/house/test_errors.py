"""Every exception raised on purpose has a code of its own and a sentence that can be said."""

from __future__ import annotations

import ast
import importlib
from collections import Counter
from collections.abc import Iterator
from string import Formatter

from models.errors import CrewError
from tests.house.tree import PACKAGES, ROOT, modules, python_files, syntax, way_to

WINDOWED = frozenset({"kivy", "plyer"})


def family(root: type[CrewError]) -> Iterator[type[CrewError]]:
    """Yield every class below a class, each once for every parent it has in the family."""
    for child in root.__subclasses__():
        yield child
        yield from family(child)


def is_root(error: type[CrewError]) -> bool:
    """Tell whether a class only holds a branch of the family together and is never raised."""
    return bool(error.__subclasses__()) and not {"code", "sentence"} & set(vars(error))


def gathers_facts_itself(error: type[CrewError]) -> bool:
    """Tell whether an error works its facts out of other arguments."""
    return "__init__" in vars(error)


def import_all() -> dict[str, str]:
    """Import all that needs no window and return what went wrong, by module."""
    broken = {}
    for name in modules():
        if not way_to(name, WINDOWED) and not name.endswith("__main__"):
            try:
                importlib.import_module(name)
            except ImportError as error:
                broken[name] = str(error)
    return broken


BROKEN = import_all()
ERRORS = [
    error
    for error in sorted(set(family(CrewError)), key=lambda e: e.__qualname__)
    if error.__module__.split(".")[0] in PACKAGES and not is_root(error)
]


def test_everything_without_a_window_can_be_imported() -> None:
    """Each module stands by itself, so that the family of errors is seen whole."""
    assert BROKEN == {}


def facts_of(error: type[CrewError]) -> set[str]:
    """Return the names that the sentence of an error is filled from."""
    return {name for _, name, _, _ in Formatter().parse(error.sentence) if name}


def unsayable(error: type[CrewError]) -> list[str]:
    """Return why the sentence of an error can't be said."""
    facts = dict.fromkeys(facts_of(error), 1)
    said = error.__new__(error)
    CrewError.__init__(said, **facts)
    wrong = {
        "a fact without a name": not all(name.isidentifier() for name in facts),
        "ends neither as a sentence nor as a list": not error.sentence.endswith((".", "?", "}")),
        "a fact is not filled in": "{" in str(said),
        "facts are lost": said.context != facts,
    }
    return [why for why, is_so in wrong.items() if is_so]


def test_sentences_can_be_said() -> None:
    """Each sentence takes facts by name, reads as a sentence, and the facts stay readable."""
    assert {error.__name__: why for error in ERRORS if (why := unsayable(error))} == {}
    assert len(ERRORS) > 100


def test_a_sentence_that_cannot_be_said_is_found() -> None:
    """The search names a planted sentence without its end."""

    class PlantedError(CrewError, ValueError):
        code = "planted"
        sentence = "Nothing was written: {why}, and so"

    assert unsayable(PlantedError) == ["ends neither as a sentence nor as a list"]


def test_codes_are_unique() -> None:
    """No two errors share a code, and none is without."""
    counts = Counter(error.code for error in ERRORS)

    assert {code: n for code, n in counts.items() if n > 1 or not code} == {}


def test_names_are_unique() -> None:
    """No two errors share a name, so that one word means one fault."""
    counts = Counter(error.__name__ for error in ERRORS)

    assert {name: n for name, n in counts.items() if n > 1} == {}


def test_every_raise_gives_the_facts_of_its_sentence() -> None:
    """Where an error is made by name, all that its sentence needs is handed over."""
    needs = {error.__name__: facts_of(error) for error in ERRORS if not gathers_facts_itself(error)}
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
