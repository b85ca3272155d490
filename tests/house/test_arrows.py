"""Who may import whom: the tables below are the architecture.

A module belongs to the longest row that names it. It may import its own row, the rows
named there, and the standard library; outside libraries as the second table says.
"""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

from tests.house.tree import ROOT, imports_of, is_within, modules, python_files, syntax, way_to

GROUND = {"models.counted", "models.errors", "models.units"}
FACTS = GROUND | {"models.entries", "models.plan"}
ON_STATE = FACTS | {
    "models.calculations",
    "models.figures",
    "models.indexes",
    "models.job_state",
}

MAY_IMPORT: dict[str, set[str]] = {
    "models": set(),
    "models.counted": set(),
    "models.errors": {"models.counted"},
    "models.units": {"models.counted", "models.errors"},
    "models.plan": GROUND,
    "models.entries": GROUND | {"models.plan"},  # an entry may carry a piece of the plan
    "models.plain_files": set(),
    "models.book": FACTS | {"models.plain_files"},
    "models.figures": GROUND,
    "models.calculations": FACTS,
    "models.level_notes": GROUND | {"models.calculations"},
    "models.plan_readers": GROUND | {"models.calculations"},
    "models.indexes": FACTS,
    "models.garbage": set(),
    "models.job_state": FACTS | {"models.calculations", "models.indexes", "models.garbage"},
    "models.check_code": ON_STATE,
    "models.line_bearings": FACTS | {"models.calculations"},
    "models.laying": FACTS | {"models.calculations", "models.line_bearings"},
    "models.tablet_code": {"models.counted", "models.errors"},
    "models.next_pass": ON_STATE,
    "models.sand_balance": ON_STATE | {"models.material_facts"},
    "models.shots": ON_STATE,
    "models.setup_chain": ON_STATE,
    "models.peg_tests": ON_STATE | {"models.setup_chain"},
    "models.setup_proof": ON_STATE | {"models.setup_chain", "models.shots"},
    "models.laid_pipe": ON_STATE | {"models.setup_chain", "models.shots"},
    "models.ground_cover": ON_STATE | {"models.laid_pipe"},
    "models.trench_depth": ON_STATE | {"models.ground_cover", "models.laid_pipe", "models.shots"},
    "models.go_ahead": ON_STATE | {"models.checks", "models.trench_depth"},
    "models.relay_advice": ON_STATE | {"models.laid_pipe", "models.shots"},
    "models.worked_lines": ON_STATE,
    "models.worked_days": ON_STATE,
    "models.first_readings": ON_STATE | {"models.shots"},
    "models.material_facts": ON_STATE,
    "models.gradings": ON_STATE,
    "models.takeoff_inputs": ON_STATE | {"models.material_facts"},
    "models.takeoff_prices": ON_STATE | {"models.takeoff_inputs"},
    "models.takeoff_told": ON_STATE | {"models.takeoff_inputs"},
    "models.takeoff_works": ON_STATE | {"models.shots", "models.takeoff_inputs"},
    "models.job_takeoff": ON_STATE
    | {"models.takeoff_inputs", "models.takeoff_prices", "models.takeoff_told"}
    | {"models.takeoff_works", "models.trench_depth"},
    "models.takeoff_changes": ON_STATE
    | {"models.job_takeoff", "models.takeoff_inputs", "models.takeoff_prices"},
    "models.work_record": ON_STATE,
    "models.sand_call": ON_STATE
    | {"models.job_takeoff", "models.sand_balance", "models.work_record"},
    "models.tomorrow_work": ON_STATE
    | {"models.next_pass", "models.sand_call", "models.work_record"},
    "models.progress": ON_STATE
    | {"models.sand_call", "models.tomorrow_work", "models.work_record", "models.worked_days"},
    "models.drainage_soil": FACTS | {"models.calculations"},
    "models.drainage_inputs": ON_STATE | {"models.drainage_soil", "models.laid_pipe"},
    "models.surface_drainage": ON_STATE | {"models.drainage_inputs"},
    "models.drainage_words": ON_STATE
    | {"models.drainage_inputs", "models.drainage_soil", "models.surface_drainage"},
    "models.after_rain": ON_STATE | {"models.surface_drainage"},
    "models.stakeout": ON_STATE
    | {"models.ground_cover", "models.next_pass", "models.shots", "models.trench_depth"},
    "models.tied_ends": FACTS | {"models.job_state"},
    "models.filled_text": {"models.figures"},
    "models.audit": ON_STATE | {"models.filled_text"},
    "models.measured_places": FACTS | {"models.job_state"},
    "models.checks": ON_STATE
    | {"models.after_rain", "models.audit", "models.filled_text", "models.tied_ends"}
    | {"models.trench_depth"}
    | {"models.tablet_code"}  # a fault of the book names the tablet that wrote it
    | {"models.garbage", "models.gradings", "models.ground_cover", "models.laid_pipe"}
    | {"models.material_facts", "models.measured_places", "models.peg_tests"}
    | {"models.sand_balance", "models.setup_chain", "models.setup_proof", "models.shots"},
    "sync": {"models"},
    "crewapp": {"models", "sync"},
}

ONLY_IN: dict[str, set[str]] = {
    "sqlalchemy": {"models.book", "sync.office"},
    # a GeoPackage is an SQLite file by its standard; it is made in memory, and no book
    "sqlite3": {"models.book", "sync.office", "sync.sheets.asbuilt.geopackage"},
    "shapely": {"models.calculations"},
    "numpy": {"models.calculations"},
    "fpdf": {"sync.sheets"},
    # Opens what anybody wrote: its forms and sizes are bounded there; the second reads its own.
    "PIL": {"sync.photo_copies", "crewapp.commands.readme_pictures"},
    "uharfbuzz": {"sync.sheets"},
    "xlsxwriter": {"sync.sheets"},
    "cryptography": {"sync.trust"},
    "ezdxf": {"sync.plan_dxf", "sync.sheets"},
    "fsspec": {"sync.stores"},
    "s3fs": {"sync.stores.objects"},
    "botocore": {"sync.stores.objects"},
    "paramiko": {"sync.stores"},
    "webdav4": {"sync.stores.webdav"},
    "httpx": {"sync.stores.webdav"},
    "psycopg": {"sync.office"},
    "kivy": {"crewapp"},
    "plyer": {"crewapp"},
}

NEVER_IN: dict[str, set[str]] = {
    "models.calculations": {"pydantic"},
    "crewapp.state": {"pydantic"},
}

WITHOUT_A_WINDOW = (
    "crewapp.state",
    "crewapp.actions",
    "crewapp.faces",
    "crewapp.open_job",
    "crewapp.paper",
    "crewapp.tablet",
    "crewapp.wording",
)

# Calculations get everything as arguments: no clock, no files, no machine to ask.
IMPURE_MODULES = {"io", "os", "pathlib", "secrets", "shutil", "socket", "sqlite3", "subprocess"}
IMPURE_MODULES |= {"asyncio", "tempfile", "threading", "time", "urllib", "uuid", "uuid6"}
IMPURE_CALLS = {"open", "input", "print", "now", "today", "utcnow", "read_text", "write_text"}


def layer_of(name: str) -> str:
    """Return the row of the table to which a module belongs."""
    rows = [row for row in MAY_IMPORT if is_within(name, row)]
    return max(rows, key=len)


def is_named(name: str, stem: str) -> bool:
    """Tell whether a module is the stem, inside it, or a sibling that prolongs its name."""
    return is_within(name, stem) or name.startswith(f"{stem}_")


def test_every_module_of_models_has_a_row() -> None:
    """A new part of models needs a row in the table before it may exist."""
    homeless = [n for n in modules() if n.startswith("models.") and layer_of(n) == "models"]

    assert homeless == []


def test_imports_point_one_way() -> None:
    """No module imports from a layer that its row does not name."""
    wrong = [
        f"{name} imports {other}"
        for name, path in modules().items()
        for other in sorted(imports_of(path))
        if other.split(".")[0] in {"models", "sync", "crewapp", "tests"}
        and not any(is_within(other, row) for row in {layer_of(name), *MAY_IMPORT[layer_of(name)]})
    ]

    assert wrong == []


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


def test_state_and_actions_never_reach_a_window() -> None:
    """Neither view state nor an action leads to Kivy or plyer, however long the way."""
    ways = [
        " -> ".join(way)
        for name in modules()
        if any(is_named(name, stem) for stem in WITHOUT_A_WINDOW)
        and (way := way_to(name, frozenset({"kivy", "plyer"})))
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


CALCULATIONS = [n for n in modules() if is_within(n, "models.calculations")]


@pytest.mark.parametrize("name", CALCULATIONS)
def test_calculation_depends_on_its_arguments_alone(name: str) -> None:
    """A calculation asks no clock, no file, no database and no chance without a seed."""
    assert impurities(modules()[name]) == []
