"""A book that poisons came into, and all that can be done with one: commands, papers, faces."""

from __future__ import annotations

import contextlib
import io
import json
import shutil
import signal
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from crewapp.cli.main import main
from crewapp.commands.query import Query
from crewapp.job.dispatch import read
from crewapp.job.open_job import OpenJob
from crewapp.pages.after_rain.view import ShowAfterRain
from crewapp.pages.day.lists_presenter import days_of
from crewapp.pages.day.sheet_presenter import sheet_rows
from crewapp.pages.day.view import ShowDay
from crewapp.pages.flags.view import ShowFlags
from crewapp.pages.grade.laser.presenter import laser_view
from crewapp.pages.grade.page_view import ShowGrade
from crewapp.pages.grade.presenter import grade_view
from crewapp.pages.grade.setup.presenter import setups_view
from crewapp.pages.grade.shots_presenter import shots_view
from crewapp.pages.loads.view import ShowLoads
from crewapp.pages.passes.view import ShowPass
from crewapp.pages.plan.takeoff_presenter import gates_view, takeoff_view
from crewapp.pages.plan.view import ShowPlan
from crewapp.pages.today.view import ShowToday
from crewapp.tablet.clock import SetClock
from models.book.row import GENESIS
from models.book.store import Book
from models.entries.kind_names import COLLECTOR, SURFACE
from sync.exchange.exchange_log import known_job
from sync.segments.writer import seal_rows
from tests.house.poison import DAY, LATER, NOON_MS, WRITER, Poison, rows_of

STEERING = frozenset("\x00\x1b\x7f\u202e\u2066")
"""Letters that a terminal obeys instead of showing them."""
LONGEST_WAIT_S = 240
"""No command takes near so long; one that counts to the end of 64 bits never ends."""


class TooLongError(AssertionError):
    """A command did not end."""


@contextlib.contextmanager
def cut_off(after_s: int) -> Iterator[None]:
    """End what does not end by itself."""

    def stop(*_: object) -> None:
        raise TooLongError(f"not done after {after_s} s")

    before = signal.signal(signal.SIGALRM, stop)
    signal.alarm(after_s)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)


@dataclass(frozen=True, slots=True)
class Site:
    """A folder with a copy of the demo book that poisons came into."""

    folder: Path
    entries: int

    @property
    def book(self) -> Path:
        """The book."""
        return self.folder / "larkfield.book"


def poisoned(demo: Path, folder: Path, poisons: Sequence[Poison]) -> Site:
    """Copy a book, and let poisons come into it from a store."""
    folder.mkdir(parents=True)
    path = folder / "larkfield.book"
    shutil.copyfile(demo, path)
    with Book.open(path, read_only=True) as book:
        key, lc = known_job(book).key, max(row.lc for row in book.rows())
        count = book.count()
    rows = rows_of(poisons, lc)
    store = folder / "store" / key / "seg"
    store.mkdir(parents=True)
    prev = GENESIS
    for start in range(0, len(rows), 40):
        sealed = seal_rows(rows[start : start + 40], prev, key, WRITER)
        (store / str(sealed.name)).write_bytes(sealed.data)
        prev = rows[start : start + 40][-1].hash
    assert command("sync", path, "--store", folder / "store")[0] == 0
    with Book.open(path, read_only=True) as book:
        assert book.count() >= count + len(rows), "a poison was kept out on its way"
    return Site(folder, count + len(rows))


def command(*words: object) -> tuple[int, str]:
    """Run a command; return its exit code and what it printed."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err), cut_off(LONGEST_WAIT_S):
        code = main([str(word) for word in words])
    return code, out.getvalue() + err.getvalue()


def commands(site: Site) -> list[tuple[object, ...]]:
    """Every command that can be given a book, with the words it takes."""
    book, out, db = site.book, site.folder / "out", site.folder / "office.db"
    notes = site.folder / "notes.csv"
    notes.write_text(f"day,entry,note\n{LATER},note,work goes on\n")
    store, page, crew = site.folder / "store", out / "page.html", out / "job.crew"
    job = ("--job", "larkfield", "--day", DAY)
    return [
        ("check", book),
        ("check", book, "--all", "--json"),
        ("sheet", book, "--day", "2026-05-11", "--out", out / "sheets"),
        ("sheet", book, "--day", DAY, "--out", out / "sheets"),
        ("sheet", book, "--out", out / "sheets"),
        ("verify", book, "--day", "2026-05-11"),
        ("verify", book, "--day", DAY),
        ("verify", book, "--json"),
        ("progress", book),
        ("tablets", book),
        ("plan", "show", book),
        ("plan", "show", book, "--json"),
        ("plan", "stakeout", book, "--all", "--out", out / "stakeout"),
        ("plan", "takeoff", book, "--out", out / "takeoff"),
        ("plan", "gates", book),
        ("log", book, notes),
        ("sync", book, "--store", store),
        ("handover", "make", book, "--out", crew),
        ("handover", "take", crew, "--book", site.folder / "taken.book"),
        ("office", "take", "--db", db, "--files", book, "--store", store),
        ("office", "jobs", "--db", db),
        ("office", "report", "--db", db, "--html", page),
        ("office", "sheet", "--db", db, *job, "--out", out / "office"),
        ("office", "rebuild", "--db", db),
        ("asbuilt", book, "--out", out / "asbuilt"),
    ]


Reading = Callable[[OpenJob], object]

QUERIES: tuple[Query[Any], ...] = (
    ShowToday(),
    ShowPass(),
    ShowGrade(),
    ShowLoads(),
    ShowDay(day=DAY),
    ShowDay(day=DAY, part="written"),
    ShowFlags(),
    ShowAfterRain(),
    ShowPlan(),
)
"""What the pages ask."""
PARTS: tuple[Reading, ...] = (
    shots_view,
    setups_view,
    laser_view,
    lambda job: sheet_rows(job, DAY),
    lambda job: days_of(job, DAY),
    takeoff_view,
)
"""What parts of pages read besides."""


def views_of(job: OpenJob) -> Iterator[tuple[str, Reading]]:
    """Yield all that the pages read off a book, each with a name."""
    flags = [ShowFlags(key=flag.finding.key) for flag in job.board.flags()]
    for query in (*QUERIES, *flags):
        yield repr(query), partial(_answer, query)
    for part in PARTS:
        yield repr(part), part
    for surface_id in job.state.every_name(SURFACE):
        yield f"gates of {surface_id}", partial(gates_view, surface_id=surface_id)
    for collector_id in job.state.every_name(COLLECTOR):
        yield f"grade of {collector_id}", partial(grade_view, collector_id=collector_id)


def _answer(query: Query[Any], job: OpenJob) -> object:
    return read(job, query)


def views(site: Site) -> Iterator[str]:
    """Read every view of the book, on a day after the poison; tell of each that breaks."""
    clock = SetClock("America/Chicago", 0)
    clock.set_to(LATER, 9 * 60)
    with contextlib.closing(OpenJob(Book.open(site.book, read_only=True), clock, "Wren")) as job:
        for name, reading in views_of(job):
            fault = fault_of(lambda reading=reading: reading(job))
            if fault:
                yield f"{name}: {fault}"


def fault_of(work: Any) -> str:
    """Do something; return what went wrong in it and where, or ""."""
    try:
        with cut_off(LONGEST_WAIT_S):
            work()
    except Exception as fault:
        trace = fault.__traceback__
        places = []
        while trace is not None:
            code = trace.tb_frame.f_code
            places.append(f"{Path(code.co_filename).name}:{trace.tb_lineno}")
            trace = trace.tb_next
        return f"{type(fault).__name__}: {str(fault)[:160]} at {' < '.join(reversed(places[-6:]))}"
    return ""


def worked(site: Site) -> list[str]:
    """Do with a book all that can be done; return everything that went wrong."""
    wrong: list[str] = []
    for words in commands(site):
        code: list[tuple[int, str]] = []
        fault = fault_of(lambda words=words, code=code: code.append(command(*words)))
        named = " ".join(str(word) for word in words)
        if fault:
            wrong.append(f"{named}: {fault}")
        elif code[0][0] not in (0, 1):
            wrong.append(f"{named}: exit {code[0][0]}, {code[0][1].strip()[-900:]}")
        elif "--json" not in words and set(code[0][1]) & STEERING:
            at = min(code[0][1].find(one) for one in STEERING if one in code[0][1])
            wrong.append(
                f"{named}: steers the terminal at {code[0][1][max(0, at - 60) : at + 20]!r}"
            )
    wrong += views(site)
    return wrong


def unnamed(site: Site) -> list[str]:
    """Entries that can't be read and that no flag names."""
    told = json.loads(command("check", site.book, "--all", "--json")[1])
    named = {one for flag in told["flags"] for one in flag["entries"]}
    with contextlib.closing(
        OpenJob(Book.open(site.book, read_only=True), SetClock("UTC", NOON_MS), "Wren")
    ) as job:
        return [
            f"{entry.id} ({entry.kind}): {entry.unfit}"
            for entry in job.state.entries.values()
            if entry.unfit and entry.id not in named and not job.state.is_struck(entry.id)
        ]
