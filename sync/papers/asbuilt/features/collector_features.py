"""Collectors of an as-built: course, inverts as shot, joints, and stretches released."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from models.entries.bodies.collector_work import HoldPoint
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.keys import line_key
from models.entries.kind_names import COLLECTOR, HOLD_POINT, LAYOUT, SURFACE
from models.queries.grade.shot_verdict import shot_verdict
from models.queries.levelling.elevations import current_inverts, design_line, stationing_of
from models.science.levelling.laser_plane import elevation_at_nm
from models.state.indexes import PIPE_IN_COLLECTOR, PIPE_IN_LINE
from models.state.job_state import JobState
from models.units.spec import FOOT_NM
from models.units.station import StationRange
from sync.papers.asbuilt.features.answers import Answers
from sync.papers.asbuilt.features.course import Place, course_of, laid_course, place_along, stretch
from sync.papers.asbuilt.features.feature_types import CollectorRun, JointAt
from sync.papers.asbuilt.features.station_features import InvertShot, ReleasedStretch, StationMark
from sync.papers.day.facts.collector import off_design
from sync.papers.drawing.round_steps import round_step

_MARKS_US_NM = tuple(FOOT_NM * feet for feet in (10, 20, 25, 50, 100, 200, 500))
_MARKS_SI_NM = tuple(10**9 * metres for metres in (5, 10, 20, 50, 100, 200))
_MARKS_MOST = 40


def collectors_of(state: JobState) -> Iterator[Collector]:
    """Every collector of the plan, in the order of the book."""
    found = (state.latest(COLLECTOR, name) for name in state.every_name(COLLECTOR))
    return (one for one in found if isinstance(one, Collector))


def runs_of(state: JobState, is_us: bool) -> tuple[CollectorRun, ...]:
    """Every collector with its course and the pipe as shot."""
    return tuple(_run(state, one, is_us) for one in collectors_of(state))


def _run(state: JobState, collector: Collector, is_us: bool) -> CollectorRun:
    design = collector.design
    shots = [
        (shot.station_nm, shot.elevation_nm)
        for shot in current_inverts(state, collector.collector_id)
        if shot.elevation_nm is not None
    ]
    course = course_of(design.path)
    pipes = list(state.bodies(PIPE_IN_COLLECTOR, collector.collector_id))
    return CollectorRun(
        collector_id=collector.collector_id,
        name=collector.name,
        outlet=collector.outlet,
        stationed_from=design.stationed_from,
        course=course,
        start_nm=design.start_nm,
        length_nm=design.length_nm,
        laid=laid_course(course, design.start_nm, shots),
        marks=tuple(_marks(collector, is_us)),
        bore_nm=design.bore_nm,
        outside_nm=design.outside_nm,
        design_grade=Fraction(design.fall_nm, design.run_nm),
        laid_grade=_laid_grade(collector, shots),
        pipe_nm=sum(pipe.length_nm for pipe in pipes),
        pipe_materials=tuple(dict.fromkeys(pipe.material_id for pipe in pipes)),
    )


def _laid_grade(collector: Collector, shots: list[tuple[int, Fraction]]) -> Fraction | None:
    """Grade from the first shot to the last, positive with the flow."""
    if len(shots) < 2:
        return None
    (near, low), (far, high) = shots[0], shots[-1]
    return stationing_of(collector).climb * (high - low) / (far - near)


def _marks(collector: Collector, is_us: bool) -> Iterator[StationMark]:
    """Both ends and the round stations between them, as many as a plan can show."""
    design = collector.design
    first, last = design.start_nm, design.start_nm + design.length_nm
    steps = _MARKS_US_NM if is_us else _MARKS_SI_NM
    step = round_step(steps, design.length_nm / _MARKS_MOST)
    rounds = range((first // step + 1) * step, last, step)
    course = course_of(design.path)
    for station in dict.fromkeys((first, *rounds, last)):
        at = place_along(course, station - first)
        if at is not None:
            yield StationMark(station, at, elevation_at_nm(design_line(collector), station))


def station_place(state: JobState, collector_id: str, station_nm: int) -> Place | None:
    """Where a station of a collector lies on the plan, or None."""
    collector = state.latest(COLLECTOR, collector_id)
    if not isinstance(collector, Collector):
        return None
    return place_along(course_of(collector.design.path), station_nm - collector.design.start_nm)


def inverts_of(state: JobState, answers: Answers) -> tuple[InvertShot, ...]:
    """Inverts as they stand on every collector, by station."""
    found = []
    for collector in collectors_of(state):
        design = collector.design
        for shot in current_inverts(state, collector.collector_id):
            level = shot.elevation_nm
            if level is None:
                continue
            off = off_design(collector, shot.station_nm, level)
            at = station_place(state, collector.collector_id, shot.station_nm)
            found.append(
                InvertShot(
                    collector_id=collector.collector_id,
                    station_nm=shot.station_nm,
                    at=Place(at.x_nm, at.y_nm, round(level)) if at else None,
                    invert_nm=level,
                    design_nm=level - off,
                    off_nm=off,
                    low_nm=design.low_nm,
                    high_nm=design.high_nm,
                    verdict=shot_verdict(state, collector, shot),
                    answered=answers.of(shot.entry.id),
                    setup_id=shot.shot.setup_id,
                    day=shot.entry.day,
                    author=shot.entry.author,
                )
            )
    return tuple(found)


def joints_of(state: JobState) -> tuple[JointAt, ...]:
    """Where piped slits meet their collector, as the layout numbered them."""
    found = []
    for name in state.every_name(LAYOUT):
        layout, surface = state.latest(LAYOUT, name), state.latest(SURFACE, name)
        if not isinstance(layout, SurfaceLayout) or not isinstance(surface, Surface):
            continue
        for end in layout.ends:
            pipes = state.bodies(PIPE_IN_LINE, line_key(name, end.line_id))
            found.append(
                JointAt(
                    surface_id=name,
                    line_id=end.line_id,
                    collector_id=surface.collector_id,
                    number=end.number,
                    station_nm=end.station_nm,
                    at=Place(end.at.x_nm, end.at.y_nm),
                    gap_nm=end.gap_nm,
                    goes_through=end.goes_through,
                    is_made=any(pipe.connected for pipe in pipes),
                )
            )
    return tuple(found)


def released_of(state: JobState) -> tuple[ReleasedStretch, ...]:
    """Stretches that somebody gave leave to cover."""
    found = []
    for collector in collectors_of(state):
        design = collector.design
        for entry in state.current(HOLD_POINT, collector.collector_id):
            body = entry.body
            if isinstance(body, HoldPoint):
                low, high = StationRange.between(body.from_nm, body.to_nm)
                part = stretch(
                    course_of(design.path), low - design.start_nm, high - design.start_nm
                )
                found.append(
                    ReleasedStretch(
                        collector_id=body.collector_id,
                        from_nm=low,
                        to_nm=high,
                        course=part,
                        released_by=body.released_by,
                        day=entry.day,
                        note=body.note,
                    )
                )
    return tuple(found)
