"""How the things stand that a morning begins with: flags, tickets, laser, sand."""

from __future__ import annotations

from datetime import date

from crewapp.open_job import OpenJob
from crewapp.palette import Status
from crewapp.state.today import Standing
from crewapp.wording import say
from models.checks.board import Flag
from models.checks.finding import Severity
from models.entries.job import LocateTicket
from models.sand_balance import on_hand_pl


def standings(job: OpenJob, day: str, flags: list[Flag]) -> tuple[Standing, ...]:
    """Return what stands open and what is good, the worst first within its place."""
    return (_flags(flags), _ticket(job, day), _laser(job, day), *_sand(job))


def _flags(flags: list[Flag]) -> Standing:
    name = say("Flags")
    if not flags:
        return Standing(name, say("nothing stands open"), Status.OK, "flags")
    stops = sum(flag.severity is Severity.STOP for flag in flags)
    text = say("{count} open", count=len(flags))
    if stops:
        text = say("{count} open, {stops} stop work", count=len(flags), stops=stops)
    return Standing(name, text, Status.OUT if stops else Status.CHECK, "flags")


def _ticket(job: OpenJob, day: str) -> Standing:
    name = say("Locate")
    tickets = [
        job.state.latest("locate_ticket", one) for one in job.state.all_names("locate_ticket")
    ]
    good = [
        t for t in tickets if isinstance(t, LocateTicket) and t.valid_from <= day <= t.expires_on
    ]
    if not good:
        return Standing(name, say("none: do not dig"), Status.OUT, "day")
    last = max(good, key=lambda ticket: ticket.expires_on)
    left = (date.fromisoformat(last.expires_on) - date.fromisoformat(day)).days
    text = say("in date, {days} days left", days=left)
    return Standing(name, text, Status.OK if left > 2 else Status.CHECK, "day")


def _laser(job: OpenJob, day: str) -> Standing:
    name = say("Laser")
    setups = [entry for entry in job.state.current("setups") if entry.day == day]
    if not setups:
        return Standing(name, say("no setup yet"), Status.NOT_MEASURED, "grade")
    setup_id = setups[-1].body.setup_id  # type: ignore[union-attr]
    shots = job.state.current("check_shot", setup_id)
    out = job.board.found("check_shot_out", setup_id)
    if out:
        return Standing(name, say("{setup} is out", setup=setup_id), Status.OUT, "grade")
    if not shots:
        text = say("{setup} not checked", setup=setup_id)
        return Standing(name, text, Status.CHECK, "grade")
    return Standing(name, say("{setup} checked", setup=setup_id), Status.OK, "grade")


def _sand(job: OpenJob) -> list[Standing]:
    rows = []
    for material_id in job.state.all_names("material"):
        material = job.state.latest("material", material_id)
        if material is None or material.use != "sand":
            continue
        left_pl = on_hand_pl(job.state, material_id)
        if left_pl is None:
            text, status = say("density not known"), Status.NOT_MEASURED
        else:
            text = say("{volume} on hand", volume=job.figures.volume(max(left_pl, 0)))
            status = Status.OK if left_pl > 0 else Status.CHECK
        rows.append(Standing(material.material_id, text, status, "loads"))
    return rows
