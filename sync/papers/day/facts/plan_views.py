"""Plans of a day: each surface worked on, its lines by what has become of them."""

from __future__ import annotations

from dataclasses import replace

from models.entries.bodies.surfaces import Collector, Surface
from models.entries.keys import line_key
from models.entries.kind_names import COLLECTOR, SURFACE
from models.plan.line import PlannedLine
from models.science.quality.verdict import Verdict
from models.state.indexes import CUTS_OF, PASSES_ON
from models.state.job_state import JobState
from sync.papers.day.facts.slits import probes_of
from sync.papers.drawing.plan_lines import LineProgress
from sync.papers.drawing.plan_strip import PlanLine, PlanView


def plan_view(state: JobState, surface_id: str, day: str) -> PlanView | None:
    """Plan of a surface as it stood on a day; None where it has no surface of that name."""
    surface = state.latest(SURFACE, surface_id)
    if not isinstance(surface, Surface):
        return None
    path = _path(state, surface)
    return PlanView(
        name=surface.name,
        outline_nm=tuple((point.x_nm, point.y_nm) for point in surface.outline),
        lines=tuple(_line(state, surface_id, line, day) for line in surface.lines),
        collectors_nm=(path,) if path else (),
        is_us=state.job is None or state.job.unit_system == "us",
    )


def _path(state: JobState, surface: Surface) -> tuple[tuple[int, int], ...]:
    collector = state.latest(COLLECTOR, surface.collector_id) if surface.collector_id else None
    if not isinstance(collector, Collector):
        return ()
    return tuple((point.x_nm, point.y_nm) for point in collector.design.path)


def _line(state: JobState, surface_id: str, line: PlannedLine, day: str) -> PlanLine:
    cuts = [
        entry
        for entry in state.current(CUTS_OF, line_key(surface_id, line.line_id))
        if entry.day <= day
    ]
    plain = PlanLine((line.x1_nm, line.y1_nm), (line.x2_nm, line.y2_nm), LineProgress.PLANNED)
    if not cuts:
        return plain
    if not any(entry.day == day for entry in cuts):
        return replace(plain, standing=LineProgress.DONE)
    probes = (
        probe
        for entry in cuts
        for probe in probes_of(state, entry.body, day, {})
        if probe.is_newest
    )
    return replace(
        plain,
        standing=LineProgress.TODAY,
        label=line.line_id,
        is_out=any(p.verdict is Verdict.OUT and p.body.line_id == line.line_id for p in probes),
    )


def plans_of(state: JobState, day: str) -> tuple[PlanView, ...]:
    """Plans of the surfaces worked on, most passes first; with no work, all that are begun."""
    counts = {
        name: sum(entry.day == day for entry in state.current(PASSES_ON, name))
        for name in state.every_name(SURFACE)
    }
    worked = sorted((name for name in counts if counts[name]), key=lambda name: -counts[name])
    shown = worked or [name for name in counts if state.current(PASSES_ON, name)]
    views = (plan_view(state, name, day) for name in shown or list(counts)[:1])
    return tuple(view for view in views if view is not None)
