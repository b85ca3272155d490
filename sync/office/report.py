"""What the jobs of the office come to over some days: read off the index alone."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

from sqlalchemy import Connection, text

from models.figures import Figures
from models.units import UnitSystem
from sync.office.database import Office
from sync.office.totals import FIGURES, DayTotals, SandBalance

_EVERY_DAY = ("", "9999-99-99")

_DAYS = text(
    f"SELECT job_no, day, stream, {', '.join(FIGURES)} FROM office_day "
    "WHERE day >= :since AND day <= :until"
)
_JOBS = text(
    "SELECT j.no, j.key, j.entries, s.name, s.job_id, s.is_us, s.first_day, s.last_day, "
    "s.planned_nm, s.answered, s.newer, s.unreadable, s.fault "
    "FROM office_job AS j JOIN office_seen AS s ON s.job_no = j.no ORDER BY s.name, j.key"
)
_FLAGS = text(
    "SELECT job_no, weight, day, key, check_id, said FROM office_flag "
    "ORDER BY weight, day, job_no, key"
)
_SANDS = text(
    "SELECT job_no, material, delivered_ul, placed_ul FROM office_sand ORDER BY job_no, material"
)
_TABLETS = text("SELECT stream, code, name, authors FROM office_tablet ORDER BY job_no")

SEVERITIES = ("stop", "fix", "note")
"""What a flag's weight stands for, worst first."""


@dataclass(frozen=True, slots=True)
class JobLine:
    """One job and what was done on it in the span; flags and sand as they stand now."""

    key: str
    name: str
    job_id: str
    entries: int
    first_day: str
    last_day: str
    planned_nm: int
    answered: int
    newer: int
    unreadable: int
    fault: str
    days: int  # of the span, on which anything was written
    done: DayTotals
    flags: tuple[int, int, int]
    sands: tuple[SandBalance, ...]


@dataclass(frozen=True, slots=True)
class Production:
    """One crew or one week, and what was done."""

    name: str
    about: str
    days: int
    done: DayTotals


@dataclass(frozen=True, slots=True)
class OpenFlagLine:
    """One open flag with its job."""

    severity: str
    day: str
    job: str
    key: str
    check: str
    said: str


@dataclass(frozen=True, slots=True)
class OfficeReport:
    """All of it; ``is_us`` tells which units it is shown in."""

    since: str
    until: str
    is_us: bool
    jobs: tuple[JobLine, ...]
    crews: tuple[Production, ...]
    weeks: tuple[Production, ...]
    flags: tuple[OpenFlagLine, ...]

    @property
    def figures(self) -> Figures:
        """How its figures are shown."""
        return Figures(UnitSystem.US if self.is_us else UnitSystem.METRIC)

    @property
    def total(self) -> DayTotals:
        """All jobs together."""
        total = DayTotals()
        for one in self.jobs:
            total.add(one.done)
        return total


@dataclass(slots=True)
class _Sums:
    """Totals under some name, with the days they were gathered from."""

    done: dict[Any, DayTotals] = field(default_factory=lambda: defaultdict(DayTotals))
    days: dict[Any, set[str]] = field(default_factory=lambda: defaultdict(set))

    def add(self, name: Any, day: str, totals: DayTotals) -> None:
        self.done[name].add(totals)
        self.days[name].add(day)


def read_report(office: Office, since: str = "", until: str = "", units: str = "") -> OfficeReport:
    """Read the report of the days from ``since`` to ``until``; all days where they are empty.

    Parameters
    ----------
    office : Office
        Its index must be fresh.
    since, until : str
        First and last day, YYYY-MM-DD.
    units : str
        ``us`` or ``metric``; if left out, those of the jobs.
    """
    span = {"since": since or _EVERY_DAY[0], "until": until or _EVERY_DAY[1]}
    by_job, by_crew, by_week = _Sums(), _Sums(), _Sums()
    with office.reading() as connection:  # one transaction: all of it fits together
        for no, day, stream, *amounts in connection.execute(_DAYS, span):
            totals = DayTotals(*amounts)
            by_job.add(no, day, totals)
            by_crew.add(stream, day, totals)
            by_week.add(week_of(day), day, totals)
        names = _crew_names(connection)
        jobs, is_us, flags = _jobs(connection, by_job)
    return OfficeReport(
        since=since,
        until=until,
        is_us=units == "us" if units else is_us,
        jobs=jobs,
        crews=_lines(by_crew, lambda stream: names.get(stream, (stream, ""))),
        weeks=_lines(by_week, lambda week: (week, _week_words(week))),
        flags=flags,
    )


def week_of(day: str) -> str:
    """Name of the week that a day lies in, such as ``2026-W20``; weeks begin on Monday."""
    year, week, _ = date.fromisoformat(day).isocalendar()
    return f"{year:04d}-W{week:02d}"


def _week_words(week: str) -> str:
    monday = date.fromisocalendar(int(week[:4]), int(week[6:]), 1)
    try:
        return f"{monday} to {monday + timedelta(days=6)}"
    except OverflowError:  # the last week that any calendar has
        return f"from {monday}"


def _lines(sums: _Sums, name_of: Callable[[str], tuple[str, str]]) -> tuple[Production, ...]:
    made = [
        Production(*name_of(name), len(sums.days[name]), done) for name, done in sums.done.items()
    ]
    return tuple(sorted(made, key=lambda line: (line.name, line.about)))


def _crew_names(connection: Connection) -> dict[str, tuple[str, str]]:
    """Name of each tablet, its code where it has none or another has the same, and who wrote."""
    names: dict[str, str] = {}
    codes: dict[str, str] = {}
    authors: dict[str, dict[str, None]] = defaultdict(dict)
    for stream, code, name, wrote in connection.execute(_TABLETS):
        codes[stream] = code or stream
        names[stream] = name or names.get(stream, "")
        authors[stream].update(dict.fromkeys(wrote.split(", ")))
    given = list(names.values())
    told = {}
    for stream, name in names.items():
        shown = name if given.count(name) == 1 else f"{name} {codes[stream]}".strip()
        told[stream] = (shown or codes[stream], ", ".join(authors[stream]))
    return told


def _jobs(
    connection: Connection, by_job: _Sums
) -> tuple[tuple[JobLine, ...], bool, tuple[OpenFlagLine, ...]]:
    sands: dict[int, list[SandBalance]] = defaultdict(list)
    for no, *facts in connection.execute(_SANDS):
        sands[no].append(SandBalance(*facts))
    waiting = list(connection.execute(_FLAGS))
    counts: dict[int, list[int]] = defaultdict(lambda: [0, 0, 0])
    for no, weight, *_ in waiting:
        counts[no][weight] += 1
    lines, names, systems = [], {}, set()
    jobs = connection.execute(_JOBS).all()
    given = Counter(name for _, _, _, name, *_ in jobs)
    for no, key, entries, name, job_id, is_us, *facts in jobs:
        names[no] = key if not name else name if given[name] == 1 else f"{name} {key[-4:]}"
        systems.add(bool(is_us))
        stop, fix, note = counts[no]
        done = by_job.done.get(no, DayTotals())
        flags = (stop, fix, note)
        told: list[Any] = [key, names[no], job_id, entries, *facts]
        told += [len(by_job.days.get(no, ())), done, flags, tuple(sands[no])]
        lines.append(JobLine(*told))
    flags_told = tuple(
        OpenFlagLine(SEVERITIES[weight], day, names.get(no, "?"), key, check, said)
        for no, weight, day, key, check, said in waiting
    )
    return tuple(lines), systems != {False}, flags_told
