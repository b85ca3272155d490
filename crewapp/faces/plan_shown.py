"""The plan of a surface as it is drawn on the screen."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from crewapp.open_job import OpenJob
from crewapp.state.plan_picture import LineState, PlanLine, PlanPicture
from models.checks.slit_work import is_depth_out, is_width_out, pass_work
from models.entries.surface import Surface

_NM = 1e-9  # a picture is drawn in metres


def plan_shown(job: OpenJob, surface: Surface, day: str, picked: Collection[str]) -> PlanPicture:
    """Read the picture: done lines thin, the day's heavy, planned dashed, out ones marked."""
    states = _states(job, surface, day)
    for line_id in picked:
        if states.get(line_id) is not LineState.OUT:  # a line that is out stays marked
            states[line_id] = LineState.SELECTED
    pattern = surface.sand_slits or surface.piped_slits
    return PlanPicture(
        outline=tuple((point.x_nm * _NM, point.y_nm * _NM) for point in surface.outline),
        lines=tuple(
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
        spacing=pattern.spacing_nm * _NM if pattern else 0.0,
    )


def _states(job: OpenJob, surface: Surface, day: str) -> dict[str, LineState]:
    """State of every line that has been cut."""
    found: dict[str, LineState] = {}
    for entry in job.state.current("passes_on", surface.surface_id):
        cut: Any = entry.body
        state = LineState.TODAY if entry.day == day else LineState.DONE
        found |= dict.fromkeys(cut.line_ids, state)
        work = pass_work(job.state, cut.pass_id)
        for reading in work.readings if work else ():
            if is_depth_out(reading) or is_width_out(reading):
                found[reading.probe.line_id] = LineState.OUT
    return found
