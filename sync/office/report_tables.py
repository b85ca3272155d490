"""The report as rows of words: the same for the terminal and for the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from models.figures import Figures
from models.units import round_half_even
from sync.office.report import JobLine, OfficeReport
from sync.office.totals import DayTotals, SandBalance
from sync.sheets.safe_text import one_line

_UL = 1_000_000
NONE = "-"

WORK_HEADS = (
    *("days", "sand slits", "piped slits", "pipe in slits", "collector pipe"),
    *("sand placed", "probes", "out", "crew h", "machine h"),
)


@dataclass(frozen=True, slots=True)
class Table:
    """A table of words: the first column is text, the others are figures."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def work_table(report: OfficeReport, by: str) -> Table:
    """Production with a line for each job, crew or week."""
    figures = report.figures
    if by == "job":
        rows = [(job.name, str(job.days), job.done) for job in report.jobs]
    else:
        lines = report.crews if by == "crew" else report.weeks
        rows = [(_named(one.name, one.about), str(one.days), one.done) for one in lines]
    told = [(one_line(name), days, *_work(figures, done)) for name, days, done in rows]
    if len(told) > 1:
        told.append(("all", NONE, *_work(figures, report.total)))
    return Table(f"Production by {by}", (by, *WORK_HEADS), tuple(told))


def sand_table(report: OfficeReport) -> Table:
    """Sand of every job, delivered against placed, to date."""
    rows = [
        (one_line(job.name), one_line(sand.material), *_sand(report.figures, sand))
        for job in report.jobs
        for sand in job.sands
    ]
    heads = ("job", "sand", "delivered", "placed", "on hand", "verdict")
    return Table("Sand to date, as loose dry volume", heads, tuple(rows))


def flag_counts(report: OfficeReport) -> Table:
    """How many flags stand open on each job, and how many were answered."""
    rows = [
        (one_line(job.name), *(str(count) for count in job.flags), str(job.answered))
        for job in report.jobs
    ]
    return Table("Flags by job", ("job", "stop", "fix", "note", "answered"), tuple(rows))


def flag_table(report: OfficeReport, most: int) -> Table:
    """The open flags themselves, worst first."""
    rows = [
        (flag.severity.upper(), flag.day, one_line(flag.job), one_line(flag.said))
        for flag in report.flags[:most]
    ]
    return Table("Open flags, worst first", ("weight", "day", "job", "what"), tuple(rows))


def oddities(job: JobLine) -> list[str]:
    """Say what of a job is not in its figures."""
    said = []
    if job.newer:
        said.append(f"{job.newer} entries were written by a newer version: kept, not counted")
    if job.unreadable:
        said.append(f"{job.unreadable} entries can't be read: kept, not counted")
    if job.done.sand_unmeasured:
        said.append(f"{job.done.sand_unmeasured} loads of sand have a mass and no density")
    if job.fault:
        said.append(f"its figures could not be worked out: {one_line(job.fault)}")
    return said


def span_words(report: OfficeReport) -> str:
    """Say which days it is about."""
    if report.since and report.until:
        return f"{report.since} to {report.until}"
    if report.since:
        return f"from {report.since}"
    return f"up to {report.until}" if report.until else "all days"


def hours_of(minutes: int) -> str:
    """Hours to one decimal, a half to the even tenth."""
    tenths = round_half_even(minutes, 6)
    return f"{tenths // 10}.{tenths % 10}"


def sand_words(figures: Figures, volume_ul: int) -> str:
    """A volume of sand as the jobs' units show it."""
    return figures.volume(volume_ul * _UL)


def _work(figures: Figures, done: DayTotals) -> Sequence[str]:
    lengths = (done.sand_slit_nm, done.piped_slit_nm, done.slit_pipe_nm, done.collector_pipe_nm)
    return (
        *(figures.distance(length) for length in lengths),
        sand_words(figures, done.placed_ul),
        str(done.probes),
        str(done.probes_out),
        hours_of(done.crew_min),
        hours_of(done.machine_min),
    )


def _sand(figures: Figures, sand: SandBalance) -> tuple[str, str, str, str]:
    if sand.delivered_ul is None or sand.placed_ul is None:
        return NONE, NONE, NONE, "not yet measured: no density"
    left = sand.delivered_ul - sand.placed_ul
    shown = "-" + sand_words(figures, -left) if left < 0 else sand_words(figures, left)
    verdict = "CHECK: more placed than delivered" if left < 0 else "OK"
    return (
        sand_words(figures, sand.delivered_ul),
        sand_words(figures, sand.placed_ul),
        shown,
        verdict,
    )


def _named(name: str, about: str) -> str:
    return f"{name} ({about})" if about else name
