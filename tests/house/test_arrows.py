"""Who may import whom: tests/house/arrows.tsv is the architecture, a row a folder.

A row says its floor, what never changes in it, and which rows it may import; a module belongs
to the longest row that names it. Arrows lead down, or stay within one part. Outside libraries
stay where the tables below say.
"""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

from tests.house.tree import (
    PACKAGES,
    ROOT,
    imports_of,
    is_within,
    modules,
    python_files,
    syntax,
    way_to,
)

TABLE = ROOT / "tests" / "house" / "arrows.tsv"

FREE = ("models.counted", "models.errors", "models.units")
"""Rows that every row above them may import; crewapp has two more."""
FREE_IN_CREWAPP = ("crewapp.kit.look", "crewapp.words")

PARTS = (
    *("models.entries", "crewapp.cli"),
    *("crewapp.pages.day", "crewapp.pages.grade", "crewapp.pages.plan"),
)
"""Folders that share a floor with those inside them, since they lean on each other."""

MOST_FILES = 20

# What the last word of a page's module says of it.
WITHOUT_A_WINDOW_BY_NAME = {
    *("view", "presenter", "form", "forms", "fields", "options", "chips", "places"),
    *("drawing", "text", "line", "request", "library", "transfers"),
}
WITH_A_WINDOW_BY_NAME = {
    *("page", "part", "parts", "sheet", "keys", "controller", "controllers"),
    *("runner", "writer", "requests"),
}
NAMED_FREELY = ("crewapp.pages.frame", "crewapp.pages.day.forms")
"""The frame has no feature; of the day's forms each is named for what it asks."""


@dataclass(frozen=True)
class Row:
    """A row of the table."""

    floor: int
    invariant: str
    may_import: frozenset[str]


@cache
def table() -> dict[str, Row]:
    """Return every row by its name."""
    rows = {}
    for line in TABLE.read_text(encoding="utf-8").splitlines()[1:]:
        name, floor, invariant, targets = line.split("\t")
        rows[name] = Row(int(floor), invariant, frozenset(targets.replace("-", "").split()))
    return rows


ONLY_IN: dict[str, set[str]] = {
    "sqlalchemy": {"models.book", "sync.office"},
    # a GeoPackage is an SQLite file by its standard; it is made in memory, and no book
    "sqlite3": {"models.book", "sync.office", "sync.papers.asbuilt.geodata.geopackage"},
    "shapely": {"models.science"},
    "numpy": {"models.science"},
    "fpdf": {"sync.papers"},
    # Opens what anybody wrote: its forms and sizes are bounded there; the second reads its own.
    "PIL": {"sync.photo_copies", "crewapp.cli.readme_pictures"},
    "uharfbuzz": {"sync.papers"},
    "xlsxwriter": {"sync.papers"},
    "cryptography": {"sync.trust"},
    "ezdxf": {"sync.dxf_import.outlines_dxf", "sync.papers"},
    "fsspec": {"sync.stores"},
    "s3fs": {"sync.stores.object_store"},
    "botocore": {"sync.stores.object_store"},
    "paramiko": {"sync.stores"},
    "webdav4": {"sync.stores.webdav"},
    "httpx": {"sync.stores.webdav"},
    "psycopg": {"sync.office"},
    "kivy": {"crewapp"},
    "plyer": {"crewapp"},
}

NEVER_IN: dict[str, set[str]] = {
    "models.science": {"pydantic"},
    "crewapp.kit": {"pydantic"},
    "crewapp.pages": {"pydantic"},
}

WITHOUT_A_WINDOW = (
    "crewapp.demo",
    "crewapp.handlers",
    "crewapp.imports",
    "crewapp.job",
    "crewapp.kit.drawing.plan_fingers",
    "crewapp.kit.drawing.plan_labels",
    "crewapp.kit.drawing.plan_picture",
    "crewapp.kit.input",
    "crewapp.kit.look.palette",
    "crewapp.pages.day.forms",
    "crewapp.tablet",
    "crewapp.words",
)

# Calculations get everything as arguments: no clock, no files, no machine to ask.
IMPURE_MODULES = {"io", "os", "pathlib", "secrets", "shutil", "socket", "sqlite3", "subprocess"}
IMPURE_MODULES |= {"asyncio", "tempfile", "threading", "time", "urllib", "uuid", "uuid6"}
IMPURE_CALLS = {"open", "input", "print", "now", "today", "utcnow", "read_text", "write_text"}


def row_of(name: str) -> str:
    """Return the row of the table to which a module belongs, "" for none."""
    return max((row for row in table() if is_within(name, row)), key=len, default="")


def part_of(row: str) -> str:
    """Return the part whose folders share a floor, or the row itself."""
    return next((part for part in PARTS if is_within(row, part)), row)


def may_import(row: str, target: str) -> bool:
    """Tell whether the table lets a row import another."""
    rows = table()
    free = FREE + (FREE_IN_CREWAPP if is_within(row, "crewapp") else ())
    is_free = target in free and rows[target].floor < rows[row].floor
    return row == target or target in rows[row].may_import or is_free


def wrong_imports(name: str, others: Iterable[str]) -> list[str]:
    """Return which of a module's imports its row does not name."""
    ours = [one for one in others if one.split(".")[0] in {*PACKAGES, "tests"}]
    return [
        f"{name} imports {other}"
        for other in sorted(ours)
        if row_of(other) == "" or not may_import(row_of(name), row_of(other))
    ]


def folder_of(name: str, path: Path) -> str:
    """Return the dotted name of the folder that a module lies in."""
    return name if path.name == "__init__.py" else name.rpartition(".")[0]


def without_row(files: Mapping[str, Path]) -> list[str]:
    """Return the folders that have no row of their own."""
    return sorted({folder_of(name, path) for name, path in files.items()} - table().keys())


def test_every_folder_has_a_row_and_every_row_a_folder() -> None:
    """A new folder needs a row before it may exist, and a row goes with its folder."""
    assert without_row(modules()) == []
    assert [row for row in table() if row not in modules()] == []


def test_imports_point_one_way() -> None:
    """No module imports from a row that its own does not name."""
    wrong = [
        one for name, path in modules().items() for one in wrong_imports(name, imports_of(path))
    ]

    assert wrong == []


def test_faults_are_found() -> None:
    """Planted: a folder without a row, an arrow up, an arrow to nowhere, a window in a view."""
    here = ROOT / "models" / "cellar" / "box.py"
    assert without_row({"models.cellar.box": here}) == ["models.cellar"]
    assert wrong_imports("models.state.job_state", ["models.checks.finding", "models.units"]) == [
        "models.state.job_state imports models.checks.finding"
    ]
    assert wrong_imports("crewapp.cli.check", ["tests.house.tree"]) != []
    assert wrong_imports("models.errors", ["models.units"]) != []
    assert wrong_imports("sync.stores.folder", ["crewapp.words.translate"]) != []
    assert is_never_in_a_window("crewapp.pages.plan.takeoff_presenter")
    assert not is_never_in_a_window("crewapp.pages.plan.takeoff_part")
    assert unnamed("crewapp.pages.plan.take_off")
    assert not unnamed("crewapp.pages.plan.list_part")


def test_every_arrow_leads_down() -> None:
    """From a floor to a lower one, so that there is no circle; within a part floors are one."""
    rows = table()
    wrong = [
        f"{name} -> {target}"
        for name, row in rows.items()
        for target in row.may_import
        if target not in rows
        or (
            rows[target].floor >= row.floor
            if part_of(name) != part_of(target)
            else rows[target].floor != row.floor
        )
    ]

    assert wrong == []


def test_no_arrow_is_left_over() -> None:
    """An arrow that nothing needs any more goes from the table."""
    used: dict[str, set[str]] = {row: set() for row in table()}
    for name, path in modules().items():
        used[row_of(name)] |= {row_of(other) for other in imports_of(path)}
    left = [
        f"{name} -> {target}"
        for name, row in table().items()
        for target in sorted(row.may_import - used[name])
    ]

    assert left == []


def test_packages_say_what_never_changes_in_them() -> None:
    """The first line of a folder's docstring is its row's invariant."""
    wrong = [
        name
        for name, row in table().items()
        if modules()[name].name == "__init__.py"
        and (ast.get_docstring(syntax(modules()[name])) or "").split("\n")[0] != f"{row.invariant}."
    ]

    assert wrong == []


def test_folders_can_be_looked_over() -> None:
    """No folder holds more than twenty files."""
    held = Counter(folder_of(name, path) for name, path in modules().items())

    assert {folder: count for folder, count in held.items() if count > MOST_FILES} == {}


def last_word(name: str) -> str:
    """Return the last word of a module's own name."""
    return name.rpartition(".")[2].rpartition("_")[2]


def is_of_a_page(name: str) -> bool:
    """Tell whether a module is named by what it is in its feature."""
    freely = any(is_within(name, folder) for folder in NAMED_FREELY)
    return is_within(name, "crewapp.pages") and name not in table() and not freely


def unnamed(name: str) -> bool:
    """Tell whether the name of a page's module does not say what kind of file it is."""
    kinds = WITHOUT_A_WINDOW_BY_NAME | WITH_A_WINDOW_BY_NAME
    return is_of_a_page(name) and last_word(name) not in kinds


def is_never_in_a_window(name: str) -> bool:
    """Tell whether a module must not lead to Kivy, by its place or by its name."""
    by_place = any(is_within(name, row) for row in WITHOUT_A_WINDOW)
    return by_place or (is_of_a_page(name) and last_word(name) in WITHOUT_A_WINDOW_BY_NAME)


def test_names_of_pages_say_what_they_are() -> None:
    """Each file of a feature ends in a word that says its kind: view, presenter, page, part."""
    assert [name for name in modules() if unnamed(name)] == []


def test_libraries_stay_in_their_homes() -> None:
    """A library is imported only where the table gives it a home."""
    wrong = [
        f"{name} imports {other}, kept in {sorted(homes)}"
        for name, path in modules().items()
        for other in sorted(imports_of(path))
        if (homes := ONLY_IN.get(other.split(".")[0]))
        and not any(is_within(name, home) for home in homes)
    ]

    assert wrong == []


def test_libraries_stay_out_where_they_are_unwanted() -> None:
    """Calculations and view state are plain Python, without pydantic."""
    wrong = [
        f"{name} imports {other}"
        for name, path in modules().items()
        for row, unwanted in NEVER_IN.items()
        for other in sorted(imports_of(path))
        if is_within(name, row) and other.split(".")[0] in unwanted
    ]

    assert wrong == []


def test_views_and_handlers_never_reach_a_window() -> None:
    """Neither a view, a presenter nor a handler leads to Kivy or plyer, however long the way."""
    ways = [
        " -> ".join(way)
        for name in modules()
        if is_never_in_a_window(name) and (way := way_to(name, frozenset({"kivy", "plyer"})))
    ]

    assert ways == []


def test_imports_are_absolute() -> None:
    """No relative import hides from these tests."""
    wrong = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path in python_files("models", "sync", "crewapp", "tests")
        for node in ast.walk(syntax(path))
        if isinstance(node, ast.ImportFrom) and node.level
    ]

    assert wrong == []


def test_every_library_is_declared() -> None:
    """An outside library that the packages import is in pyproject.toml, not there by luck."""
    facts = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    extras = facts["project"]["optional-dependencies"]
    wanted = facts["project"]["dependencies"] + extras["plan"] + extras["sync"]
    wanted += extras["office"]
    declared = {re.split(r"[<>=!~;\[ ]", d)[0].lower() for d in wanted}
    known = {*sys.stdlib_module_names, "models", "sync", "crewapp"}
    providers = packages_distributions()
    missing = {
        f"{name} imports {other}"
        for name, path in modules().items()
        for other in {n.split(".")[0] for n in imports_of(path)} - known
        if not declared & {d.lower() for d in providers.get(other, [])}
    }

    assert missing == set()


def impurities(path: Path) -> list[str]:
    """Return what in a calculation depends on more than its arguments."""
    found = [f"imports {n}" for n in imports_of(path) if n.split(".")[0] in IMPURE_MODULES]
    for node in ast.walk(syntax(path)):
        if isinstance(node, ast.Call):
            name = getattr(node.func, "id", None) or getattr(node.func, "attr", "")
            unseeded = name == "Random" and not node.args
            if name in IMPURE_CALLS or unseeded:
                found.append(f"calls {name} in line {node.lineno}")
        elif isinstance(node, ast.Attribute) and getattr(node.value, "id", "") == "random":
            found += [f"uses random.{node.attr}"] if node.attr != "Random" else []
    return found


CALCULATIONS = [n for n in modules() if is_within(n, "models.science")]


@pytest.mark.parametrize("name", CALCULATIONS)
def test_calculation_depends_on_its_arguments_alone(name: str) -> None:
    """A calculation asks no clock, no file, no database and no chance without a seed."""
    assert impurities(modules()[name]) == []
