"""The docstring of a calculation says what goes in, what comes out, in which unit.

That everything else has a docstring at all is the linter's business (rules D).
"""

from __future__ import annotations

import ast
import importlib
import inspect
import json
import re
import textwrap
from collections.abc import Callable
from typing import Any

from tests.house.tree import ROOT, is_within, modules, syntax

UNIT = re.compile(r"\[[^\]\n]+\]")
ENTRY = re.compile(r"^(\S[^\n]*)\n((?:[ ]+[^\n]*\n?|\n(?=[ ]))+)", re.M)


def public_functions() -> list[Callable[..., Any]]:
    """Return every function that models/science offers."""
    found: list[Callable[..., Any]] = []
    for name in modules():
        if is_within(name, "models.science"):
            module = importlib.import_module(name)
            found += [
                thing
                for word, thing in vars(module).items()
                if inspect.isfunction(thing) and thing.__module__ == name and word[0] != "_"
            ]
    return found


def section(function: Callable[..., Any], title: str) -> str:
    """Return the text under a heading of a docstring, empty if it is not there."""
    text = inspect.getdoc(function) or ""
    found = re.search(rf"^{title}\n-+\n(.*?)(?=^\w[\w ]*\n-{{3,}}$|\Z)", text, re.S | re.M)
    return found.group(1).strip("\n") + "\n" if found else ""


def described(text: str) -> dict[str, str]:
    """Return what a section says by the names it says it of (``a, b : int`` names two)."""
    return {
        name.strip().lstrip("*"): f"{head}\n{words}"
        for head, words in ENTRY.findall(text)
        for name in head.split(" : ")[0].split(",")
    }


def raised(function: Callable[..., Any]) -> set[str]:
    """Return the names of the exceptions that the function itself raises."""
    return {
        getattr(node.exc.func, "id", "")
        for node in ast.walk(ast.parse(textwrap.dedent(inspect.getsource(function))))
        if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call)
    }


def faults(function: Callable[..., Any]) -> list[str]:
    """Return what a reader of the docstring would miss."""
    parameters = described(section(function, "Parameters"))
    result = section(function, "Returns") or section(function, "Yields")
    wrong = [
        f"{name}: no unit in square brackets"
        for name, words in parameters.items()
        if not UNIT.search(words)
    ]
    if list(parameters) != list(inspect.signature(function).parameters):
        wrong.append(f"describes {list(parameters)}, takes {inspect.signature(function)}")
    gives_something = inspect.signature(function).return_annotation not in (None, "None")
    if gives_something and not UNIT.search(result):
        wrong.append("Returns: no unit in square brackets")
    wrong += [
        f"Raises: {name} is not named"
        for name in sorted(raised(function) - set(described(section(function, "Raises"))))
    ]
    wrong += [f"{t}: missing" for t in ("Notes", "Examples") if not section(function, t)]
    return (
        wrong if ">>> " in section(function, "Examples") else [*wrong, "Examples: nothing to run"]
    )


def test_docstrings_of_calculations_are_complete() -> None:
    """Parameters are the signature's, each number has its unit, limits and an example stand."""
    functions = public_functions()
    found = {f"{one.__module__}.{one.__name__}": faults(one) for one in functions}

    assert {name: poor for name, poor in found.items() if poor} == {}
    assert len(functions) > 100


def test_a_poor_docstring_is_found_out() -> None:
    """The reader of docstrings sees a missing name, unit, exception, note and example."""

    def poor(length_nm: int, share: int) -> int:
        """Halve a length.

        Parameters
        ----------
        length_nm : int
            What to halve.

        Returns
        -------
        half_nm : int
            The half.
        """
        if not share:
            raise ValueError("no share")
        return length_nm // 2

    assert [fault.split(":")[0] for fault in faults(poor)] == [
        "length_nm",
        "describes ['length_nm'], takes (length_nm",
        "Returns",
        "Raises",
        "Notes",
        "Examples",
        "Examples",
    ]


SCHEMA = ROOT / "fixtures" / "schema" / "entries.schema.json"
PRONOUNS = {
    *("one", "it", "its", "all", "both", "they", "this", "that", "these", "those", "such"),
    *("he", "she", "we", "what", "whatever", "which", "who", "whom", "whose", "whoever"),
    *("something", "somebody", "nothing", "nobody", "everything", "everybody", "anything"),
}
"""Words that stand for a subject which a first line has not named yet."""
RIDDLES = re.compile(
    r"(?<![-\w])(?:told|found|said|asked|shown|waiting|standing|worse|touched|garbage|remains"
    r"|lasting|errand|face|desk|trip|shelf|(?<!set )(?<!sets )aside|(?<!on )hand)(?![-\w])",
    re.I,
)
"""Words that only those who wrote the program read at once; "set aside" and "on hand" are plain."""


def first_lines(tree: ast.Module) -> dict[str, str]:
    """Return the first line of the module and of each public class and function, by its name."""
    lines = {"": (ast.get_docstring(tree) or "").split("\n")[0]}

    def walk(node: ast.Module | ast.ClassDef, place: str) -> None:
        for part in node.body:
            if isinstance(part, ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
                if part.name[0] != "_":
                    text = ast.get_docstring(part) or ""
                    lines[f"{place}{part.name}"] = text.split("\n")[0]
                if isinstance(part, ast.ClassDef):
                    walk(part, f"{place}{part.name}.")

    walk(tree, "")
    return {name: line for name, line in lines.items() if line}


def riddles(tree: ast.Module, schema: str = "") -> list[str]:
    """Return the first lines that name no subject, are too short, or speak in private words.

    A line that the published schema holds stays as it is: others read it there.
    """
    wrong = []
    for name, line in first_lines(tree).items():
        if json.dumps(line)[:-1] in schema:
            continue
        words = re.findall(r"[\w'`-]+", line)
        private = RIDDLES.search(re.sub(r"``.*?``", "", line))
        if len(words) < 4 or words[0].lower() in PRONOUNS or private:
            wrong.append(f"{name}: {line}")
    return wrong


def test_first_lines_say_what_a_thing_is() -> None:
    """A first line names its subject in four plain words or more, to whoever reads it alone."""
    schema = SCHEMA.read_text(encoding="utf-8")
    wrong = {
        name: lines for name, path in modules().items() if (lines := riddles(syntax(path), schema))
    }

    assert wrong == {}


def test_a_riddle_is_found_out() -> None:
    """A pronoun, a short line and a private word are each named; plain lines pass."""
    planted = '''
        """What was told of a shelf."""

        class Shelf:
            """Library of the books on a tablet; ``told`` is its text."""

            def rows(self) -> None:
                """All rows."""

        class Pen:
            """The hand that writes entries into a book."""

        class Stock:
            """Sand on hand, with loads that an exchange set aside."""

        def _inner() -> None:
            """It."""
    '''
    tree = ast.parse(textwrap.dedent(planted))
    found = riddles(tree)
    assert found == [
        ": What was told of a shelf.",
        "Shelf.rows: All rows.",
        "Pen: The hand that writes entries into a book.",
    ]
    assert riddles(tree, '{"description": "What was told of a shelf."}') == found[1:]
