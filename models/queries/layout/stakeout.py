"""Stake-out of the morning: passes in driving order, and the collector's cut sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.kind_names import LAYOUT, MACHINE
from models.plan.field_types import Label
from models.plan.line import LineUse, PlannedLine
from models.queries.grade.ground_cover import ground_over
from models.queries.grade.trench_depth import planned_depth_nm
from models.queries.layout.next_pass import is_cut, legs_apart
from models.queries.levelling.elevations import (
    current_shots,
    design_line,
    design_of,
    ground_at,
    plane_along,
)
from models.science.levelling.laser_plane import Length, rod_on_grade_nm
from models.science.shapes.rings import PointNm
from models.science.shapes.staking import (
    Baseline,
    StakedEnd,
    baseline_of,
    diagonal_nm,
    longest_bearing,
    station_offset,
)
from models.state.job_state import JobState

MOST_STATIONS = 2_000
"""Stations of a cut sheet: at 5 ft that is a collector of two miles."""


@dataclass(frozen=True, slots=True)
class StakedLine:
    """A line as it is staked, and whether it is cut already."""

    line_id: Label
    start: StakedEnd
    end: StakedEnd
    start_diagonal_nm: int
    end_diagonal_nm: int
    length_nm: int
    is_cut: bool


@dataclass(frozen=True, slots=True)
class StakedPass:
    """A drive of the machine with the lines of its legs, in driving order."""

    number: int
    legs: tuple[tuple[StakedLine, ...], ...]
    is_along: bool
    turn_nm: int | None

    @property
    def is_done(self) -> bool:
        """Whether all of its lines are cut."""
        return all(line.is_cut for leg in self.legs for line in leg)


@dataclass(frozen=True, slots=True)
class StakeOut:
    """The lines of one use on one surface, ready to be staked."""

    surface_id: str
    use: LineUse
    baseline: Baseline
    passes: tuple[StakedPass, ...]
    has_drives: bool


@dataclass(frozen=True, slots=True)
class CutRow:
    """A station of the collector's cut sheet; None is not known."""

    station_nm: int
    invert_nm: Fraction
    floor_nm: Fraction
    hub_nm: Fraction | None
    ground_nm: Fraction | None
    rod_on_invert_nm: Fraction | None
    rod_on_floor_nm: Fraction | None
    depth_nm: Length | None = None  # of the trench, from the ground as shot or else as planned

    @property
    def cut_to_invert_nm(self) -> Fraction | None:
        """From the top of the hub, or from the ground where no hub was shot, to the invert."""
        return _less(self.hub_nm if self.hub_nm is not None else self.ground_nm, self.invert_nm)

    @property
    def cut_to_floor_nm(self) -> Fraction | None:
        """From the top of the hub, or the ground where no hub was shot, to the trench floor."""
        return _less(self.hub_nm if self.hub_nm is not None else self.ground_nm, self.floor_nm)


def stake_out(state: JobState, surface: Surface, use: LineUse) -> StakeOut | None:
    """Stake-out of one use of line; None where the plan has no such line.

    Drives are those of the kept layout; without one, lines follow one another as
    the machine's legs reach them.
    """
    lines = [line for line in surface.lines if line.use == use]
    if not lines:
        return None
    ends = [(_start(line), _end(line)) for line in lines]
    baseline = baseline_of(ends, _bearing(state, surface, use, ends))
    layout = state.latest(LAYOUT, surface.surface_id)
    drives = layout.drives if isinstance(layout, SurfaceLayout) else ()
    drives = tuple(drive for drive in drives if drive.use == use)
    known = {line.line_id: _staked(state, surface, line, baseline) for line in lines}
    if drives and {name for drive in drives for name in drive.line_ids} == set(known):
        passes = tuple(
            StakedPass(
                drive.number,
                tuple(tuple(known[name] for name in leg) for leg in drive.legs),
                drive.is_along,
                drive.turn_nm,
            )
            for drive in drives
        )
        return StakeOut(surface.surface_id, use, baseline, passes, has_drives=True)
    passes = tuple(_in_turn(state, surface, use, list(known.values())))
    return StakeOut(surface.surface_id, use, baseline, passes, has_drives=False)


def cut_sheet(
    state: JobState, collector: Collector, every_nm: int, setup_id: str = ""
) -> list[CutRow]:
    """Stations of a collector with design levels, cuts, and rod readings on grade.

    Stations are those at every so much from its first, its end, and every hub that was
    shot; where that were more than a paper holds, they lie farther apart. Rod readings are
    for one setup, which hangs from a benchmark; they are None without one.
    """
    design = collector.design
    last_nm = design.start_nm + design.length_nm
    hubs = {
        shot.station_nm: shot.elevation_nm
        for shot in current_shots(state, collector.collector_id, "hub")
    }
    apart_nm = max(every_nm, -(-design.length_nm // MOST_STATIONS), 1)
    stations = {*range(design.start_nm, last_nm, apart_nm), last_nm, *hubs}
    plane = plane_along(state, setup_id, collector.collector_id) if setup_id else None
    line = design_line(collector)
    ground_over_it = ground_over(state, collector.collector_id)
    rows = []
    for station_nm in sorted(stations):
        invert = design_of(collector, "invert", station_nm)
        floor = design_of(collector, "trench_floor", station_nm)
        assert invert is not None
        assert floor is not None
        rod = rod_on_grade_nm(plane, line, station_nm) if plane is not None else None
        rows.append(
            CutRow(
                station_nm,
                invert,
                floor,
                hubs.get(station_nm),
                ground_at(collector, station_nm),
                rod,
                rod + invert - floor if rod is not None else None,
                planned_depth_nm(collector, ground_over_it, station_nm),
            )
        )
    return rows


def _staked(state: JobState, surface: Surface, line: PlannedLine, baseline: Baseline) -> StakedLine:
    ends = sorted(
        (station_offset(point, baseline) for point in (_start(line), _end(line))),
        key=lambda end: end.offset_nm,
    )
    return StakedLine(
        line.line_id,
        ends[0],
        ends[1],
        diagonal_nm(ends[0].station_nm, ends[0].offset_nm),
        diagonal_nm(ends[1].station_nm, ends[1].offset_nm),
        line.length_nm,
        is_cut(state, surface.surface_id, line.line_id),
    )


def _in_turn(
    state: JobState, surface: Surface, use: LineUse, lines: Sequence[StakedLine]
) -> Iterator[StakedPass]:
    """Passes of the machine with most legs that fits the spacing, to and fro."""
    machines = [state.latest(MACHINE, name) for name in state.every_name(MACHINE)]
    cutters = [one for one in machines if one is not None and one.legs > 1]
    machine = max(cutters, key=lambda one: one.legs, default=None)
    step = legs_apart(surface, use, machine)
    legs = machine.legs if machine is not None and step > 1 and surface.use != "green" else 1
    step = step if legs > 1 else 1
    left = dict(enumerate(lines))
    number = 0
    while left:
        first = min(left)
        reached = [first + leg * step for leg in range(legs) if first + leg * step in left]
        number += 1
        yield StakedPass(
            number, tuple((left.pop(place),) for place in reached), number % 2 == 1, None
        )


def _bearing(
    state: JobState, surface: Surface, use: LineUse, ends: Sequence[tuple[PointNm, PointNm]]
) -> int:
    """Bearing that the lines were laid at; without a layout, that of the longest line."""
    layout = state.latest(LAYOUT, surface.surface_id)
    for terms in layout.terms if isinstance(layout, SurfaceLayout) else ():
        if terms.use == use:
            return int(terms.bearing_udeg)
    return longest_bearing(ends)


def _start(line: PlannedLine) -> PointNm:
    return PointNm(line.x1_nm, line.y1_nm)


def _end(line: PlannedLine) -> PointNm:
    return PointNm(line.x2_nm, line.y2_nm)


def _less(top: Fraction | None, bottom: Fraction) -> Fraction | None:
    return None if top is None else top - bottom
