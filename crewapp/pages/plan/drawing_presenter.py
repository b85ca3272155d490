"""The plan of a surface as it is drawn on the screen."""

from __future__ import annotations

from collections.abc import Collection

from crewapp.job.open_job import OpenJob
from crewapp.kit.drawing.plan_picture import LineState, PlanLine, PlanPicture
from models.checks.slits.pass_work import is_depth_out, is_width_out, pass_work
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import COLLECTOR, LAYOUT
from models.plan.collector import PlanPoint
from models.state.indexes import PASSES_ON

_NM = 1e-9  # a picture is drawn in metres
COLLECTOR_MARK = "collector:"
"""What the key of a collector on the plan begins with."""


def read_plan_picture(
    job: OpenJob, surface: Surface, day: str, picked: Collection[str]
) -> PlanPicture:
    """Read a plan's picture: done lines thin, the day's heavy, planned dashed, out ones marked."""
    states = _states(job, surface, day)
    for line_id in picked:
        if states.get(line_id) is not LineState.OUT:  # a line that is out stays marked
            states[line_id] = LineState.SELECTED
    layout: SurfaceLayout | None = job.state.latest(LAYOUT, surface.surface_id)
    return surface_picture(job, surface, layout, states)


def surface_picture(
    job: OpenJob, surface: Surface, layout: SurfaceLayout | None, states: dict[str, LineState]
) -> PlanPicture:
    """Read the picture of a surface, written or only laid to be looked at."""
    pattern = surface.sand_slits or surface.piped_slits
    spacings = [terms.spacing_nm for terms in layout.terms] if layout else []
    spacing_nm = min(spacings, default=pattern.spacing_nm if pattern else 0)
    return PlanPicture(
        outline=_ring(surface.outline),
        keep_outs=tuple(_ring(one.edge) for one in layout.keep_outs) if layout else (),
        lines=(
            *(
                PlanLine(
                    line.line_id,
                    (
                        (line.x1_nm * _NM, line.y1_nm * _NM),
                        (line.x2_nm * _NM, line.y2_nm * _NM),
                    ),
                    states.get(line.line_id, LineState.PLANNED),
                    line.line_id,
                )
                for line in surface.lines
            ),
            *_collector(job, surface),
        ),
        spacing=spacing_nm * _NM,
    )


def _collector(job: OpenJob, surface: Surface) -> tuple[PlanLine, ...]:
    """The collector that the surface drains to, where its course is drawn."""
    name = surface.collector_id
    collector = job.state.latest(COLLECTOR, name) if name else None
    if not isinstance(collector, Collector) or len(collector.design.path) < 2:
        return ()
    course = _ring(collector.design.path)
    return (PlanLine(f"{COLLECTOR_MARK}{name}", course, LineState.COLLECTOR, name),)


def _ring(points: tuple[PlanPoint, ...]) -> tuple[tuple[float, float], ...]:
    return tuple((point.x_nm * _NM, point.y_nm * _NM) for point in points)


def _states(job: OpenJob, surface: Surface, day: str) -> dict[str, LineState]:
    """State of every line that has been cut."""
    found: dict[str, LineState] = {}
    for entry in job.state.current(PASSES_ON, surface.surface_id):
        cut = entry.body
        state = LineState.TODAY if entry.day == day else LineState.DONE
        found |= dict.fromkeys(cut.line_ids, state)
        work = pass_work(job.state, cut.pass_id)
        for reading in work.readings if work else ():
            if is_depth_out(reading) or is_width_out(reading):
                found[reading.probe.line_id] = LineState.OUT
    return found
