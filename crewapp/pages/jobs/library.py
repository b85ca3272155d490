"""Library of book files on this tablet: list, create, copy, repair.

Work for the worker: it reads and writes files.
"""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Callable
from pathlib import Path
from typing import Any

from crewapp.demo.story import demo_job, work_days
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.imports.plan.plan_file import read_plan
from crewapp.job.open_job import OpenJob
from crewapp.pages.jobs.view import BookRow, JobsView, NewJob
from crewapp.tablet.clock import TabletClock
from crewapp.tablet.read_files import read_text
from crewapp.tablet.settings import Tablet
from crewapp.tablet.time_zone import tablet_zone
from crewapp.words.translate import say
from models.book.errors import BookDamagedError, BookError
from models.book.rescue import rescue_book
from models.book.store import Book
from models.errors import CrewError

SUFFIX = ".book"


class JobNameMissingError(CrewError, ValueError):
    """A job was to be started without a name."""

    code = "shelf.name_missing"
    sentence = "No job was started: its name is missing. Any name of up to 80 letters would do."


def library_view(
    tablet: Tablet,
    broken: frozenset[Path] = frozenset(),
    open_name: Callable[[], str] = lambda: "",
) -> JobsView:
    """Look at every book in the tablet's folder, and at plan files in its inbox.

    ``broken`` are books that turned out to be damaged when they were read whole;
    ``open_name`` tells which job is open.
    """
    books = sorted(tablet.books.glob(f"*{SUFFIX}"), key=lambda path: -path.stat().st_mtime)
    plans = sorted(path.name for path in inbox(tablet).glob("*.json"))
    handed = sorted(path.name for path in inbox(tablet).glob("*.crew"))
    return JobsView(
        tuple(_look(path, path in broken) for path in books),
        tuple(plans),
        str(inbox(tablet)),
        tuple(handed),
        open_name(),
    )


def inbox(tablet: Tablet) -> Path:
    """Folder that plan files are put into; made if it is not there."""
    folder = tablet.folder / "inbox"
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def start_job(tablet: Tablet, told: NewJob) -> Path:
    """Make a book with a job in it and, if its size was given, one rectangular surface.

    Raises
    ------
    JobNameMissingError
        If the job has no name; nothing is made.
    """
    if not told.name.strip():
        raise JobNameMissingError()
    plan = read_plan(Path("new job"), json.dumps(plan_of(told, tablet.settings().author)))
    return _make(tablet, told.name, plan)


_US_SLIT = {"width": "1 in", "width_tolerance": "1/4 in", "depth": "9 in", "under": "1/2 in"}
_US_SLIT |= {"over": "1 in", "probe_every": "25 ft", "probe_end": "5 ft"}
_METRIC_SLIT = {"width": "25 mm", "width_tolerance": "6 mm", "depth": "230 mm", "under": "13 mm"}
_METRIC_SLIT |= {"over": "25 mm", "probe_every": "8 m", "probe_end": "1.5 m"}
_COMMON_SLITS = {
    "us": (_US_SLIT, "16 in", "4 ft"),
    "metric": (_METRIC_SLIT, "400 mm", "1.2 m"),
}
"""Section and limits of a slit, spacing of sand and of piped slits, by the job's units."""


def plan_of(told: NewJob, author: str = "") -> dict[str, Any]:
    """Plan file of a job as the form gives it: common patterns, to be changed by a plan file.

    Spacing, section, limits and the length of a coil, in whole figures of the job's units:
    common practice, no source. The sand and the pipe of such slits are there to be delivered and
    placed; how much a hopper holds is asked at the first load. Who starts the job is its
    first of the crew.
    """
    plan: dict[str, Any] = {
        "job": {
            "job_id": slug(told.name),
            "name": told.name.strip()[:80],
            "owner": told.owner.strip(),
            "unit_system": told.unit_system,
            "station_style": "us_100ft" if told.unit_system == "us" else "metric_1000m",
            "zone": told.zone or tablet_zone(),
        }
    }
    if author:
        plan["person"] = [{"person_id": author, "name": author, "role": say("foreman")}]
    coil = "500 ft" if told.unit_system == "us" else "100 m"
    plan["material"] = [
        {"material_id": say("slit sand"), "use": "sand"},
        {"material_id": say("slit pipe"), "use": "pipe", "coil": coil},
    ]
    if told.along and told.across:
        slit, sand_apart, piped_apart = _COMMON_SLITS[told.unit_system]
        plan["surface"] = [
            {
                "surface_id": "A",
                "name": told.surface.strip() or say("Surface A"),
                "use": told.use,
                "sand_slits": {"spacing": sand_apart, **slit},
                "piped_slits": {"spacing": piped_apart, **slit},
                "rectangle": {"along": told.along, "across": told.across},
            }
        ]
    return plan


def import_plan(tablet: Tablet, path: Path) -> Path:
    """Make a book from a plan file.

    Raises
    ------
    PaperError
        If anything in it can't be read; nothing is made.
    """
    plan = read_plan(path, read_text(path, "A plan file in JSON"))
    name = next((fields["name"] for kind, fields in plan if kind == "job"), path.stem)
    return _make(tablet, str(name), plan)


def open_demo(tablet: Tablet) -> Path:
    """Make the demo's book, or find it where it was made before."""
    path = tablet.books / f"larkfield-demo{SUFFIX}"
    if path.exists():
        return path
    tablet.books.mkdir(parents=True, exist_ok=True)
    part = path.with_suffix(".making")
    for left in part.parent.glob(f"{part.name}*"):
        left.unlink()  # a demo whose making was cut off
    with demo_job(part) as job:
        for _ in work_days(job):
            pass
        job.book.backup(path)
    for left in part.parent.glob(f"{part.name}*"):
        left.unlink()
    return path


def salvage_book(path: Path) -> Path:
    """Make a new book of all that still holds in a broken one, which is only read."""
    out = free_name(path.with_name(f"{path.stem}-salvaged{SUFFIX}"))
    rescue_book(path, out)
    return out


def slug(name: str) -> str:
    """Return a name as a file name: plain small letters, figures and hyphens."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:40] or "job"


def _make(tablet: Tablet, name: str, plan: list[tuple[str, dict[str, Any]]]) -> Path:
    tablet.books.mkdir(parents=True, exist_ok=True)
    path = free_name(tablet.books / f"{slug(name)}{SUFFIX}")
    author = tablet.settings().author
    zone = next((fields["zone"] for kind, fields in plan if kind == "job"), "UTC")
    job = OpenJob.open(path, TabletClock(str(zone)), author, tablet.stream())
    try:
        set_up_all(job, plan)
    finally:
        job.close()
    return path


def free_name(path: Path) -> Path:
    """Return a path at which nothing lies: this one, or with a number behind its name."""
    tried, number = path, 2
    while tried.exists():
        tried = path.with_name(f"{path.stem}-{number}{path.suffix}")
        number += 1
    return tried


def _look(path: Path, is_broken: bool) -> BookRow:
    try:
        with Book.open(path, read_only=True) as book:
            row = book.newest("job")
            count = book.count()
    except BookError as fault:
        is_damaged = isinstance(fault, BookDamagedError)
        return BookRow(str(path), path.stem, str(fault), is_broken=True, can_salvage=is_damaged)
    name = json.loads(row.raw)["body"]["name"] if row else path.stem
    if is_broken:
        return BookRow(str(path), name, path.name, is_broken=True, can_salvage=True)
    detail = say("{count:entry|entries}, {file}", count=count, file=path.name)
    return BookRow(str(path), name, detail)
