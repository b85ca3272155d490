"""Report over the jobs of the office for a span of days, read off the index alone."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from typing import Any

from sqlalchemy import Connection, text

from models.units import UnitSystem
from models.units.job_units import Figures
from sync.office.database import Office
from sync.office.figures.crews import Crew, read_crews
from sync.office.figures.quality import COUNTS, Quality
from sync.office.figures.totals import FIGURES, DayTotals, SandBalance

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
_QUALITY = text(
    f"SELECT job_no, day, stream, what, {', '.join(COUNTS)} FROM office_quality "
    "WHERE day >= :since AND day <= :until"
)

QualityBy = Mapping[str, Quality]
"""Counts of places measured, by what was measured there."""

SEVERITIES = ("stop", "fix", "note")
"""What a flag's weight stands for, worst first."""


@dataclass(frozen=True, slots=True)
class JobLine:
    """A job and its work in the span; flags and sand are as they stand now."""

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
    days: int  # of the span, on which ground was worked
    written_days: int  # of the span, on which anything was written
    done: DayTotals
    quality: QualityBy
    flags: tuple[int, int, int]
    sands: tuple[SandBalance, ...]


@dataclass(frozen=True, slots=True)
class Production:
    """Production of one crew or one week."""

    name: str
    about: str  # code of the crew's tablet, or days of the week
    days: int  # on which ground was worked
    written_days: int
    done: DayTotals
    quality: QualityBy


@dataclass(frozen=True, slots=True)
class OpenFlagLine:
    """An open flag with its job."""

    severity: str
    day: str
    job: str
    key: str
    check: str
    said: str


@dataclass(frozen=True, slots=True)
class OfficeReport:
    """Report of the office over all jobs; ``is_us`` sets the units of its figures."""

    since: str
    until: str
    is_us: bool
    jobs: tuple[JobLine, ...]
    crews: tuple[Production, ...]
    weeks: tuple[Production, ...]
    flags: tuple[OpenFlagLine, ...]

    @property
    def figures(self) -> Figures:
        """Units in which the report writes its figures."""
        return Figures(UnitSystem.US if self.is_us else UnitSystem.METRIC)

    @property
    def total(self) -> DayTotals:
        """Production of all jobs together."""
        total = DayTotals()
        for one in self.jobs:
            total.add(one.done)
        return total

    @property
    def quality(self) -> QualityBy:
        """Places measured on all jobs together."""
        total: dict[str, Quality] = defaultdict(Quality)
        for one in self.jobs:
            for what, counts in one.quality.items():
                total[what].add(counts)
        return total


@dataclass(slots=True)
class _Sum:
    """Totals under one name, with the days they were gathered from."""

    done: DayTotals = field(default_factory=DayTotals)
    worked: set[str] = field(default_factory=set)
    written: set[str] = field(default_factory=set)
    quality: dict[str, Quality] = field(default_factory=lambda: defaultdict(Quality))

    def add(self, day: str, totals: DayTotals) -> None:
        self.done.add(totals)
        self.written.add(day)
        if totals.work:
            self.worked.add(day)

    def told(self) -> tuple[int, int, DayTotals, QualityBy]:
        """Days worked, days written, what was done, and how well."""
        return len(self.worked), len(self.written), self.done, dict(self.quality)


_Sums = dict[Any, _Sum]


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
    by_job, by_crew, by_week = (defaultdict[Any, _Sum](_Sum) for _ in range(3))
    with office.reading() as connection:  # one transaction: all of it fits together
        for no, day, stream, *amounts in connection.execute(_DAYS, span):
            totals = DayTotals(*amounts)
            for one in (by_job[no], by_crew[stream], by_week[week_of(day)]):
                one.add(day, totals)
        for no, day, stream, what, *counts in connection.execute(_QUALITY, span):
            places = Quality(*counts)
            for one in (by_job[no], by_crew[stream], by_week[week_of(day)]):
                one.quality[what].add(places)
        crews = read_crews(connection, span)
        jobs, is_us, flags = _jobs(connection, by_job)
    return OfficeReport(
        since=since,
        until=until,
        is_us=units == "us" if units else is_us,
        jobs=jobs,
        crews=_lines(by_crew, lambda stream: _crew_words(crews, stream)),
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
    made = []
    for key, one in sums.items():
        name, about = name_of(key)
        made.append(Production(name, about, *one.told()))
    return tuple(sorted(made, key=lambda line: (line.name, line.about)))


def _crew_words(crews: Mapping[str, Crew], stream: str) -> tuple[str, str]:
    """Name of a crew and the code of its tablet, which alone tells two of one name apart."""
    crew = crews.get(stream, Crew(stream, ""))
    return crew.name, "" if crew.code == crew.name else crew.code


def _job_names(jobs: Iterable[Sequence[Any]]) -> dict[int, str]:
    """Name of each job, with as much of its key as tells jobs of one name apart."""
    alike: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for no, key, _, name, *_ in jobs:
        alike[name].append((no, key))
    told = {}
    for name, own in alike.items():
        keys = [key for _, key in own]
        tail = next(n for n in range(4, 99) if len({key[-n:] for key in keys}) == len(keys))
        for no, key in own:
            told[no] = key if not name else name if len(own) == 1 else f"{name} {key[-tail:]}"
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
    lines, systems = [], set()
    jobs = connection.execute(_JOBS).all()
    names = _job_names(jobs)
    for no, key, entries, _, job_id, is_us, *facts in jobs:
        systems.add(bool(is_us))
        stop, fix, note = counts[no]
        told: list[Any] = [key, names[no], job_id, entries, *facts]
        told += [*by_job.get(no, _Sum()).told(), (stop, fix, note), tuple(sands[no])]
        lines.append(JobLine(*told))
    flags_told = tuple(
        OpenFlagLine(SEVERITIES[weight], day, names.get(no, "?"), key, check, said)
        for no, weight, day, key, check, said in waiting
    )
    return tuple(lines), systems != {False}, flags_told
