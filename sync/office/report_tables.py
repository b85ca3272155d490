"""The report as rows of words: the same for the terminal and for the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from models.counted import CountedNoun
from models.units import round_half_even
from models.units.job_units import Figures
from sync.office.figures.quality import FEWEST, Quality, share_text
from sync.office.figures.totals import DayTotals, SandBalance
from sync.office.report import JobLine, OfficeReport, Production
from sync.papers.wording.safe_text import single_line

_UL = 1_000_000
NONE = "-"

QUALITY_HEADS = (
    *("first time right", "with every reading", "right in the end"),
    *("reworked", "standing out", "struck late"),
)
QUALITY_NOTE = (
    "Places measured: a depth probe's pass, line and place along it, to less than a foot; a "
    "shot's collector, station and what was shot. First time right leaves slips out: readings "
    "struck within 10 minutes by who took them, as misread, wrong key, line or place, twice "
    "logged or not taken. With every reading, the first one taken counts, struck or not. "
    f"Fewer than {FEWEST} places get no percentage."
)
"""What the table of quality counts."""

WORK_HEADS = (
    *(
        "worked days",
        "written days",
        "sand slits",
        "piped slits",
        "pipe in slits",
        "collector pipe",
    ),
    *("sand placed", "probes", "still out", "crew h", "machine h"),
)


@dataclass(frozen=True, slots=True)
class Table:
    """A table of words: the first column is text, the others are figures."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    behind: tuple[str, ...] = ()  # in small behind the first cell of each row


def work_table(report: OfficeReport, by: str) -> Table:
    """Production with a line for each job, crew or week."""
    figures = report.figures
    told, behind = [], []
    for name, small, one in _named_lines(report, by):
        days = str(one.days), str(one.written_days)
        told.append((name, *days, *_work(figures, one.done)))
        behind.append(small)
    if len(told) > 1:
        told.append(("all", NONE, NONE, *_work(figures, report.total)))
        behind.append("")
    return Table(f"Production by {by}", (by, *WORK_HEADS), tuple(told), tuple(behind))


def quality_table(report: OfficeReport, by: str) -> Table:
    """Right the first time, slips left out and with every reading, and what came of the rest."""
    told, behind = [], []
    for name, small, one in _named_lines(report, by):
        for what, counts in sorted(one.quality.items()):
            told.append((name, what, *_shares(counts)))
            behind.append(small)
    if len({row[0] + small for row, small in zip(told, behind, strict=True)}) > 1:
        for what, counts in sorted(report.quality.items()):
            told.append(("all", what, *_shares(counts)))
            behind.append("")
    title = f"Right the first time, by {by}"
    return Table(title, (by, "measured by", *QUALITY_HEADS), tuple(told), tuple(behind))


def _named_lines(report: OfficeReport, by: str) -> Iterator[tuple[str, str, JobLine | Production]]:
    """Lines with their name, and what stands behind it in small."""
    if by == "job":
        yield from ((single_line(job.name), "", job) for job in report.jobs)
    else:
        for one in report.crews if by == "crew" else report.weeks:
            yield single_line(one.name), single_line(one.about), one


def _shares(counts: Quality) -> tuple[str, ...]:
    out = counts.out_answered + counts.out_open
    return (
        share_text(counts.first_in, counts.places),
        share_text(counts.all_first_in, counts.all_places),
        share_text(counts.last_in, counts.places),
        share_text(counts.reworked, counts.places, is_fault=True),
        f"{out}, {counts.out_answered} answered" if out else "0",
        str(counts.struck_late),
    )


def sand_table(report: OfficeReport) -> Table:
    """Sand of every job, delivered against placed, to date."""
    rows = [
        (single_line(job.name), single_line(sand.material), *_sand(report.figures, sand))
        for job in report.jobs
        for sand in job.sands
    ]
    heads = ("job", "sand", "delivered", "placed", "on hand", "verdict")
    return Table("Sand to date, as loose dry volume", heads, tuple(rows))


def flag_counts(report: OfficeReport) -> Table:
    """How many flags stand open on each job, and how many were answered."""
    rows = [
        (single_line(job.name), *(str(count) for count in job.flags), str(job.answered))
        for job in report.jobs
    ]
    return Table("Flags by job", ("job", "stop", "fix", "note", "answered"), tuple(rows))


def flag_table(report: OfficeReport, most: int) -> Table:
    """The open flags themselves, worst first."""
    rows = [
        (flag.severity.upper(), flag.day, single_line(flag.job), single_line(flag.said))
        for flag in report.flags[:most]
    ]
    return Table("Open flags, worst first", ("weight", "day", "job", "what"), tuple(rows))


def caveats(job: JobLine) -> list[str]:
    """Sentences on what of a job is not in its figures."""
    said = []
    if job.newer:
        said.append(
            f"{CountedNoun(job.newer):entry was|entries were} "
            "written by a newer version: kept, not counted"
        )
    if job.unreadable:
        said.append(f"{CountedNoun(job.unreadable):entry|entries} can't be read: kept, not counted")
    if job.done.sand_unmeasured:
        said.append(
            f"{CountedNoun(job.done.sand_unmeasured):load of sand has|loads of sand have} "
            "a mass and no density"
        )
    if job.fault:
        said.append(f"its figures could not be worked out: {single_line(job.fault)}")
    return said


def span_text(report: OfficeReport) -> str:
    """Text of the days that the report is about."""
    if report.since and report.until:
        return f"{report.since} to {report.until}"
    if report.since:
        return f"from {report.since}"
    return f"up to {report.until}" if report.until else "all days"


def hours_of(minutes: int) -> str:
    """Hours to one decimal, a half to the even tenth."""
    tenths = round_half_even(minutes, 6)
    return f"{tenths // 10}.{tenths % 10}"


def sand_text(figures: Figures, volume_ul: int) -> str:
    """A volume of sand as the jobs' units show it."""
    return figures.volume(volume_ul * _UL)


def _work(figures: Figures, done: DayTotals) -> Sequence[str]:
    lengths = (done.sand_slit_nm, done.piped_slit_nm, done.slit_pipe_nm, done.collector_pipe_nm)
    return (
        *(figures.distance(length) for length in lengths),
        sand_text(figures, done.placed_ul),
        str(done.probes),
        str(done.probes_out),
        hours_of(done.crew_min),
        hours_of(done.machine_min),
    )


def _sand(figures: Figures, sand: SandBalance) -> tuple[str, str, str, str]:
    if sand.delivered_ul is None or sand.placed_ul is None:
        return NONE, NONE, NONE, "not yet measured: no density"
    left = sand.delivered_ul - sand.placed_ul
    shown = sand_text(figures, abs(left)) + (" over" if left < 0 else "")
    verdict = "CHECK: more placed than delivered" if left < 0 else "OK"
    return (
        sand_text(figures, sand.delivered_ul),
        sand_text(figures, sand.placed_ul),
        shown,
        verdict,
    )
