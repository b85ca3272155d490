"""Brings a drawn file into the plan: a surface's outline, keep-outs, a collector's course."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from crewapp.commands.plan.layout import LayoutRequest
from crewapp.handlers.plan.local_plane import plane_to_write
from crewapp.handlers.plan.plan_entries import set_up_all
from crewapp.handlers.plan.traced_rings import TracedRings
from crewapp.job.open_job import JobChanges, OpenJob
from models.audit.plan_audit import audit, refuse
from models.audit.plan_view import DrawnKeepOut, PlanView, first_lines
from models.counted import CountedNoun
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import body_fields
from models.entries.kind_names import COLLECTOR, LAYOUT
from models.errors import CrewError
from models.plan.collector import PlanPoint
from models.plan.layout import PlannedKeepOut
from models.queries.layout.lay_lines import plan_points, points_of
from models.readers.outlines.read_shapes import NamedPoint, PlanShapes, TracedShape
from models.science.shapes.outline import LEAST_AREA_NM2, LEAST_KEEP_OUT_NM2
from models.science.shapes.rings import path_length_nm


class PickError(CrewError, LookupError):
    """A file draws none of what is wanted, or several, and none was picked."""

    code = "outlines.pick"
    sentence = "Nothing was written: {name} draws {met}. {accepted}."


class UnknownCollectorError(CrewError, LookupError):
    """A course was brought for a collector that the plan does not have."""

    code = "outlines.unknown_collector"
    sentence = (
        "Nothing was written: the plan has no collector {collector}. It has {known}. A collector "
        "comes with its design in a plan file."
    )


def outline_request(
    shapes: PlanShapes,
    name: str,
    *,
    pick: str | None = None,
    clearance_nm: int = 0,
    takes_mended: bool = False,
) -> LayoutRequest:
    """The outline of a file, its holes as keep-outs, ready to be laid out.

    Raises
    ------
    PickError
        If there is not one shape, or none of the name picked.
    MendedOfferError
        If it can't be used as traced and a mended one can be offered.
    OutlineError
        If it can't be used, nor mended.
    """
    shape = _one_of(shapes.shapes, name, pick)
    rings = TracedRings(takes_mended)
    edge = rings.read(shape.edge, LEAST_AREA_NM2)
    holes = [rings.read(hole, LEAST_KEEP_OUT_NM2) for hole in shape.holes]
    rings.refuse()
    asked: LayoutRequest = {"outline": edge}
    if holes:
        asked["keep_outs"] = [
            PlannedKeepOut(name=f"hole {number}", ring=ring, clearance_nm=clearance_nm)
            for number, ring in enumerate(holes, start=1)
        ]
    return asked


def unused_outlines_text(shapes: PlanShapes, pick: str | None) -> str:
    """Return a sentence on what a file draws beside the one outline taken of it, or nothing."""
    shown = [one.name for one in shapes.shapes if len(shapes.shapes) > 1 and one.name != pick]
    shown += [one.name for one in shapes.paths if one.name not in shown]
    shown += [] if shapes.are_walks else [one.name for one in shapes.points]
    shown += shapes.unread
    return f"Not used: {first_lines(shown, 20)}." if shown else ""


def keep_outs_request(
    job: OpenJob,
    surface_id: str,
    shapes: PlanShapes,
    name: str,
    *,
    clearance_nm: int = 0,
    radius_nm: int | None = None,
    instead: bool = False,
    takes_mended: bool = False,
    left_out: Sequence[str] = (),
) -> LayoutRequest:
    """Keep-outs of a file, added to those there are; one of the same name takes its place.

    Points become circles of ``radius_nm``; holes of a shape are islands that are cut. What
    is ``left_out`` by its name is not read.

    Raises
    ------
    PickError
        If the file draws nothing to keep out of.
    PlanRefusedError
        If anything that it draws would be lost; all of it is told.
    MendedOfferError, OutlineError, OutlinesFaultyError
        If an outline can't be used as traced.
    """
    areas, spots = _areas(shapes), _spots(shapes)
    if not areas and not spots:
        accepted = "Keep-outs are closed outlines, or points with a radius"
        raise PickError(name=name, met=_met(shapes), accepted=accepted)
    wanted = [one for one in areas if one.name not in left_out]
    points = [one for one in spots if one.name not in left_out and radius_nm is not None]
    used = (*(one.name for one in wanted), *(one.name for one in points))
    source = replace(_source_of(shapes, name, surface_id), radius_nm=radius_nm, used=used)
    source = replace(source, left_out=tuple(left_out))
    refuse(list(audit(PlanView(sources=(source,)))), job.figures)
    rings = TracedRings(takes_mended)
    found = [_keep_out(shape, clearance_nm, rings) for shape in wanted]
    rings.refuse()
    found += [_head(point, radius_nm or 0, clearance_nm) for point in points]
    old: SurfaceLayout | None = job.state.latest(LAYOUT, surface_id)
    names = {one.name for one in found}
    kept = [] if instead or old is None else [one for one in old.keep_outs if one.name not in names]
    return {"keep_outs": [*kept, *found]}


def _areas(shapes: PlanShapes) -> list[TracedShape]:
    """What of a file bounds ground; a walk of points that does not close is points alone."""
    return [one for one in shapes.shapes if one.edge.is_closed or not shapes.are_walks]


def _spots(shapes: PlanShapes) -> list[NamedPoint]:
    """Points of a file that are no corners of an outline in it."""
    if not shapes.are_walks:
        return list(shapes.points)
    walked = {at for one in _areas(shapes) for at in one.edge.points}
    return [one for one in shapes.points if one.at not in walked]


def _source_of(shapes: PlanShapes, name: str, surface_id: str) -> DrawnKeepOut:
    """All that a file draws, by its names there."""
    drawn = {one.name for one in shapes.shapes}
    paths = [one.name for one in shapes.paths if not shapes.are_walks and one.name not in drawn]
    return DrawnKeepOut(
        file=name,
        surface_id=surface_id,
        outlines=tuple(one.name for one in _areas(shapes)),
        points=tuple((one.name, one.at) for one in _spots(shapes)),
        others=(*paths, *shapes.unread),
    )


def bring_course(
    job: OpenJob, collector_id: str, shapes: PlanShapes, name: str, pick: str | None = None
) -> JobChanges:
    """Write the course of a collector, with the plane it was read into.

    Raises
    ------
    UnknownCollectorError
        If the plan has no such collector.
    PickError
        If the file does not draw one line.
    """
    old: Collector | None = job.state.latest(COLLECTOR, collector_id)
    if old is None:
        known = ", ".join(job.state.every_name(COLLECTOR)) or "none"
        raise UnknownCollectorError(collector=collector_id, known=known)
    path = _one_of(shapes.paths, name, pick)
    design = old.design.model_copy(update={"path": plan_points(path.points)})
    plane = plane_to_write(job, shapes, name)
    bodies = [plane] if plane is not None else []
    plan = [(body.kind, body_fields(body)) for body in bodies]
    plan.append(("collector", body_fields(old.model_copy(update={"design": design}))))
    return set_up_all(job, plan)


def course_gap_nm(job: OpenJob, collector_id: str) -> int:
    """How much longer the drawn course of a collector is than its design says."""
    collector: Collector | None = job.state.latest(COLLECTOR, collector_id)
    if collector is None or not collector.design.path:
        return 0
    return path_length_nm(points_of(collector.design.path)) - collector.design.length_nm


def _one_of(found: Sequence[Any], name: str, pick: str | None) -> Any:
    """The one shape or path, or the one that was picked."""
    named = [one for one in found if pick is None or one.name == pick]
    if len(named) == 1:
        return named[0]
    names = ", ".join(one.name for one in found)[:500] or "none"
    met = f"{len(named)} of that kind" + (f" named {pick}" if pick is not None else "")
    raise PickError(name=name, met=met, accepted=f"Pick one by its name; there are: {names}")


def _met(shapes: PlanShapes) -> str:
    """What a file draws, counted."""
    return (
        f"{CountedNoun(len(shapes.shapes)):outline|outlines} "
        f"and {CountedNoun(len(shapes.points)):point|points}"
    )


def _keep_out(shape: TracedShape, clearance_nm: int, rings: TracedRings) -> PlannedKeepOut:
    stand_in = tuple(PlanPoint(x_nm=0, y_nm=0) for _ in range(3))  # until all faults are told
    islands = (rings.read(hole, LEAST_KEEP_OUT_NM2) for hole in shape.holes)
    return PlannedKeepOut(
        name=shape.name[:80],
        ring=rings.read(shape.edge, LEAST_KEEP_OUT_NM2) or stand_in,
        islands=tuple(islands),
        clearance_nm=clearance_nm,
    )


def _head(point: NamedPoint, radius_nm: int, clearance_nm: int) -> PlannedKeepOut:
    """A point to keep out of, such as a sprinkler head."""
    at = PlanPoint(x_nm=point.at.x_nm, y_nm=point.at.y_nm)
    return PlannedKeepOut(
        name=point.name[:80], at=at, radius_nm=radius_nm, clearance_nm=clearance_nm
    )
