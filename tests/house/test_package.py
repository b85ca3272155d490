"""What is installed looks for nothing in the checkout, and says what it needs."""

from __future__ import annotations

import importlib
import re
import tomllib
from typing import Any

from crewapp.version import VERSION
from tests.house.tree import PACKAGES, ROOT, walk

OUTSIDE = re.compile(r"parents\[|\bfixtures\b")
BY_NAME = re.compile(r"(?:pip|pipx|uv tool|uv pip) install [^\n`]*\bcrewapp(?![-\w.]*\.whl)[^\n`]*")
FLOOR = re.compile(r">=\s*\d")
PINNED_BY_ANOTHER = {"pydantic_core"}  # pydantic asks for one version of it


def settings() -> dict[str, Any]:
    """Return what pyproject.toml says."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_nothing_looks_outside_the_packages() -> None:
    """No file that is installed reaches above its package or to data of the tests.

    Pages for developers may name a test's data; the program reads none of them.
    """
    found = [
        f"{path.relative_to(ROOT)}: {match.group()}"
        for package in PACKAGES
        for path in walk(ROOT / package)
        if path.suffix in {".py", ".json", ".csv", ".kv"}
        for match in OUTSIDE.finditer(path.read_text(encoding="utf-8"))
    ]

    assert found == []


def test_nobody_is_told_to_install_what_no_registry_holds() -> None:
    """Crewapp is handed on as a wheel file: a sentence never has it fetched by its name."""
    pages = [path for path in walk(ROOT) if path.suffix in {".py", ".md", ".json"}]
    found = [
        f"{path.relative_to(ROOT)}: {match.group()}"
        for path in pages
        for match in BY_NAME.finditer(path.read_text(encoding="utf-8"))
    ]

    assert found == []


def test_no_module_is_taken_for_a_test() -> None:
    """Tests stand under tests: a file of the packages named as one would be installed."""
    named = [path.name for package in PACKAGES for path in walk(ROOT / package)]

    assert [name for name in named if name.startswith(("test_", "bench_", "conftest"))] == []


def test_every_requirement_has_a_lower_bound() -> None:
    """Without one an installer may take a release of ten years ago."""
    facts = settings()
    wanted = [*facts["build-system"]["requires"], *facts["project"]["dependencies"]]
    for extra in facts["project"]["optional-dependencies"].values():
        wanted += [one for one in extra if not one.startswith("crewapp[")]

    assert [one for one in wanted if not FLOOR.search(one)] == sorted(PINNED_BY_ANOTHER)


def test_version_stands_in_one_place() -> None:
    """The package's version is read from crewapp/version.py, and nobody else writes it down."""
    facts = settings()

    assert "version" not in facts["project"]
    assert facts["project"]["dynamic"] == ["version"]
    assert facts["tool"]["hatch"]["version"]["path"] == "crewapp/version.py"
    assert re.search(facts["tool"]["hatch"]["version"]["pattern"], version_file())


def version_file() -> str:
    """Return the text of the file of the version, which holds the version that is imported."""
    text = (ROOT / "crewapp" / "version.py").read_text(encoding="utf-8")
    assert f'"{VERSION}"' in text
    return text


def test_commands_lead_somewhere() -> None:
    """Each command of the installed program names a function that exists."""
    for target in settings()["project"]["scripts"].values():
        module, function = target.split(":")

        assert callable(getattr(importlib.import_module(module), function))
