"""A watched program: the app's own job writes entries and acknowledges each that is inked."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from crewapp.job.open_job import NewEntry, OpenJob
from crewapp.tablet.clock import SetClock
from models.book.file import engine
from models.book.store import Book
from models.entries.bodies.day import Note
from models.entries.bodies.job import Job
from models.entries.bodies.passes import Probe
from tests.power.inside import Recorder

STREAM = "5f" * 16
INCH = 25_400_000


def weaken(mode: str) -> None:
    """Take away what makes the book last: "normal" syncs too seldom, "delete" has no log."""
    if mode == "normal":
        settings: dict[str, Any] = {name: (value, found) for name, value, found in engine._SETTINGS}
        settings["synchronous"] = ("NORMAL", 1)
        engine._SETTINGS = tuple((name, *told) for name, told in settings.items())  # type: ignore[assignment]
    if mode == "delete":
        engine.switch_to_wal = lambda connection, _path: connection.execute(  # type: ignore[assignment]
            "PRAGMA journal_mode = DELETE"
        )


def write_day(job: OpenJob, turn: int) -> tuple[NewEntry, ...]:
    """Make what one tap writes: mostly one entry, at times three that belong together."""
    probe = Probe(
        pass_id="G7-01",
        line_id=f"L{turn % 40:02}",
        along_nm=turn * 12 * INCH,
        depth_nm=9 * INCH,
        depth_typed="9",
    )
    if turn % 7:
        return (NewEntry(probe),)
    last = next(reversed(job.state.entries))
    return (
        NewEntry(probe),
        NewEntry(Note(text=f"tap {turn}")),
        NewEntry(Note(text=f"tap {turn}, put right"), strikes=(last,), reason="slip"),
    )


def main(folder: Path, mode: str, taps: int) -> None:
    """Make a book, or go on with the one that is there, and ink so many taps."""
    weaken(mode)
    recorder = Recorder()
    clock = SetClock("America/Chicago", 1_780_000_000_000)
    path = folder / "green.book"
    open_book = Book.open if path.exists() else Book.create
    job = OpenJob(open_book(path, stream=STREAM, reserve_bytes=10), clock, author="Rhea")
    recorder.tell("made")
    writings: tuple[NewEntry, ...] = (NewEntry(Job(job_id="g7", name="Green 7")),)
    for turn in range(1, taps + 1):
        inked = job.ink(*writings).entries
        recorder.tell(" ".join(entry.id for entry in inked))
        writings = write_day(job, turn)
    job.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]))
