"""``crewapp office report``: production, sand and open flags over all jobs."""

from __future__ import annotations

import argparse
import json
from dataclasses import asdict
from pathlib import Path
from typing import Any

from crewapp.cli.days import read_day
from crewapp.cli.example import Example
from crewapp.cli.office.opening import office_to_read
from crewapp.words.translate import translate_later
from models.counted import CountedNoun
from models.errors import CrewError
from sync.office.report import JobLine, OfficeReport, Production, read_report
from sync.office.report_tables import (
    Table,
    caveats,
    flag_table,
    quality_table,
    sand_table,
    span_text,
    work_table,
)
from sync.papers.wording.safe_text import single_line

EXAMPLES = (
    Example(
        "crewapp office report --by crew --html report.html",
        translate_later("A line a crew, and a page for a browser"),
    ),
    Example(
        "crewapp office report --from 2026-05-12 --to 2026-05-13",
        translate_later("Two days of all jobs"),
    ),
)


_FLAGS_SHOWN = 20


class SpanBackwardsError(CrewError, ValueError):
    """A span of days ends before it begins."""

    code = "office.span_backwards"
    sentence = (
        "No report was made: --to {until} lies before --from {since}. "
        "A last day on or after the first would be accepted."
    )


class PageNotWrittenError(CrewError, OSError):
    """The page could not be put where it was to go."""

    code = "office.page_not_written"
    sentence = (
        "The page was not written to {path}: {why}. "
        "A file in a folder that can be written into would be accepted."
    )


def run(args: argparse.Namespace) -> int:
    """Print the report, and write its page if wanted; exit 1 while a flag stops work."""
    since = read_day(args.since) if args.since is not None else ""
    until = read_day(args.until) if args.until is not None else ""
    if since and until and until < since:
        raise SpanBackwardsError(since=since, until=until)
    with office_to_read(args.db, args.json) as office:
        report = read_report(office, since, until, args.units)
    if args.html is not None:
        _write_page(args.html, report)
    if args.json:
        print(json.dumps(_facts(report, args.by), ensure_ascii=False))
    else:
        _print(report, args.by)
        if args.html is not None:
            print(f"\nThe page is {args.html}")
    return 1 if any(flag.severity == "stop" for flag in report.flags) else 0


def _write_page(path: Path, report: OfficeReport) -> None:
    # Only now: a report on the terminal needs neither.
    from sync.office.report_page import build_page
    from sync.papers.paper_files import write_atomically

    try:
        write_atomically(path, build_page(report))
    except OSError as fault:
        raise PageNotWrittenError(path=path, why=fault.strerror or str(fault)) from fault


def _print(report: OfficeReport, by: str) -> None:
    if not report.jobs:
        print("The office holds no job yet.")
        return
    print(f"{CountedNoun(len(report.jobs)):job|jobs}, {span_text(report)}")
    _print_table(work_table(report, by))
    quality = quality_table(report, by)
    if quality.rows:
        _print_table(quality)
    sand = sand_table(report)
    if sand.rows:
        _print_table(sand)
    flags = flag_table(report, _FLAGS_SHOWN)
    print(f"\n{CountedNoun(len(report.flags)):flag stands|flags stand} open.")
    for weight, day, job, said in flags.rows:
        print(f"{weight:5} {day}  {job}: {said}")
    if len(report.flags) > _FLAGS_SHOWN:
        print(f"and {len(report.flags) - _FLAGS_SHOWN} more: --json lists all.")
    for one in report.jobs:
        for odd in caveats(one):
            print(f"note: {single_line(one.name)}: {odd}")


def _print_table(table: Table) -> None:
    behind = table.behind or ("",) * len(table.rows)
    named = (
        (f"{row[0]} ({small})" if small else row[0], *row[1:])
        for row, small in zip(table.rows, behind, strict=True)
    )
    rows = [table.heads, *named]
    widths = [max(len(row[place]) for row in rows) for place in range(len(table.heads))]
    print(f"\n{table.title}")
    for row in rows:
        cells = [row[0].ljust(widths[0])]
        cells += [text.rjust(width) for text, width in zip(row[1:], widths[1:], strict=True)]
        print("  " + "  ".join(cells).rstrip())


def _facts(report: OfficeReport, by: str) -> dict[str, Any]:
    if by == "job":
        lines = [{"name": one.name, "job": one.key, **_worked(one)} for one in report.jobs]
    else:
        told = report.crews if by == "crew" else report.weeks
        lines = [{"name": one.name, "about": one.about, **_worked(one)} for one in told]
    return {
        "from": report.since or None,
        "to": report.until or None,
        "by": by,
        "production": lines,
        "sand": [{"job": job.key, **asdict(sand)} for job in report.jobs for sand in job.sands],
        "flags": [asdict(flag) for flag in report.flags],
        "notes": [f"{job.key}: {said}" for job in report.jobs for said in caveats(job)],
    }


def _worked(line: JobLine | Production) -> dict[str, Any]:
    """Days, amounts and, by what was measured, how much was right the first time."""
    quality = {what: asdict(counts) for what, counts in line.quality.items()}
    days = {"days": line.days, "written_days": line.written_days}
    return {**days, **asdict(line.done), "quality": quality}
