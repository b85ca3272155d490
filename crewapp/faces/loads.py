"""Reads what the Loads screen shows."""

from __future__ import annotations

from typing import Any

from crewapp.faces.coils import coils_of
from crewapp.faces.inked import local_time
from crewapp.faces.said import said
from crewapp.open_job import OpenJob
from crewapp.palette import Status
from crewapp.state.loads import LoadsFace, MaterialRow
from crewapp.state.slit_fields import ticket_letters
from crewapp.state.slit_pass import Written
from crewapp.wording import say
from models.entries.envelope import Entry
from models.entries.job import Material
from models.entries.surface import Surface
from models.sand_balance import on_hand_pl

LOAD_KINDS = frozenset({"delivery", "sand_placed", "spoil", "pipe_laid"})


def loads_face(job: OpenJob) -> LoadsFace:
    """Read the face for the clock's day."""
    day = job.clock.now().day
    surface_id, pass_id = _place_of_work(job)
    surface = job.state.latest("surface", surface_id)
    away = job.state.sums[("spoil_pl_on", day)]
    return LoadsFace(
        figures=job.figures,
        materials=tuple(_material(job, name) for name in job.state.all_names("material")),
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
    passes = job.state.current("passes")
    if passes:
        last: Any = passes[-1].body
        return last.surface_id, last.pass_id
    return next(iter(job.state.all_names("surface")), ""), ""


def _loads_of(job: OpenJob, day: str) -> list[Entry]:
    """Loads of a day, struck ones too, newest first."""
    found = [e for e in job.state.days.get(day, []) if e.kind in LOAD_KINDS and e.body]
    return found[::-1]


def _row(job: OpenJob, entry: Entry) -> Written:
    is_struck = job.state.is_struck(entry.id)
    detail = local_time(entry)
    if is_struck:
        strikers = (job.state.entries.get(id) for id in job.state.struck_by[entry.id])
        why = "; ".join(one.reason for one in strikers if one is not None)
        detail = say("{time}, struck: {why}", time=detail, why=why)
    return Written(entry.id, entry.kind, said(entry, job.figures), detail, "", is_struck)


def _ticket_letters(job: OpenJob) -> str:
    """The letters of the ticket that came in last: its number is never offered."""
    tickets = list(job.state.all_names("ticket_in"))
    return ticket_letters(tickets[-1]) if tickets else ""


def _next_coil(job: OpenJob) -> str:
    used = set(job.state.all_names("coil_in"))
    number = len(used) + 1
    while f"coil {number}" in used:
        number += 1
    return f"coil {number}"


def _material(job: OpenJob, name: str) -> MaterialRow:
    body = job.state.latest("material", name)
    assert isinstance(body, Material)
    hopper = job.figures.volume(body.hopper_pl) if body.hopper_pl else ""
    left, status = _left(job, body)
    return MaterialRow(
        name, body.use, _detail(job, body), left, status, hopper, body.coil_nm is not None
    )


def _detail(job: OpenJob, body: Material) -> str:
    """Say what came in, what was placed and what is planned, as it was measured."""
    came = _amounts(job, body.material_id, "delivered")
    gone = _amounts(job, body.material_id, "placed")
    laid = job.state.sums[("laid_nm", body.material_id)]
    if laid:
        gone.append(job.figures.length(laid))
    parts = [say("in {amount}", amount=" + ".join(came) or say("none"))]
    if gone:
        parts.append(say("out {amount}", amount=" + ".join(gone)))
    planned = _planned(job, body)
    if planned:
        parts.append(say("plan {amount}", amount=planned))
    return ", ".join(parts)


def _amounts(job: OpenJob, name: str, way: str) -> list[str]:
    sums, figures = job.state.sums, job.figures
    told = []
    for unit, show in (("ug", figures.mass), ("pl", figures.volume), ("nm", figures.length)):
        amount = sums[(f"{way}_{unit}", name)]
        if amount:
            told.append(show(amount))
    return told


def _planned(job: OpenJob, body: Material) -> str:
    if body.planned_mass_ug:
        return job.figures.mass(body.planned_mass_ug)
    if body.planned_volume_pl:
        return job.figures.volume(body.planned_volume_pl)
    return job.figures.length(body.planned_length_nm) if body.planned_length_nm else ""


def _left(job: OpenJob, body: Material) -> tuple[str, str]:
    """What is on hand, and whether that can be; nothing where it can't be reckoned."""
    name, sums = body.material_id, job.state.sums
    if body.use == "pipe":
        left = sums[("delivered_nm", name)] - sums[("laid_nm", name)]
        text = job.figures.length(abs(left))
    else:
        volume = on_hand_pl(job.state, name)
        if volume is None:
            return say("weigh a box"), Status.CHECK
        left, text = volume, job.figures.volume(abs(volume))
    came = any(sums[(f"delivered_{unit}", name)] for unit in ("ug", "pl", "nm"))
    if left < 0:
        return say("{amount} more out than in", amount=text), Status.CHECK
    if not came:
        return "", Status.NOT_MEASURED
    if body.use not in ("sand", "gravel", "pipe"):
        return say("on site"), Status.OK
    return say("{amount} left", amount=text), Status.OK if left else Status.CHECK
