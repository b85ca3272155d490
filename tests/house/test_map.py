"""README.md and DEVELOPERS.md name only what is there, and the map leaves no folder out."""

from __future__ import annotations

import re

import pytest

from tests.house.tree import PACKAGES, ROOT, python_files, walk

PAGES = ["README.md", "DEVELOPERS.md"]
TOPS = "|".join(map(re.escape, [*PAGES, "pyproject.toml", *PACKAGES, "tests", "fixtures"]))
DOT_FOLDERS = r"\.ci|\.setup"
PATH = re.compile(rf"(?<![\w./-])(?:{TOPS}|{DOT_FOLDERS})(?:/[\w.*-]+)*/?")
LINK = re.compile(r"\]\(([^)#:\s]+)(?:#[^)]*)?\)")
FILE_NAME = re.compile(r"`([\w-]+\.(?:py|md|kv|toml|json|csv|ttf))`")


def paths_in(text: str) -> set[str]:
    """Return the paths that a page names: in prose, in code and behind links."""
    named = {found.rstrip("/.") for found in PATH.findall(text)}
    return named | set(LINK.findall(text))


def is_there(path: str) -> bool:
    """Tell whether a path, or at least one file of a pattern, exists."""
    return any(ROOT.glob(path)) if "*" in path else (ROOT / path).exists()


@pytest.mark.parametrize("page", PAGES)
def test_every_path_on_a_page_exists(page: str) -> None:
    """A path that a page names can be opened."""
    gone = [p for p in sorted(paths_in((ROOT / page).read_text("utf-8"))) if not is_there(p)]

    assert gone == []


@pytest.mark.parametrize("page", PAGES)
def test_every_file_named_alone_exists(page: str) -> None:
    """A file that a page names without its folder is somewhere in the project."""
    names = set(FILE_NAME.findall((ROOT / page).read_text("utf-8")))

    assert names - {path.name for path in walk(ROOT)} == set()


def test_map_shows_every_folder() -> None:
    """Each part of the three packages has its place there; arrows.tsv has every folder."""
    named = paths_in((ROOT / "DEVELOPERS.md").read_text("utf-8"))
    parts = {path.parent.relative_to(ROOT).parts[:2] for path in python_files(*PACKAGES)}
    folders = {"/".join(part) for part in parts}

    assert sorted(f for f in folders if not any(n.startswith(f) for n in named)) == []


def test_paths_are_read_from_a_page() -> None:
    """The reader of pages finds paths in prose and behind links, and leaves addresses alone."""
    page = "See `models/units.py`, sync/. [a](tests/x.png) [b](https://example.com/models/no.py)"

    assert paths_in(page) == {"models/units.py", "sync", "tests/x.png"}
