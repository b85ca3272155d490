"""Reads what the Plan and As-built screens show, for the part in front alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from crewapp.job.dispatch import answers
from crewapp.job.open_job import OpenJob
from crewapp.kit.drawing.plan_picture import LineState, PlanPicture
from crewapp.kit.look.palette import Status
from crewapp.pages.plan.asbuilt.presenter import as_built_view, collector_life
from crewapp.pages.plan.drawing_presenter import COLLECTOR_MARK, read_plan_picture
from crewapp.pages.plan.layout_presenter import (
    USES,
    bearing_rows,
    drive_rows,
    layout_rows,
    preview_of,
    use_terms,
)
from crewapp.pages.plan.line_presenter import USE_WORDS, line_life
from crewapp.pages.plan.takeoff_presenter import gates_view, takeoff_view
from crewapp.pages.plan.view import PlanPageView, Row, ShowPlan
from crewapp.words.translate import say
from models.entries.bodies.job import Machine
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import LAYOUT, MACHINE, SURFACE
from models.plan.line import LineUse, PlannedLine
from models.queries.layout.next_pass import is_cut
from models.state.indexes import PASSES

FIRST_LETTERS = {"green": "G", "field": "F", "fairway": "W"}


class _Look(NamedTuple):
    """What the screen asks about: the part in front, the surface, what was typed."""

    part: str
    surface_id: str
    surface: Surface | None
    line_id: str
    use: LineUse
    typed: Mapping[str, Any]
    new: Mapping[str, Any]


@answers(ShowPlan)
def plan_page_view(job: OpenJob, query: ShowPlan) -> PlanPageView:
    """Read the view of a surface, or of the first one; ``new`` is one still to be written."""
    surface_id = query.surface_id
    surfaces = _surfaces(job)
    if query.new and query.part in ("terms", "bearings", "shape", "offsets"):
        surface_id = str(query.new.get("surface_id") or surface_id)
    elif surface_id not in surfaces:
        surface_id = _first(job, surfaces)
    surface = surfaces.get(surface_id)
    line_use: LineUse = "piped_slit" if query.use == "piped_slit" else "sand_slit"
    look = _Look(
        query.part, surface_id, surface, query.line_id, line_use, query.typed or {}, query.new or {}
    )
    layout: SurfaceLayout | None = job.state.latest(LAYOUT, surface_id)
    return PlanPageView(
        figures=job.figures,
        job_name=job.name,
        has_job=job.state.job is not None,
        surface_id=surface_id,
        surface_name=surface.name if surface else str(look.new.get("name") or surface_id),
        surfaces=tuple(_surface_row(job, one) for one in surfaces.values()),
        machines=_machines(job),
        next_names={kind: _free_name(surfaces, kind) for kind in FIRST_LETTERS},
        setback=job.figures.depth(layout.setback_nm) if layout else "",
        built=as_built_view(job, query.collector_id, query.part),
        **_READERS.get(query.part, _nothing)(job, look),
    )


def _plan(job: OpenJob, look: _Look) -> dict[str, Any]:
    if look.surface is None:
        return {}
    picture = read_plan_picture(job, look.surface, job.clock.now().day, ())
    found: dict[str, Any] = {
        "picture": picture,
        "summary": _summary(job, look.surface, picture),
    }
    if look.line_id.startswith(COLLECTOR_MARK):
        life = collector_life(job, look.line_id.removeprefix(COLLECTOR_MARK))
        found |= {"line_id": look.line_id, "life": life}
    elif look.line_id in look.surface.places:
        found |= {"line_id": look.line_id, "life": line_life(job, look.surface, look.line_id)}
    return found


def _laying(job: OpenJob, look: _Look) -> dict[str, Any]:
    if not look.surface_id:
        return {}
    preview = preview_of(job, look.surface_id, look.typed, look.new)
    return {"uses": use_terms(job, look.surface_id), "preview": preview}


def _water(job: OpenJob, look: _Look) -> dict[str, Any]:
    if look.surface is None:
        return {}
    picture = read_plan_picture(job, look.surface, job.clock.now().day, ())
    return {"gates": gates_view(job, look.surface_id), "picture": picture}


def _nothing(job: OpenJob, look: _Look) -> dict[str, Any]:
    return {}


def _bearings(job: OpenJob, look: _Look) -> dict[str, Any]:
    rows, why_not = bearing_rows(job, look.surface_id, look.use, look.typed, look.new)
    uses = use_terms(job, look.surface_id)
    return {"bearings": rows, "bearings_why_not": why_not, "uses": uses}


_READERS: dict[str, Callable[[OpenJob, _Look], dict[str, Any]]] = {
    "plan": _plan,
    "terms": _laying,
    "shape": _laying,
    "bearings": _bearings,
    "drives": lambda job, look: {"drives": drive_rows(job, look.surface_id)},
    "takeoff": lambda job, look: {"takeoff": takeoff_view(job)},
    "item": lambda job, look: {"takeoff": takeoff_view(job)},
    "gates": _water,
    "rain": _water,
}
"""What each part shows besides what all of them need."""


def _surfaces(job: OpenJob) -> dict[str, Surface]:
    found = {name: job.state.latest(SURFACE, name) for name in job.state.every_name(SURFACE)}
    return {name: one for name, one in found.items() if isinstance(one, Surface)}


def _first(job: OpenJob, surfaces: Mapping[str, Surface]) -> str:
    """Surface worked on last, or the first."""
    passes = job.state.current(PASSES)
    last = passes[-1].body if passes else None
    if last is not None and last.surface_id in surfaces:
        return last.surface_id
    return next(iter(surfaces), "")


def _free_name(surfaces: Mapping[str, Surface], use: str) -> str:
    letter, number = FIRST_LETTERS[use], 1
    while f"{letter}{number}" in surfaces:
        number += 1
    return f"{letter}{number}"


def _surface_row(job: OpenJob, surface: Surface) -> Row:
    left = sum(not is_cut(job.state, surface.surface_id, one.line_id) for one in surface.lines)
    detail = say("{count:line|lines} left", count=left)
    if not surface.lines:
        detail = say("no lines laid yet")
    figure = job.figures.distance(sum(line.length_nm for line in surface.lines))
    return Row(f"{surface.surface_id}  {surface.name}", detail, figure, key=surface.surface_id)


def _machines(job: OpenJob) -> tuple[Row, ...]:
    found = (job.state.latest(MACHINE, name) for name in job.state.every_name(MACHINE))
    return tuple(
        Row(
            one.machine_id,
            say("{legs:leg|legs}", legs=one.legs),
            job.figures.depth(one.deepest_nm) if one.deepest_nm is not None else "",
            key=one.machine_id,
        )
        for one in found
        if isinstance(one, Machine) and one.legs
    )


def _summary(job: OpenJob, surface: Surface, picture: PlanPicture) -> tuple[Row, ...]:
    """Read how the surface stands: done, today, out, and how it was laid."""
    rows = []
    for use in USES:
        lines = [line for line in surface.lines if line.use == use]
        if lines:
            cut = [one for one in lines if is_cut(job.state, surface.surface_id, one.line_id)]
            title = say("{count:line|lines}, {use}", count=len(lines), use=say(USE_WORDS[use]))
            planned = job.figures.distance(sum(line.length_nm for line in lines))
            done = say("{cut} cut of {planned}", cut=_length(job, cut), planned=planned)
            rows.append(Row(title, done, f"{len(cut) * 100 // len(lines)} %"))
    for state, words, status in (
        (LineState.TODAY, say("Cut today"), ""),
        (LineState.OUT, say("With a reading that is out"), Status.OUT),
    ):
        names = [line.label for line in picture.lines if line.state is state]
        if names:
            shown = ", ".join(names[:12]) + (" ..." if len(names) > 12 else "")
            rows.append(Row(words, shown, str(len(names)), status))
    layout: SurfaceLayout | None = job.state.latest(LAYOUT, surface.surface_id)
    if layout is not None:
        laid = layout_rows(surface, layout, job.figures)
        rows += [row for row in laid if not row.title.startswith(tuple("0123456789"))]
    return tuple(rows)


def _length(job: OpenJob, lines: list[PlannedLine]) -> str:
    return job.figures.distance(sum(line.length_nm for line in lines), unit=False)
