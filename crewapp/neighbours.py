"""Makes sure that ``models`` and ``sync`` are crewapp's own, before either is imported.

Both names are plain words, and any other project may have a package or a ``models.py`` so
called. What Python would import first is looked up without importing it.
"""

from __future__ import annotations

import os
import sys
from importlib.machinery import ModuleSpec
from importlib.util import find_spec
from pathlib import Path

HOME = Path(__file__).parent.parent
"""The folder in which crewapp stands, and models and sync beside it."""

NAMES = ("models", "sync")
MARK = b'BELONGS_TO = "crewapp"'  # pip lets one package write over another and says nothing
CANNOT_START = 2
_ALONE = (
    "Install the wheel file you were given into an environment of its own, with uv tool install "
    "or pipx install."
)
_ELSEWHERE = "Start it from another folder."


class ForeignPackageError(SystemExit):
    """Package ``models`` or ``sync`` is somebody else's; the program ends with code 2."""

    def __init__(self, told: str) -> None:
        self.told = told
        super().__init__(CANNOT_START)


def stop_if_not_ours() -> None:
    """End the program with a sentence and exit code 2 if a neighbour is somebody else's.

    Raises
    ------
    ForeignPackageError
        With code 2, the sentence printed; nothing was imported or written.
    """
    told = find_foreign()
    if told:
        print(told, file=sys.stderr)
        raise ForeignPackageError(told)


def find_foreign() -> str:
    """Say in a sentence which neighbour Python would not find in its place; empty if none."""
    for name in NAMES:
        found = find_spec(name)
        if found is None or not _is_ours(found, name):
            return _sentence(name, found)
    return ""


def _is_ours(found: ModuleSpec, name: str) -> bool:
    """Tell whether what was found is the folder beside crewapp, and nobody wrote over it."""
    origin = Path(found.origin or "")
    try:
        in_place = origin.stem == "__init__" and os.path.samefile(origin.parent, HOME / name)
        return in_place and _has_mark(origin)
    except OSError:
        return False


def _has_mark(init: Path) -> bool:
    text = init.read_bytes()
    if init.suffix == ".py":
        return MARK in text.splitlines()
    return all(word in text for word in (b"BELONGS_TO", b"crewapp"))  # compiled: no lines


def _sentence(name: str, found: ModuleSpec | None) -> str:
    if found is None:
        return f"crewapp can't start: its package {name} is not in {HOME}. {_ALONE}"
    places = list(found.submodule_search_locations or [found.origin or "a place unknown"])
    told = f"crewapp can't start: Python finds another package named {name}, at {places[0]}"
    if _is_in_the_way(Path(places[0]).parent):
        return f"{told}, in the folder it was started from. {_ELSEWHERE}"
    return f"{told}. {_ALONE}"


def _is_in_the_way(folder: Path) -> bool:
    """Tell whether Python looks there only because it was started there, as ``-m`` does."""
    return folder == Path.cwd() != HOME and sys.path[0] in {"", str(folder)}
