"""How the things stand that a morning begins with: flags, tickets, laser, sand."""

from __future__ import annotations

from datetime import date

from crewapp.job.open_job import OpenJob
from crewapp.kit.look.palette import Status
from crewapp.pages.today.view import ReadinessRow
from crewapp.words.translate import say
from models.checks.finding import Severity
from models.checks.flag_board import Flag
from models.checks.safety.locate_cover import covers
from models.entries.bodies.job import LocateTicket
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import CHECK_SHOT, COLLECTOR, LOCATE_TICKET, MATERIAL, SURFACE
from models.queries.layout.next_pass import is_cut
from models.queries.levelling.peg_tests import unproven_laser
from models.queries.materials.sand_balance import on_hand_pl
from models.state.indexes import PIPE_IN_COLLECTOR, SETUPS

TICKETS = "day/tickets"
"""Where a tap on the ticket leads: a page, and the part of it."""


def readiness_rows(job: OpenJob, day: str, flags: list[Flag]) -> tuple[ReadinessRow, ...]:
    """Return what stands open and what is good, the worst first within its place."""
    return (_flags(flags), _ticket(job, day), _laser(job, day), *_sand(job))


def _flags(flags: list[Flag]) -> ReadinessRow:
    name = say("Flags")
    if not flags:
        return ReadinessRow(name, say("nothing open"), Status.OK, "flags")
    stops = sum(flag.severity is Severity.STOP for flag in flags)
    text = say("{count} open", count=len(flags))
    if stops:
        text = say("{count} open, {stops:stops|stop}", count=len(flags), stops=stops)
    return ReadinessRow(name, text, Status.OUT if stops else Status.CHECK, "flags")


def tickets_in_date(job: OpenJob, day: str) -> list[LocateTicket]:
    """Return the locate tickets that cover a day; without one nobody may dig."""
    names = job.state.every_name(LOCATE_TICKET)
    tickets = [job.state.latest(LOCATE_TICKET, one) for one in names]
    return [
        t for t in tickets if isinstance(t, LocateTicket) and t.valid_from <= day <= t.expires_on
    ]


def places_left(job: OpenJob) -> list[str]:
    """Return the surfaces with a line to cut and the collectors with pipe to lay."""
    left = []
    for name in job.state.every_name(SURFACE):
        surface = job.state.latest(SURFACE, name)
        lines = surface.lines if isinstance(surface, Surface) else ()
        if any(not is_cut(job.state, name, line.line_id) for line in lines):
            left.append(name)
    for name in job.state.every_name(COLLECTOR):
        collector = job.state.latest(COLLECTOR, name)
        laid_nm = sum(pipe.length_nm for pipe in job.state.bodies(PIPE_IN_COLLECTOR, name))
        if isinstance(collector, Collector) and laid_nm < collector.design.length_nm:
            left.append(name)
    return left


def _ticket(job: OpenJob, day: str) -> ReadinessRow:
    """How the ticket stands that ends first where there is still ground to open."""
    name, good = say("Locate"), tickets_in_date(job, day)
    if not good:
        return ReadinessRow(name, say("none: do not dig"), Status.OUT, TICKETS)
    places = places_left(job)
    ends = {
        place: max((one.expires_on for one in good if covers(one, place)), default="")
        for place in places
    }
    bare = [place for place, end in ends.items() if not end]
    if bare:
        return ReadinessRow(
            name, say("none for {places}", places=", ".join(bare)), Status.OUT, TICKETS
        )
    end = min(ends.values(), default=max(one.expires_on for one in good))
    left = (date.fromisoformat(end) - date.fromisoformat(day)).days
    first = [place for place in places if ends[place] == end]
    text = say("{days:day|days} left", days=left) if left else say("last day")
    if len(first) < len(places):
        text = say("{text}: {places}", text=text, places=", ".join(first))
    return ReadinessRow(name, text, Status.OK if left > 2 else Status.CHECK, TICKETS)


def _laser(job: OpenJob, day: str) -> ReadinessRow:
    name = say("Laser")
    setups = [entry for entry in job.state.current(SETUPS) if entry.day == day]
    if not setups:
        return ReadinessRow(name, say("no setup yet"), Status.NOT_MEASURED, "grade")
    setup_id = setups[-1].body.setup_id
    shots = job.state.current(CHECK_SHOT, setup_id)
    out = job.board.findings_about("check_shot_out", setup_id)
    if out:
        return ReadinessRow(name, say("{setup} is out", setup=setup_id), Status.OUT, "grade")
    if unproven_laser(job.state, setup_id) is not None:
        return ReadinessRow(name, say("peg test wanted"), Status.CHECK, "grade")
    if not shots:
        text = say("{setup} not checked", setup=setup_id)
        return ReadinessRow(name, text, Status.CHECK, "grade")
    return ReadinessRow(name, say("{setup} checked", setup=setup_id), Status.OK, "grade")


def _sand(job: OpenJob) -> list[ReadinessRow]:
    """How the sand stands that there is least of; one tile, however many sands a job has."""
    rows = []
    for material_id in job.state.every_name(MATERIAL):
        material = job.state.latest(MATERIAL, material_id)
        if material is None or material.use != "sand":
            continue
        left_pl = on_hand_pl(job.state, material_id)
        rows.append((left_pl or 0, left_pl is None))
    if not rows:
        return []
    left_pl, is_unknown = min(rows)
    name = say("Sand")
    if is_unknown:
        return [ReadinessRow(name, say("density unknown"), Status.NOT_MEASURED, "loads")]
    volume = job.figures.volume(abs(left_pl))
    text = say("{volume} left", volume=volume)
    if left_pl < 0:
        text = say("{amount} more out than in", amount=volume)
    elif len(rows) > 1:
        text = say("least {volume}", volume=volume)
    return [ReadinessRow(name, text, Status.OK if left_pl > 0 else Status.CHECK, "loads")]
