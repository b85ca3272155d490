"""Shots of a job as elevations: every shot hangs from its setup and its benchmark."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.entries.bodies.levels import GradeShot, LaserSetup, TurningPoint
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import BENCHMARK, COLLECTOR, GRADE_SHOT, SETUP
from models.science.levelling.laser_plane import (
    GradeLine,
    Stationing,
    elevation_at_nm,
    laser_plane,
    shot_elevation_nm,
)
from models.state.indexes import TURNING_NAMED
from models.state.job_state import JobState
from models.units import round_half_even

_LONGEST_CHAIN = 200
"""Turning points followed back at most; a loop of names ends here."""


@dataclass(frozen=True, slots=True)
class ReducedShot:
    """A grade shot with its elevation, or None where its setup hangs from nothing."""

    entry: AnyEntry
    shot: GradeShot
    elevation_nm: Fraction | None

    @property
    def station_nm(self) -> int:
        """Station of the shot along its collector, in nm."""
        return self.shot.station_nm


def stationing_of(collector: Collector) -> Stationing:
    """The end that a collector's stations are counted from."""
    from_outlet = collector.design.stationed_from == "outlet"
    return Stationing.FROM_OUTLET if from_outlet else Stationing.FROM_HEAD


def design_line(collector: Collector) -> GradeLine:
    """Design invert of a collector as a line in the profile."""
    design = collector.design
    return GradeLine(
        design.start_invert_nm,
        design.start_nm,
        Fraction(design.fall_nm, design.run_nm),
        stationing_of(collector),
    )


def design_of(collector: Collector, on: str, station_nm: int) -> Fraction | None:
    """Design elevation of what was shot at a station; None where the plan has none."""
    design = collector.design
    invert = elevation_at_nm(design_line(collector), station_nm)
    wall_nm = Fraction(design.outside_nm - design.bore_nm, 2)
    if on == "invert":
        return invert
    if on == "obvert":
        return invert + design.bore_nm
    if on == "bedding":
        return invert - wall_nm
    if on == "trench_floor":
        return invert - wall_nm - design.bedding_nm
    return ground_at(collector, station_nm) if on == "ground" else None


def ground_at(collector: Collector, station_nm: int) -> Fraction | None:
    """Planned finished ground over a station, straight between its given levels."""
    levels = sorted(collector.design.ground, key=lambda level: level.station_nm)
    for left, right in zip(levels, levels[1:], strict=False):
        if left.station_nm <= station_nm <= right.station_nm:
            run = right.station_nm - left.station_nm
            share = Fraction(station_nm - left.station_nm, run) if run else Fraction(0)
            return left.level_nm + share * (right.level_nm - left.level_nm)
    return None


def point_elevation(state: JobState, point: str, depth: int = 0) -> Fraction | None:
    """Elevation of a benchmark or a turning point, in nm above datum.

    None when nobody has read it, when it was read under a graded plane, or when
    names run in a circle.
    """
    benchmark = state.latest(BENCHMARK, point)
    if benchmark is not None:
        return Fraction(benchmark.elevation_nm)
    turning = state.latest(TURNING_NAMED, point)
    if not isinstance(turning, TurningPoint) or depth >= _LONGEST_CHAIN:
        return None
    plane = plane_of(state, turning.setup_id, depth + 1)
    setup = state.latest(SETUP, turning.setup_id)
    if plane is None or plane.grade or not isinstance(setup, LaserSetup):
        return None  # a graded plane has no height where the station is not known
    return shot_elevation_nm(plane, setup.at_station_nm, turning.foresight_nm)


def plane_of(state: JobState, setup_id: str, depth: int = 0) -> GradeLine | None:
    """Plane that a setup sweeps, or None while its height is not known."""
    setup = state.latest(SETUP, setup_id)
    if not isinstance(setup, LaserSetup) or setup.backsight_nm is None:
        return None
    known = point_elevation(state, setup.on_point, depth)
    if known is None:
        return None
    collector = state.latest(COLLECTOR, setup.collector_id) if setup.collector_id else None
    grade = Fraction(setup.fall_nm, setup.run_nm) if setup.plane == "graded" else Fraction(0)
    line = laser_plane(
        round_half_even(known.numerator, known.denominator),
        setup.backsight_nm,
        setup.at_station_nm,
        grade,
        stationing_of(collector) if isinstance(collector, Collector) else Stationing.FROM_OUTLET,
    )
    return GradeLine(known + setup.backsight_nm, line.station_nm, line.grade, line.stationing)


def plane_along(state: JobState, setup_id: str, collector_id: str) -> GradeLine | None:
    """Plane of a setup over a collector, or None where it is dialled along another one."""
    plane = plane_of(state, setup_id)
    setup = state.latest(SETUP, setup_id)
    own = setup.collector_id if setup is not None else ""
    if plane is not None and plane.grade and own != collector_id:
        return None
    return plane


def reduced_shots(state: JobState, collector_id: str) -> list[ReducedShot]:
    """Every current shot along a collector, in the order of the book."""
    planes: dict[str, GradeLine | None] = {}
    reduced = []
    for entry in state.current(GRADE_SHOT, collector_id):
        shot = entry.body
        if shot.setup_id not in planes:
            planes[shot.setup_id] = plane_along(state, shot.setup_id, collector_id)
        plane = planes[shot.setup_id]
        level = (
            None if plane is None else shot_elevation_nm(plane, shot.station_nm, shot.reading_nm)
        )
        reduced.append(ReducedShot(entry, shot, level))
    return reduced


def current_shots(state: JobState, collector_id: str, on: str) -> list[ReducedShot]:
    """Shots of one thing as they stand: the last at each station, by station.

    A station shot again after rework counts by its newest reading; the old
    readings stay in the book.
    """
    last = {
        shot.station_nm: shot
        for shot in reduced_shots(state, collector_id)
        if shot.shot.on == on and shot.elevation_nm is not None
    }
    return [last[station] for station in sorted(last)]


def current_inverts(state: JobState, collector_id: str) -> list[ReducedShot]:
    """Inverts as they stand; an obvert shot counts as an invert one bore lower."""
    collector = state.latest(COLLECTOR, collector_id)
    bore_nm = collector.design.bore_nm if isinstance(collector, Collector) else 0
    last: dict[int, ReducedShot] = {}
    for shot in reduced_shots(state, collector_id):
        if shot.elevation_nm is None or shot.shot.on not in {"invert", "obvert"}:
            continue
        level = shot.elevation_nm - (bore_nm if shot.shot.on == "obvert" else 0)
        last[shot.station_nm] = ReducedShot(shot.entry, shot.shot, level)
    return [last[station] for station in sorted(last)]
