"""What a start after the cut finds: all that was acknowledged, whole, or what is missing."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, field, replace
from pathlib import Path

from uuid6 import uuid7

from models.book.errors import BookError
from models.book.row import Draft, Row
from models.book.store import Book
from tests.power.recording import quick_folder
from tests.power.replay import Image

STREAM = "5f" * 16
BOOK = "green.book"


@dataclass(slots=True)
class Verdict:
    """How many images there were, and what was wrong with some."""

    images: int = 0
    lost: int = 0  # images in which something acknowledged is missing
    worst: int = 0  # most acknowledged things missing from one image
    damaged: list[str] = field(default_factory=list)

    def take(self, missing: int, damage: str | None) -> None:
        """Count one image."""
        self.images += 1
        self.lost += missing > 0
        self.worst = max(self.worst, missing)
        if damage is not None:
            self.damaged.append(damage)


Judge = Callable[[Image, Path], tuple[int, str | None]]
"""From an image, laid out as a folder, to what is missing and what is damaged."""


def judge_all(images: Iterable[Image], judge: Judge) -> Verdict:
    """Lay out each image in a folder of its own and judge it."""
    verdict = Verdict()
    for image in images:
        with quick_folder() as folder:
            verdict.take(*judge(image, image.lay(folder)))
    return verdict


def narrow(images: Iterable[Image]) -> Iterator[Image]:
    """Keep of each image the case that was being worked on, as a folder of its own."""
    for image in images:
        case = image.told[-1].split()[0] if image.told else ""
        told = tuple(
            line.removeprefix(f"{case} ") for line in image.told if line.startswith(f"{case} ")
        )
        files = {
            name.removeprefix(f"{case}/"): data
            for name, data in image.files.items()
            if name.startswith(f"{case}/")
        }
        if told:
            yield replace(image, told=told, files=files)


def taps_of(told: Sequence[str]) -> list[list[str]]:
    """Return the ids that each acknowledged tap had, without the word that the book is made."""
    return [line.split() for line in told if line != "made"]


def judge_book(image: Image, folder: Path) -> tuple[int, str | None]:
    """Open the image as the app does: every tap whole, the chain whole, and the book goes on."""
    path = folder / BOOK
    if not path.exists():
        if image.told:
            return max(1, len(taps_of(image.told))), None
        Book.create(path, stream=STREAM, reserve_bytes=10).close()  # what is left is in no way
        return 0, None
    try:
        with Book.open(path, stream=STREAM, reserve_bytes=10) as book:
            rows = list(book.rows())
            fault = fault_of(book, rows)
    except BookError as error:
        fault, rows = str(error), []
    if fault is not None:
        return 0, f"cut at {image.place}: {fault}"
    ids = {row.id for row in rows}
    return sum(not ids.issuperset(tap) for tap in taps_of(image.told)), None


def fault_of(book: Book, rows: Sequence[Row]) -> str | None:
    """Return what is wrong with an opened book, None if it is whole and can be written in."""
    if sum(row.kind == "note" for row in rows) % 2:
        return "half a tap is there"  # the taps of the watched program write notes in pairs
    book.commit_all([draft_of_one_more()])
    report = book.verify()
    return None if report.is_sound and not report.forks else f"not sound: {report}"


def draft_of_one_more() -> Draft:
    """Make an entry to show that the book goes on."""
    return Draft(
        id=str(uuid7()),
        kind="probe",
        v=1,
        body={"line_id": "L07", "depth_nm": 228_600_000},
        at_ms=1_780_000_000_000,
        offset_min=-300,
        zone="America/Chicago",
        author="Rhea",
        job="g7",
        day="2026-05-28",
    )


def judge_file(image: Image, folder: Path) -> tuple[int, str | None]:
    """Open the image with bare SQLite, for books that were written in ways that the app refuses."""
    ids: set[str] = set()
    damage = None
    with closing(sqlite3.connect(folder / BOOK)) as file:
        try:
            ids = {id for (id,) in file.execute("SELECT id FROM entry")}
            found = file.execute("PRAGMA integrity_check").fetchone()[0]
            damage = None if found == "ok" else f"cut at {image.place}: {found}"
        except sqlite3.DatabaseError as fault:
            damage = f"cut at {image.place}: {fault}"
    return sum(not ids.issuperset(tap) for tap in taps_of(image.told)), damage
