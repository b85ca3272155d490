"""A watched program whose storage fails: each case is a book of its own, met by one fault.

A tap that raises is tapped again, as a user does, until it is inked. What is acknowledged is
told with the case's folder before it.
"""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

from crewapp.job.open_job import NewEntry, OpenJob
from crewapp.tablet.clock import SetClock
from models.book.errors import CommitUncertainError, NotCommittedError
from models.book.store import Book
from models.entries.bodies.job import Job
from tests.power.inking_child import STREAM, write_day
from tests.power.inside import Recorder

TAPS_BEFORE, TRIES_UNDER_FAULT, TAPS_IN_ALL = 4, 12, 20


def has_inked(job: OpenJob, writings: tuple[NewEntry, ...], recorder: Recorder) -> bool:
    """Tap once; acknowledge what the app called inked."""
    try:
        inked = job.ink(*writings).entries
    except (CommitUncertainError, NotCommittedError):
        return False
    recorder.tell(" ".join([job.book.path.parent.name, *(entry.id for entry in inked)]))
    return True


def open_job(path: Path) -> OpenJob:
    """Open or make a book."""
    is_there = path.exists()
    how = Book.open if is_there else Book.create
    book = how(path, stream=STREAM, reserve_bytes=10)
    job = OpenJob(book, SetClock("America/Chicago", 1_780_000_000_000), author="Rhea")
    if not is_there:
        job.ink(NewEntry(Job(job_id="g7", name="Green 7")))
    return job


def lay_durably(blank: Path, folder: Path) -> Path:
    """Put a copy of a book into a new folder, whole before the fault comes."""
    folder.mkdir()
    with (folder / blank.name).open("wb") as file:
        file.write(blank.read_bytes())
        file.flush()
        os.fsync(file.fileno())
    handle = os.open(folder, os.O_RDONLY)
    os.fsync(handle)
    os.close(handle)
    return folder / blank.name


def meet_fault(job: OpenJob, fault: tuple[str, int, str, bool], recorder: Recorder) -> int:
    """Write a book through one fault and on after it; return how many taps raised."""
    done = raised = tries = 0
    while done < TAPS_IN_ALL:
        if done == TAPS_BEFORE and not tries:
            recorder.plan_fault(*fault)
        tries += done >= TAPS_BEFORE
        if tries > TRIES_UNDER_FAULT:
            recorder.end_faults()
        writings = write_day(job, done)
        while not has_inked(job, writings, recorder):
            raised += 1
            tries += 1
            if tries > TRIES_UNDER_FAULT:
                recorder.end_faults()
        done += 1
    return raised


def main(folder: Path, cases: list[tuple[str, int, str, bool]]) -> None:
    """Go through all cases; tell how many taps raised in each."""
    recorder = Recorder()
    blank = folder / "green.book"
    open_job(blank).close()
    for number, fault in enumerate(cases):
        job = open_job(lay_durably(blank, folder / f"case-{number}"))
        print(meet_fault(job, fault, recorder))
        job.close()


if __name__ == "__main__":
    main(Path(sys.argv[1]), json.loads(sys.argv[2]))
