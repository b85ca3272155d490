"""Reads what the Loads screen shows."""

from __future__ import annotations

from collections.abc import Callable

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.kit.input.work_fields import ticket_letters
from crewapp.kit.look.palette import Status
from crewapp.pages.lines.entry_line import entry_line
from crewapp.pages.lines.undo_presenter import local_time
from crewapp.pages.loads.view import LoadsView, MaterialRow, ShowLoads
from crewapp.pages.passes.coils_presenter import coils_of
from crewapp.pages.passes.view import PassEntry
from crewapp.words.translate import say
from models.entries.bodies.job import Material
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import AnyEntry
from models.entries.kind_names import MATERIAL, SURFACE
from models.queries.materials.sand_balance import on_hand_pl
from models.state.indexes import (
    COIL_IN,
    DELIVERED_NM,
    DELIVERED_PL,
    DELIVERED_UG,
    LAID_NM,
    PASSES,
    PLACED_PL,
    PLACED_UG,
    SPOIL_PL_ON,
    TICKET_IN,
)

LOAD_KINDS = frozenset({"delivery", "sand_placed", "spoil", "pipe_laid"})


@answers(ShowLoads)
def loads_view(job: OpenJob, query: ShowLoads) -> LoadsView:
    """Read the view for the clock's day."""
    day = job.clock.now().day
    surface_id, pass_id = _place_of_work(job)
    surface = job.state.latest(SURFACE, surface_id)
    away = job.state.total(SPOIL_PL_ON, day)
    return LoadsView(
        figures=job.figures,
        materials=tuple(_material(job, name) for name in job.state.every_name(MATERIAL)),
        coils=coils_of(job),
        today=tuple(_row(job, entry) for entry in _loads_of(job, day)),
        surface_id=surface_id,
        surface_name=surface.name if isinstance(surface, Surface) else "",
        pass_id=pass_id,
        spoil_text=say("{volume} away today", volume=job.figures.volume(away)) if away else "",
        next_coil=_next_coil(job),
        ticket_letters=_ticket_letters(job),
    )


def _place_of_work(job: OpenJob) -> tuple[str, str]:
    """Surface and pass worked on last; the first surface before any pass."""
    passes = job.state.current(PASSES)
    if passes:
        last = passes[-1].body
        return last.surface_id, last.pass_id
    return next(iter(job.state.every_name(SURFACE)), ""), ""


def _loads_of(job: OpenJob, day: str) -> list[AnyEntry]:
    """Loads of a day, struck ones too, newest first."""
    found = [e for e in job.state.days.get(day, []) if e.kind in LOAD_KINDS and e.body]
    return found[::-1]


def _row(job: OpenJob, entry: AnyEntry) -> PassEntry:
    is_struck = job.state.is_struck(entry.id)
    detail = local_time(entry)
    if is_struck:
        strikers = (job.state.entries.get(id) for id in job.state.struck_by[entry.id])
        why = "; ".join(one.reason for one in strikers if one is not None)
        detail = say("{time}, struck: {why}", time=detail, why=why)
    return PassEntry(entry.id, entry.kind, entry_line(entry, job.figures), detail, "", is_struck)


def _ticket_letters(job: OpenJob) -> str:
    """The letters of the ticket that came in last: its number is never offered."""
    tickets = list(job.state.every_name(TICKET_IN))
    return ticket_letters(tickets[-1]) if tickets else ""


def _next_coil(job: OpenJob) -> str:
    used = set(job.state.every_name(COIL_IN))
    number = len(used) + 1
    while f"coil {number}" in used:
        number += 1
    return f"coil {number}"


def _material(job: OpenJob, name: str) -> MaterialRow:
    body = job.state.latest(MATERIAL, name)
    assert isinstance(body, Material)
    hopper = job.figures.volume(body.hopper_pl) if body.hopper_pl else ""
    left, status = _left(job, body)
    return MaterialRow(
        name, body.use, _detail(job, body), left, status, hopper, body.coil_nm is not None
    )


def _detail(job: OpenJob, body: Material) -> str:
    """Say what came in, what was placed and what is planned, as it was measured."""
    figures, state, name = job.figures, job.state, body.material_id
    came = [
        *_amount(figures.mass, state.total(DELIVERED_UG, name)),
        *_amount(figures.volume, state.total(DELIVERED_PL, name)),
        *_amount(figures.length, state.total(DELIVERED_NM, name)),
    ]
    gone = [
        *_amount(figures.mass, state.total(PLACED_UG, name)),
        *_amount(figures.volume, state.total(PLACED_PL, name)),
    ]
    laid = job.state.total(LAID_NM, body.material_id)
    if laid:
        gone.append(job.figures.length(laid))
    parts = [say("in {amount}", amount=" + ".join(came) or say("none"))]
    if gone:
        parts.append(say("out {amount}", amount=" + ".join(gone)))
    planned = _planned(job, body)
    if planned:
        parts.append(say("plan {amount}", amount=planned))
    return ", ".join(parts)


def _amount(show: Callable[[int], str], amount: int) -> list[str]:
    """An amount as it is shown, where there is any."""
    return [show(amount)] if amount else []


def _planned(job: OpenJob, body: Material) -> str:
    if body.planned_mass_ug:
        return job.figures.mass(body.planned_mass_ug)
    if body.planned_volume_pl:
        return job.figures.volume(body.planned_volume_pl)
    return job.figures.length(body.planned_length_nm) if body.planned_length_nm else ""


def _left(job: OpenJob, body: Material) -> tuple[str, str]:
    """What is on hand, and whether that can be; nothing where it can't be reckoned."""
    name, state = body.material_id, job.state
    if body.use == "pipe":
        left = state.total(DELIVERED_NM, name) - state.total(LAID_NM, name)
        text = job.figures.length(abs(left))
    else:
        volume = on_hand_pl(job.state, name)
        if volume is None:
            return say("weigh a box"), Status.CHECK
        left, text = volume, job.figures.volume(abs(volume))
    came = any(state.total(one, name) for one in (DELIVERED_UG, DELIVERED_PL, DELIVERED_NM))
    if left < 0:
        return say("{amount} more out than in", amount=text), Status.CHECK
    if not came:
        return "", Status.NOT_MEASURED
    if body.use not in ("sand", "gravel", "pipe"):
        return say("on site"), Status.OK
    return say("{amount} left", amount=text), Status.OK if left else Status.CHECK
