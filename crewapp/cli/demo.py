"""``crewapp demo``: makes the invented job, works it to its end, prints its sheets."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from crewapp.cli.example import Example
from crewapp.cli.papers.sheet import write_sheets
from crewapp.demo.folder import AS_BUILT, BOOK, FINISHED, PLAN, SHEETS, put_papers, room_for_demo
from crewapp.demo.story import REST, WatchedJob, WorkedDay, demo_job, demo_to_its_end, work_days
from crewapp.handlers.asbuilt import make_as_built
from crewapp.job.open_job import OpenJob
from crewapp.words.translate import translate_later
from models.checks.finding import Severity
from models.checks.finding_text import sentence
from models.checks.registry import severity_of
from models.counted import CountedNoun
from models.entries.kind_names import COLLECTOR
from models.queries.grade.relay_advice import relay_advice
from models.state.check_code import check_code

EXAMPLES = (
    Example(
        "crewapp demo --out demo",
        translate_later("The invented job with its sheets, in a folder demo"),
    ),
)


_LARGEST_FIRST = {Severity.STOP: 0, Severity.FIX: 1, Severity.NOTE: 2}


def run(args: argparse.Namespace) -> int:
    """Make the demo anew; with ``--open``, show it in the app."""
    if not (args.open or args.finished):
        _make_and_tell(args)
        return 0
    from crewapp.cli.open import open_app
    from crewapp.device.display import find_display

    with find_display() as display:  # asked first: nothing is made for a window that can't come
        _make_and_tell(args)
        return open_app(args.out / (FINISHED if args.finished else BOOK), display)


def _make_and_tell(args: argparse.Namespace) -> None:
    told = make_demo(args.out, quiet=args.json)
    if args.json:
        print(json.dumps(told, ensure_ascii=False))
    else:
        _print_next(told)


def make_demo(folder: Path, *, quiet: bool = False) -> dict[str, Any]:
    """Make the book and its sheets; return what was made as plain facts.

    Raises
    ------
    DemoFolderError
        If the folder holds anything but an earlier demo, or can't be used; nothing was changed.
    """
    with room_for_demo(folder) as fresh:
        return _work(_Place(folder, fresh), quiet)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where the demo is to lie, and where it is made until it is whole."""

    folder: Path
    fresh: Path

    def path_text(self, path: Path) -> str:
        """Return where a file will lie."""
        return str(self.folder / path.relative_to(self.fresh))


def _work(place: _Place, quiet: bool) -> dict[str, Any]:
    """Work the job and print its papers; return what was made."""
    days: list[dict[str, Any]] = []
    with demo_job(place.fresh / BOOK) as job:
        _say(quiet, f"Book {place.folder / BOOK}: {job.name}, plan inked.")
        for worked in work_days(job):
            days.append(_print_day(job, worked, days, place))
            _say(quiet, *_day_lines(days[-1]))
        told: dict[str, Any] = {
            "book": str(place.folder / BOOK),
            "job": job.name,
            "entries": job.book.count(),
            "days": days,
            "open_flags": len(job.board.open_flags()),
        }
        told["papers"] = [place.path_text(path) for path in put_papers(place.fresh)]
        told["plan"] = [place.path_text(path) for path in _print_plan(job, place.fresh)]
        _say(quiet, *(f"  plan {path}" for path in told["plan"]))
        with demo_to_its_end(job, place.fresh / FINISHED) as ending:
            told["finished"] = _finish(ending, place, quiet=quiet)
    return told


def _print_day(
    job: OpenJob, worked: WorkedDay, days: list[dict[str, Any]], place: _Place
) -> dict[str, Any]:
    """Print the sheet of a day, and again those of days that were reopened."""
    files = [
        place.path_text(path)
        for day in (*_changed_since(job, days), worked.day)
        for path in write_sheets(job, day, place.fresh / SHEETS)
    ]
    return _tell_day(job, worked, files)


def _finish(job: WatchedJob, place: _Place, *, quiet: bool) -> dict[str, Any]:
    """Work the copy of the job to its end."""
    _say(quiet, f"\nBook {place.folder / FINISHED}: the same job, worked to its end and after.")
    days: list[dict[str, Any]] = []
    for worked in work_days(job, REST):
        days.append(_tell_day(job, worked, ()))
        _say(quiet, f"{worked.day}: {CountedNoun(worked.entries):entry|entries} inked")
    made = make_as_built(job, folder=str(place.fresh / AS_BUILT))
    _say(
        quiet, f"  as built, {CountedNoun(len(made.files)):file|files} in {place.folder / AS_BUILT}"
    )
    return {
        "book": str(place.folder / FINISHED),
        "entries": job.book.count(),
        "days": days,
        "as_built": [place.path_text(path) for path in made.files],
        "left_out": [{"file": name, "sentence": why} for name, why in made.left_out],
        "check_code": made.check_code,
    }


def _print_plan(job: OpenJob, folder: Path) -> list[Path]:
    """Print the take-off, and what is to be staked the next morning."""
    from models.queries.takeoff.job_takeoff import job_takeoff
    from sync.papers.stakeout.facts import PadQuestion
    from sync.papers.stakeout.stakeout_files import write_stakeout_sheets
    from sync.papers.takeoff.takeoff_files import write_takeoff_sheets

    files = write_takeoff_sheets(job.state, job_takeoff(job.state), folder / PLAN)
    files += write_stakeout_sheets(job.state, PadQuestion(setup_id="L3"), folder / PLAN)
    return files


def _changed_since(job: OpenJob, days: list[dict[str, Any]]) -> list[str]:
    """Days whose sheet was printed and has changed since: they were reopened."""
    return [day["day"] for day in days if check_code(job.state, day["day"]) != day["check_code"]]


def _tell_day(job: OpenJob, worked: WorkedDay, files: Iterable[str]) -> dict[str, Any]:
    found = sorted(worked.raised, key=lambda one: _LARGEST_FIRST[severity_of(one)])
    return {
        "day": worked.day,
        "check_code": check_code(job.state, worked.day),
        "entries": worked.entries,
        "found": [
            {
                "severity": severity_of(one).value,
                "flag": one.key,
                "sentence": sentence(one, job.figures),
            }
            for one in found
        ],
        "re_lay": list(_advice_lines(job)),
        "files": list(files),
    }


def _advice_lines(job: OpenJob) -> Iterator[str]:
    """What to do about each collector that does not lie right, with the least pipe disturbed."""
    figures = job.figures
    for collector_id in job.state.every_name(COLLECTOR):
        told = relay_advice(job.state, collector_id)
        if told is None or not told.is_needed:
            continue
        moves = [(move, "raise") for move in told.lift] + [(move, "lower") for move in told.lower]
        words = [
            f"{verb} {figures.station(move.station_nm)} by {figures.rise(move.rise_nm)}"
            for move, verb in moves
        ]
        words = words or [told.no_way]
        disturbed = figures.length(told.disturbed_nm)
        yield f"{collector_id}: {', '.join(words)}; {disturbed} of pipe is disturbed."


def _day_lines(day: dict[str, Any]) -> list[str]:
    lines = [
        f"\n{day['day']}: {CountedNoun(day['entries']):entry|entries} inked, found on the way:"
    ]
    lines += [f"  {one['severity'].upper():5} {one['sentence']}" for one in day["found"]]
    lines += [f"  least re-lay of {line}" for line in day["re_lay"]]
    return lines + [f"  sheet {path}" for path in day["files"]]


def _say(quiet: bool, *lines: str) -> None:
    if not quiet:
        with suppress(BrokenPipeError):  # nobody reads on, but the demo is still made whole
            print(*lines, sep="\n", flush=True)


def _print_next(told: dict[str, Any]) -> None:
    book, day = told["book"], told["days"][-1]["day"]
    print(
        f"\n{CountedNoun(told['entries']):entry|entries} in all, "
        f"{CountedNoun(told['open_flags']):flag|flags} still open. Next:\n"
        f"  crewapp demo --open       open the app on it\n"
        f"  crewapp check {book}      what stands open\n"
        f"  crewapp verify {book} --day {day}      prove the last sheet\n"
        f"  crewapp demo --finished   open the same job as it ended"
    )
