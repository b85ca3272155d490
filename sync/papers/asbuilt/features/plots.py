"""Plots of an as-built: surfaces drawn on one plan with the collectors they drain to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from statistics import median

from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import SURFACE
from models.state.job_state import JobState
from sync.papers.asbuilt.features.feature_types import (
    AsBuilt,
    CollectorRun,
    Course,
    JointAt,
    LineAsCut,
    OutletAt,
    PermanentMark,
    Place,
    SurfaceArea,
    UtilityFeature,
)

NmPoint = tuple[int, int]
REACH = 0.4
"""A lasting point is drawn on a plan that it makes no larger than by this share."""


@dataclass(frozen=True, slots=True)
class Plot:
    """Contents of one plan; ``utilities`` keep the numbers they have on the job."""

    name: str
    surfaces: tuple[SurfaceArea, ...]
    lines: tuple[LineAsCut, ...]
    collectors: tuple[CollectorRun, ...]
    joints: tuple[JointAt, ...]
    utilities: tuple[tuple[int, UtilityFeature], ...]
    marks: tuple[PermanentMark, ...]
    is_us: bool
    outlets: tuple[OutletAt, ...] = ()

    def box(self) -> tuple[int, int, int, int] | None:
        """Least and most east and north of what must be seen; None where nothing has a place."""
        points = [*self._work(), *(_at(mark.at) for mark in self.marks if mark.at)]
        points += [_at(one.at) for _, one in self.utilities if one.at]
        return _box(points)

    def work_box(self) -> tuple[int, int, int, int] | None:
        """The same of the work alone."""
        return _box(self._work())

    def _work(self) -> list[NmPoint]:
        courses: list[Course] = [surface.outline for surface in self.surfaces]
        courses += [run.course for run in self.collectors]
        courses += [(line.start, line.end) for line in self.lines if line.start and line.end]
        return [_at(place) for course in courses for place in course]

    def spacing_nm(self) -> float:
        """Usual distance between neighbouring lines; 0 where no plan says."""
        spacings = [line.spacing_nm for line in self.lines if line.spacing_nm and line.start]
        return median(spacings) if spacings else 0.0


def _at(place: Place) -> NmPoint:
    return place.x_nm, place.y_nm


def _box(points: Iterable[NmPoint]) -> tuple[int, int, int, int] | None:
    found = list(points)
    if not found:
        return None
    xs, ys = [x for x, _ in found], [y for _, y in found]
    return min(xs), min(ys), max(xs), max(ys)


def plots_of(state: JobState, job: AsBuilt) -> list[Plot]:
    """Plans of the job: one for each group of surfaces that share a collector."""
    groups = _groups(state, job)
    plots = [_plot(job, surfaces, runs) for surfaces, runs in groups]
    drawn = [plot for plot in plots if plot.box() is not None]
    return [_with_spots(job, plot) for plot in drawn]


_Group = tuple[list[SurfaceArea], list[CollectorRun]]


def _groups(state: JobState, job: AsBuilt) -> list[_Group]:
    runs = {run.collector_id: run for run in job.collectors}
    by_run: dict[str, _Group] = {}
    groups: list[_Group] = []
    for area in job.surfaces:
        surface = state.latest(SURFACE, area.surface_id)
        drains_to = surface.collector_id if isinstance(surface, Surface) else ""
        if drains_to not in runs:
            groups.append(([area], []))
        elif drains_to in by_run:
            by_run[drains_to][0].append(area)
        else:
            by_run[drains_to] = ([area], [runs[drains_to]])
            groups.append(by_run[drains_to])
    return groups + [([], [run]) for name, run in runs.items() if name not in by_run]


def _plot(job: AsBuilt, surfaces: list[SurfaceArea], runs: list[CollectorRun]) -> Plot:
    names = {surface.surface_id for surface in surfaces}
    collectors = {run.collector_id for run in runs}
    parts = [f"{area.surface_id} {area.name}" for area in surfaces]
    parts += [f"{run.collector_id} {run.name}" for run in runs]
    return Plot(
        name="; ".join(parts),
        surfaces=tuple(surfaces),
        lines=tuple(line for line in job.lines if line.surface_id in names),
        collectors=tuple(runs),
        joints=tuple(joint for joint in job.joints if joint.collector_id in collectors),
        utilities=(),
        marks=(),
        is_us=job.is_us,
    )


def _with_spots(job: AsBuilt, plot: Plot) -> Plot:
    """Add what lies on the ground of a plot, and the lasting points not far from it."""
    box = plot.work_box()
    assert box is not None
    near = _widened(box, 0.1)
    utilities = [
        (number, one)
        for number, one in enumerate(job.utilities, start=1)
        if one.at and _is_in(_at(one.at), near)
    ]
    outlets = [one for one in job.outlets if one.at and _is_in(_at(one.at), near)]
    marks = [one for one in job.points if one.at and _is_in(_at(one.at), _widened(box, REACH))]
    parts = (plot.surfaces, plot.lines, plot.collectors, plot.joints)
    return Plot(plot.name, *parts, tuple(utilities), tuple(marks), job.is_us, tuple(outlets))


def _widened(box: tuple[int, int, int, int], share: float) -> tuple[float, float, float, float]:
    more = share * max(box[2] - box[0], box[3] - box[1])
    return box[0] - more, box[1] - more, box[2] + more, box[3] + more


def _is_in(point: NmPoint, box: tuple[float, float, float, float]) -> bool:
    return box[0] <= point[0] <= box[2] and box[1] <= point[1] <= box[3]
