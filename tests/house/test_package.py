"""What is installed is what stands in the tree: data files go along, the command is there."""

from __future__ import annotations

import importlib
import tomllib
from fnmatch import fnmatch
from typing import Any

from tests.house.tree import PACKAGES, ROOT, walk


def settings() -> dict[str, Any]:
    """Return what pyproject.toml says."""
    return tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_data_files_are_installed_too() -> None:
    """Every file in the packages that is no Python has a pattern that takes it along."""
    patterns = settings()["tool"]["setuptools"]["package-data"]["*"]
    left = [
        str(path.relative_to(ROOT))
        for package in PACKAGES
        for path in walk(ROOT / package)
        if path.suffix != ".py" and not any(fnmatch(path.name, p) for p in patterns)
    ]

    assert left == []


def test_folders_of_code_are_packages() -> None:
    """Each folder with code has an __init__.py, without which it would not be installed."""
    folders = {path.parent for package in PACKAGES for path in walk(ROOT / package)}
    bare = {str(f.relative_to(ROOT)) for f in folders if not (f / "__init__.py").exists()}

    assert bare == set()


def test_commands_lead_somewhere() -> None:
    """Each command of the installed program names a function that exists."""
    for target in settings()["project"]["scripts"].values():
        module, function = target.split(":")

        assert callable(getattr(importlib.import_module(module), function))
