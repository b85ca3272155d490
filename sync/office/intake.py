"""Intake of jobs into the office: from a store, from hand-over files, from books on a disk."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Final

from models.book.row import Row
from models.book.store import Book
from models.entries.tablet_code import code_of
from models.errors import CrewError
from sync.exchange.engine import exchange
from sync.exchange.errors import StoreHoldsLessError
from sync.exchange.exchange_log import RejectedSegment, known_job
from sync.exchange.job_folder import JobFolder
from sync.exchange.listing import find_jobs
from sync.exchange.request import ExchangeRequest, PhotoChoice
from sync.handover.file_store import HandoverStore
from sync.handover.taker import handover_request
from sync.office.database import Office
from sync.office.errors import NothingToTakeError, OfficeError, UnsoundBookError
from sync.segments.lines import line_fault
from sync.stores.contract import Store
from sync.trust.members import Job

BOOK: Final = ".book"
HANDOVER: Final = ".crew"
_PORTION = 5000

OnJob = Callable[[str, int, int], None]
"""Told the job or file that is taken, how many are done, and of how many."""


@dataclass(frozen=True, slots=True)
class IntakeResult:
    """Result of taking in a job from one place."""

    source: str
    job: str  # its key; "" if it could not be told
    new_rows: int = 0
    segments: int = 0
    aside: tuple[RejectedSegment, ...] = ()
    notes: tuple[str, ...] = ()
    cut: str = ""  # why it ended early, "" if it did not

    @property
    def is_complete(self) -> bool:
        """Whether everything that lay there is in the office."""
        return not (self.aside or self.notes or self.cut)


def take_store(
    office: Office,
    keep: Path,
    store: Store,
    terms: ExchangeRequest,
    only: Sequence[str] = (),
    on_job: OnJob | None = None,
) -> Iterator[IntakeResult]:
    """Take every job that a store holds, or those named; nothing is written to the store.

    A job that can't be taken does not keep the others from it.

    Parameters
    ----------
    office : Office
        Where they go.
    keep : Path
        Folder in which the segments of each job are kept, so that nothing is fetched twice.
    store : Store
        Where they are.
    terms : Terms
        How to exchange; it never sends and leaves photos where they are.
    only : sequence of str
        Keys of the jobs wanted; all if empty.
    on_job : callable, optional
        Told of each job before it is taken.

    Raises
    ------
    NothingToTakeError
        If the store has none of them.
    sync.stores.errors.StoreError
        If the store can't be listed.
    sync.office.errors.OfficeFailedError
        If the database gave up; what it had confirmed before stands.
    """
    here = [one.key for one in find_jobs(store)]
    keys = [key for key in here if key in only] if only else here
    if not keys:
        met = ", ".join(here[:5]) or "none"
        raise NothingToTakeError(why=f"the store {terms.where} has no such job, it has: {met}")
    told = replace(terms, sends=False, photos=PhotoChoice.NONE)
    for number, key in enumerate(keys):
        if on_job is not None:
            on_job(key, number, len(keys))
        yield _take_job(office, keep, store, told, key)


def take_files(
    office: Office, keep: Path, files: Iterable[Path], on_job: OnJob | None = None
) -> Iterator[IntakeResult]:
    """Take books and hand-over files, and all that lie in the folders named.

    A hand-over is judged like a store. A book is taken as it lies, once its chains hold:
    who names its path vouches for it.

    Raises
    ------
    NothingToTakeError
        If there is no such file among them.
    """
    found = sorted({file for path in files for file in _files_in(path)})
    if not found:
        raise NothingToTakeError(why="no book and no hand-over file lies there")
    for number, path in enumerate(found):
        if on_job is not None:
            on_job(path.name, number, len(found))
        try:
            if path.suffix == HANDOVER:
                yield from _take_handover(office, keep, path)
            else:
                yield _take_book(office, path)
        except OfficeError as fault:
            if not isinstance(fault, UnsoundBookError | NothingToTakeError):
                raise
            yield IntakeResult(str(path), "", cut=str(fault))
        except CrewError as fault:
            yield IntakeResult(str(path), "", cut=str(fault))


def segment_folder(keep: Path, key: str) -> JobFolder:
    """Where the segments of one job are kept by the office."""
    return JobFolder(keep / key, keep / key / "photos")


def _take_job(
    office: Office, keep: Path, store: Store, terms: ExchangeRequest, key: str
) -> IntakeResult:
    job_source = office.source_of(key)
    try:
        report = exchange(job_source, segment_folder(keep, key), store, Job("", key), terms)
    except StoreHoldsLessError as fault:
        return IntakeResult(terms.where, key, job_source.new_rows, cut=str(fault))
    job_source.note_founder(report.job.founder)
    notes = [*report.notes, *report.pictures.notes]
    if not report.job.founder and not report.cut:
        notes.append(f"Nothing of job {key} tells who founded it, so nothing of it was taken in.")
    return IntakeResult(
        terms.where,
        key,
        job_source.new_rows,
        report.fetched,
        report.aside,
        tuple(notes),
        report.cut,
    )


def _take_handover(office: Office, keep: Path, path: Path) -> Iterator[IntakeResult]:
    with HandoverStore(path) as store:
        terms = handover_request(path, ExchangeRequest(where=path.name))
        for taken in take_store(office, keep, store, terms):
            yield replace(taken, source=str(path))


def _take_book(office: Office, path: Path) -> IntakeResult:
    with Book.open(path, read_only=True) as book:
        job = known_job(book)
        proof = book.verify()
        if proof.faults or proof.structure:
            why = proof.structure[0] if proof.structure else proof.faults[0].what
            raise UnsoundBookError(path=path, why=why)
        job_source = office.source_of(job.key, job.founder)
        notes: list[str] = []
        for stream in book.heads():
            for portion in _portions(_fitting(book.of_stream(stream), notes)):
                job_source.import_rows(portion)
    return IntakeResult(str(path), job.key, job_source.new_rows, notes=tuple(notes))


def _fitting(rows: Iterable[Row], notes: list[str]) -> Iterator[Row]:
    """Rows of one stream up to the first that no segment could bring here."""
    for row in rows:
        if why := line_fault(row.raw):
            tablet = code_of(row.stream) or row.stream[:8]
            notes.append(
                f"Entry {row.seq} of tablet {tablet} was not taken in, nor what that tablet wrote "
                f"after it: {why}. The others are in."
            )
            return
        yield row


def _portions(rows: Iterator[Row]) -> Iterator[list[Row]]:
    portion: list[Row] = []
    for row in rows:
        portion.append(row)
        if len(portion) == _PORTION:
            yield portion
            portion = []
    if portion:
        yield portion


def _files_in(path: Path) -> list[Path]:
    if not path.is_dir():
        if not path.exists():
            raise NothingToTakeError(why=f"there is no {path}")
        return [path]
    return [one for one in path.iterdir() if one.suffix in {BOOK, HANDOVER} and one.is_file()]
