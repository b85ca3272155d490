"""The folder that the demo is made in: new, or in place of an earlier demo and of nothing else."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from crewapp.demo.story import DATA, STREAM
from crewapp.tablet.atomic_folders import atomic_folder, is_left_over
from models.book.errors import BookError
from models.book.store import Book
from models.errors import CrewError

BOOK = "larkfield.book"
FINISHED = "larkfield-finished.book"
SHEETS, PLAN, AS_BUILT, PAPERS = "sheets", "plan", "asbuilt", "papers"
_KINDS = {
    SHEETS: frozenset({".pdf", ".xlsx", ".csv"}),
    PLAN: frozenset({".pdf", ".xlsx", ".csv"}),
    PAPERS: frozenset({".json", ".csv"}),
    AS_BUILT: frozenset(
        {".pdf", ".xlsx", ".csv", ".dxf", ".geojson", ".kml", ".gpkg", ".xml", ".txt"}
    ),
}
"""Folders of the demo, and what it puts into each."""


class DemoFolderError(CrewError, OSError):
    """The demo was to be made in a folder that something else lives in."""

    code = "demo.folder"
    sentence = (
        "The demo was not made: {folder} {why}. Nothing was changed. "
        "A new or empty folder, or one that holds only an earlier demo, would be accepted: "
        "name it with --out."
    )


@contextmanager
def room_for_demo(folder: Path) -> Iterator[Path]:
    """Give an empty folder that takes the place of ``folder``, and of an earlier demo, at the end.

    Raises
    ------
    DemoFolderError
        If anything else is in it, or somebody wrote into the earlier demo's book, or the
        storage refuses; nothing was changed.
    """
    try:
        if folder.exists():
            _refuse_others(folder)
        with atomic_folder(folder) as fresh:
            yield fresh
    except (CrewError, BrokenPipeError):
        raise
    except OSError as fault:
        why = f"can't be used ({fault.strerror or fault})"
        raise DemoFolderError(folder=folder, why=why) from fault


def put_papers(folder: Path) -> list[Path]:
    """Put in what such a job is handed: a plan file, notes, levels, a sieve sheet, an outline.

    They are there to be read, and for the examples of the commands.
    """
    room = folder / PAPERS
    room.mkdir()
    handed = [DATA / "plan.json", *sorted((DATA / PAPERS).iterdir())]
    return [Path(shutil.copyfile(path, room / path.name)) for path in handed]


def _refuse_others(folder: Path) -> None:
    """Refuse a folder that holds anything but a demo that nobody wrote into."""
    for path in sorted(folder.iterdir()):
        if not _is_ours(path):
            raise DemoFolderError(folder=folder, why=f"holds {path.name}, which is no demo's")
    _refuse_used_book(folder)


def _is_ours(path: Path) -> bool:
    """Whether a demo made this: the book with what stands beside it, or the sheets."""
    if path.is_symlink():
        return False
    if is_left_over(path):
        return True
    if path.name in _KINDS and path.is_dir():
        kinds = _KINDS[path.name]
        return all(_is_printed(one, kinds) for one in path.rglob("*"))
    ends = ("", ".ballast", ".lock", ".part", "-wal", "-shm")
    beside = {f"{book}{end}" for book in (BOOK, FINISHED) for end in ends}
    return path.is_file() and path.name in beside


def _is_printed(path: Path, kinds: frozenset[str]) -> bool:
    if path.is_symlink():
        return False
    return path.is_dir() or (path.is_file() and path.suffix in kinds)


def _refuse_used_book(folder: Path) -> None:
    """Refuse a book that is in use, or that holds more than the demo wrote."""
    for name in (BOOK, FINISHED):
        if (folder / name).exists():
            _refuse_if_used(folder, name)


def _refuse_if_used(folder: Path, name: str) -> None:
    """Refuse one book that is in use, or that holds more than the demo wrote."""
    try:
        with Book.open(folder / name, stream=STREAM) as book:
            if book.read_only_reason:
                raise DemoFolderError(
                    folder=folder, why="holds a demo that is open in another window"
                )
            if set(book.heads()) - {STREAM}:
                raise DemoFolderError(
                    folder=folder, why="holds a demo that somebody has written in since"
                )
    except BookError as fault:
        why = f"holds {name}, which is no demo that can be opened"
        raise DemoFolderError(folder=folder, why=why) from fault
