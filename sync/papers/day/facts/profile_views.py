"""Profiles of a day: each collector shot, as laid against its design."""

from __future__ import annotations

from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.levelling.elevations import current_inverts, design_line
from models.science.levelling.laser_plane import elevation_at_nm
from models.science.quality.verdict import Verdict, judge
from models.state.indexes import WORK_ON
from models.state.job_state import JobState
from models.units.job_units import figures_of
from sync.papers.day.facts.collector import off_design
from sync.papers.drawing.profile import ProfileCanvas, ProfileShot


def profile_view(state: JobState, collector_id: str, day: str) -> ProfileCanvas | None:
    """Profile of a collector as it stood on a day; None where there is no such collector."""
    collector = state.latest(COLLECTOR, collector_id)
    if not isinstance(collector, Collector):
        return None
    job, design = state.job, collector.design
    line = design_line(collector)
    ends = (design.start_nm, design.start_nm + design.length_nm)
    return ProfileCanvas(
        name=collector.name,
        from_nm=ends[0],
        to_nm=ends[1],
        design_nm=(round(elevation_at_nm(line, ends[0])), round(elevation_at_nm(line, ends[1]))),
        high_nm=design.high_nm,
        low_nm=design.low_nm,
        shot_every_nm=design.shot_every_nm,
        shots=_shots(state, collector, collector_id, day),
        ground_nm=tuple((level.station_nm, level.level_nm) for level in design.ground),
        flows_left=design.stationed_from == "outlet",
        figures=figures_of(job.unit_system, job.station_style)
        if job
        else figures_of("us", "us_100ft"),
    )


def _shots(
    state: JobState, collector: Collector, collector_id: str, day: str
) -> tuple[ProfileShot, ...]:
    found = []
    for shot in current_inverts(state, collector_id):
        if shot.entry.day > day or shot.elevation_nm is None:
            continue
        off = off_design(collector, shot.station_nm, shot.elevation_nm)
        verdict = judge(off, -collector.design.low_nm, collector.design.high_nm)
        found.append(
            ProfileShot(
                station_nm=shot.station_nm,
                level_nm=round(shot.elevation_nm),
                off_nm=round(off),
                is_out=verdict is Verdict.OUT,
                is_today=shot.entry.day == day,
            )
        )
    return tuple(found)


def profiles_of(state: JobState, day: str) -> tuple[ProfileCanvas, ...]:
    """Profiles of the collectors shot on the day; with no work, of all that were shot before."""
    is_idle = not state.current(WORK_ON, day)
    views = (
        profile_view(state, name, day)
        for name in state.every_name(COLLECTOR)
        if any(
            shot.entry.day == day or (is_idle and shot.entry.day < day)
            for shot in current_inverts(state, name)
        )
    )
    return tuple(view for view in views if view is not None)
