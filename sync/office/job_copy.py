"""Copy of a job in memory, folded from the office's entries, for sheets and checks."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from models.book.row import entry_of
from models.checks.flag_board import FlagBoard
from models.state.check_code import check_code
from models.state.job_state import JobState
from sync.exchange.job_key import is_job_key
from sync.office.database import Office, OfficeJob
from sync.office.errors import NoSuchJobError
from sync.papers.day.day_files import write_day_sheets

_SHOWN = 8


@dataclass(frozen=True, slots=True)
class JobCopy:
    """State and flags of a job, from all its entries."""

    job: OfficeJob
    state: JobState
    board: FlagBoard

    def print_day(self, day: str, folder: Path) -> tuple[list[Path], str]:
        """Write the sheet of a day, as the tablet writes it; return its files and check code.

        Raises
        ------
        sync.papers.day.facts.day.SheetDayError
            If ``day`` is no date.
        """
        files = write_day_sheets(self.state, self.board, day, folder)
        return list(files), check_code(self.state, day)


def load_job_copy(office: Office, named: str, now_ms: int) -> JobCopy:
    """Fold a job's entries anew.

    Raises
    ------
    NoSuchJobError
        If no job is called so, or several are.
    """
    job = find_job(office, named)
    state = JobState(map(entry_of, office.source_of(job.key).rows()))
    state.now_ms = now_ms
    return JobCopy(job, state, FlagBoard(state))


def find_job(office: Office, named: str) -> OfficeJob:
    """Return the job with a key, or with a key that begins so and no other does.

    Raises
    ------
    NoSuchJobError
        If there is none, or more than one.
    """
    jobs = office.jobs()
    if is_job_key(named):
        found = [job for job in jobs if job.key == named]
    else:
        found = [job for job in jobs if named and job.key.startswith(named)]
    if len(found) == 1:
        return found[0]
    known = ", ".join(job.key for job in (found or jobs)[:_SHOWN]) or "none yet"
    met = "more than one" if found else "no"
    raise NoSuchJobError(text=named[:60], met=met, jobs=known)
