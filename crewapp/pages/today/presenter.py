"""The Today screen's view: what is done, what is left, the one next thing."""

from __future__ import annotations

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import shorten
from crewapp.kit.look.palette import Status
from crewapp.pages.today.readiness_presenter import TICKETS, readiness_rows, tickets_in_date
from crewapp.pages.today.view import GroundRow, ShowToday, TodayView
from crewapp.words.dates import without_year
from crewapp.words.translate import say
from models.checks.finding import Severity
from models.checks.flag_board import Flag
from models.checks.safety.go_ahead import Answer, dig_go_ahead
from models.checks.safety.locate_cover import covers
from models.entries.bodies.job import Machine
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import COLLECTOR, MACHINE, SURFACE
from models.plan.line import LineUse
from models.queries.layout.next_pass import is_cut, next_lines
from models.queries.levelling.elevations import current_inverts
from models.state.indexes import PIPE_IN_COLLECTOR

LONGEST_NAME = 24
"""Letters of a surface's name on the one next key, whose words stand in two lines."""
USES: tuple[LineUse, ...] = ("sand_slit", "piped_slit")


@answers(ShowToday)
def today_view(job: OpenJob, query: ShowToday) -> TodayView:
    """Read the view for the clock's day; ``store`` is where this tablet exchanges."""
    day = job.clock.now().day
    flags = job.board.open_flags()
    title, detail, tab = _next_thing(job, day, flags)
    return TodayView(
        job=job.name,
        day=day,
        day_words=without_year(day),
        next_title=title,
        next_detail=detail,
        next_tab=tab,
        ground=(*_surfaces(job, flags), *_collectors(job, flags)),
        standing=readiness_rows(job, day, flags),
        open_flags=len(flags),
        is_closed=job.state.is_closed(day),
        exchange=_exchange_line(job, query.store),
    )


def _exchange_line(job: OpenJob, store: str) -> str:
    """Say in one line what waits for the others; nothing where nobody exchanges."""
    if not store or job.state.job is None:
        return ""
    from crewapp.pages.exchange.unsent_presenter import (
        unsent_line,  # brings the exchange in: not for everybody
    )

    return unsent_line(job, store)


def _next_thing(job: OpenJob, day: str, flags: list[Flag]) -> tuple[str, str, str]:
    stops = [flag for flag in flags if flag.severity is Severity.STOP]
    if job.state.job is None:
        return say("Set up the job"), say("This book has no plan yet"), "jobs"
    if job.state.is_closed(day):
        return say("Day closed"), say("Its sheet is ready to hand over"), "day"
    answer = say("Answer the flags"), say("flags that stop the work: {count}", count=len(stops))
    if any(flag.finding.check == "utility_hit" for flag in stops):
        return *answer, "flags"  # people are kept away before anything else
    if not job.author:
        return say("Say who writes"), say("Every entry carries your name"), "settings"
    if not tickets_in_date(job, day):
        return say("Add the ticket"), say("No locate ticket in date: do not dig"), TICKETS
    if stops:
        return *answer, "flags"
    return (
        _next_cut(job)
        or _next_shot(job)
        or (
            say("Close the day"),
            say("Every planned line is cut"),
            "day",
        )
    )


def _next_cut(job: OpenJob) -> tuple[str, str, str] | None:
    """Propose a cut where a ticket covers the ground; where none does, the ticket comes first."""
    bare: tuple[str, str, str] | None = None
    for surface_id in job.state.every_name(SURFACE):
        surface = job.state.latest(SURFACE, surface_id)
        text = _lines_to_cut(job, surface) if isinstance(surface, Surface) else ""
        if not text:
            continue
        day = job.clock.now().day
        ends = [one.expires_on for one in tickets_in_date(job, day) if covers(one, surface_id)]
        if ends:
            ticket = say("{cut}; ticket to {day}", cut=text, day=without_year(max(ends)))
            return say("Cut the next pass"), ticket, "pass"
        if bare is None and isinstance(surface, Surface):
            name = shorten(surface.name, LONGEST_NAME)
            told = say("Do not cut yet: no locate ticket covers {place}.", place=name)
            bare = say("Add the ticket"), told, TICKETS
    return bare


def _lines_to_cut(job: OpenJob, surface: Surface) -> str:
    for use in USES:
        lines = next_lines(job.state, surface, use, first_cutter(job))
        if lines:
            names = ", ".join(line.line_id for line in lines)
            name = shorten(surface.name, LONGEST_NAME)
            return say("{surface}: lines {lines}", surface=name, lines=names)
    return ""


def _next_shot(job: OpenJob) -> tuple[str, str, str] | None:
    for collector_id in job.state.every_name(COLLECTOR):
        collector = job.state.latest(COLLECTOR, collector_id)
        if isinstance(collector, Collector) and not current_inverts(job.state, collector_id):
            day = job.clock.now().day
            if dig_go_ahead(job.state, collector_id, day).answer is Answer.NO:
                name = shorten(collector.name, LONGEST_NAME)
                told = say("Do not dig yet: no locate ticket covers {place}.", place=name)
                return say("Add the ticket"), told, TICKETS
            return say("Shoot the collector"), collector.name, "grade"
    return None


def first_cutter(job: OpenJob) -> Machine | None:
    """Return the first machine of the job that cuts slits, or None."""
    machines = (job.state.latest(MACHINE, name) for name in job.state.every_name(MACHINE))
    return next((one for one in machines if isinstance(one, Machine) and one.legs), None)


def _surfaces(job: OpenJob, flags: list[Flag]) -> list[GroundRow]:
    rows = []
    for surface_id in job.state.every_name(SURFACE):
        surface = job.state.latest(SURFACE, surface_id)
        if surface is None:
            continue
        planned = sum(line.length_nm for line in surface.lines)
        done = sum(
            line.length_nm for line in surface.lines if is_cut(job.state, surface_id, line.line_id)
        )
        rows.append(
            GroundRow(
                key=f"surface:{surface_id}",
                name=surface.name,
                done=job.figures.distance(done, unit=False),
                planned=job.figures.distance(planned),
                permille=done * 1000 // planned if planned else 0,
                status=_status(flags, surface_id, done > 0),
            )
        )
    return rows


def _collectors(job: OpenJob, flags: list[Flag]) -> list[GroundRow]:
    rows = []
    for collector_id in job.state.every_name(COLLECTOR):
        collector = job.state.latest(COLLECTOR, collector_id)
        if collector is None:
            continue
        laid = sum(pipe.length_nm for pipe in job.state.bodies(PIPE_IN_COLLECTOR, collector_id))
        length = collector.design.length_nm
        rows.append(
            GroundRow(
                key=f"collector:{collector_id}",
                name=collector.name,
                done=job.figures.distance(laid, unit=False),
                planned=job.figures.distance(length),
                permille=min(laid * 1000 // length, 1000) if length else 0,
                status=_status(flags, collector_id, laid > 0),
            )
        )
    return rows


def _status(flags: list[Flag], name: str, is_begun: bool) -> str:
    about = [flag for flag in flags if name in flag.finding.subject]
    if any(flag.severity is Severity.STOP for flag in about):
        return Status.OUT
    if about:
        return Status.CHECK
    return Status.OK if is_begun else Status.NOT_MEASURED
