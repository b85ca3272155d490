"""The source tree as the house tests read it: files, module names, and who imports whom.

Nothing here runs the code it reads; imports are taken from the syntax, also those
that stand inside functions.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from fnmatch import fnmatch
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGES = ("models", "sync", "crewapp")


@cache
def ignored_names() -> tuple[str, ...]:
    """Return the patterns of files that are not part of the project, .gitignore's and .git."""
    lines = (ROOT / ".gitignore").read_text(encoding="utf-8").split("\n")
    return (".git", *(line.strip().strip("/") for line in lines if line.strip()))


def walk(folder: Path) -> Iterator[Path]:
    """Yield every file of the project below a folder, in a stable order."""
    for path in sorted(folder.iterdir()):
        if any(fnmatch(path.name, pattern) for pattern in ignored_names()):
            continue
        if path.is_dir():
            yield from walk(path)
        else:
            yield path


@cache
def python_files(*folders: str) -> tuple[Path, ...]:
    """Return the Python files below the named folders of the top level."""
    return tuple(p for folder in folders for p in walk(ROOT / folder) if p.suffix == ".py")


@cache
def syntax(path: Path) -> ast.Module:
    """Return the syntax tree of a file."""
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def module_name(path: Path) -> str:
    """Return the dotted name by which a file is imported."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


@cache
def modules() -> dict[str, Path]:
    """Return every module of the three packages by its dotted name."""
    return {module_name(path): path for path in python_files(*PACKAGES)}


def is_within(name: str, package: str) -> bool:
    """Tell whether a dotted name is a package or lies inside it."""
    return name == package or name.startswith(f"{package}.")


def imported_names(node: ast.AST) -> Iterator[str]:
    """Yield the dotted names that one import statement reaches, as deep as it says."""
    if isinstance(node, ast.Import):
        yield from (alias.name for alias in node.names)
    elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
        for alias in node.names:
            deeper = f"{node.module}.{alias.name}"
            yield deeper if deeper in modules() else node.module


@cache
def imports_of(path: Path) -> frozenset[str]:
    """Return every dotted name that a file imports, at any depth of its code."""
    return frozenset(name for node in ast.walk(syntax(path)) for name in imported_names(node))


def way_to(start: str, libraries: frozenset[str]) -> list[str]:
    """Return the chain of imports from a module to one of the libraries, empty if none."""
    trails = [[start]]
    seen = {start}
    while trails:
        trail = trails.pop()
        for name in sorted(imports_of(modules()[trail[-1]])):
            if name.split(".")[0] in libraries:
                return [*trail, name]
            if name in modules() and name not in seen:
                seen.add(name)
                trails.append([*trail, name])
    return []
