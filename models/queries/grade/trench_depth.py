"""Depth of a collector's trench down to its floor: as shot, and as planned.

29 CFR 1926.652(a)(1): people in a trench are protected from cave-ins from 5 ft
(1.52 m) of depth on unless it is made entirely in stable rock, and in less wherever
a competent person sees any sign that it may cave in. A job may ask for more; local
rules and a competent person come first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import ceil, floor

from models.entries.bodies.collector_work import TrenchProtection
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR, LAYER_CHECK
from models.plan.collector import CollectorDesign
from models.queries.grade.ground_cover import Ground, ground_over
from models.queries.grade.laid_pipe import NewestShot, inverts, newest_shots
from models.queries.levelling.elevations import design_of
from models.science.levelling.laser_plane import Length
from models.state.job_state import JobState
from models.units.job_units import Figures
from models.units.station import StationRange

RULE_LIMIT_NM = 1_524_000_000
"""5 ft in nm, 29 CFR 1926.652(a)(1)."""


@dataclass(frozen=True, slots=True)
class ShotDepth:
    """Depth of the trench at a shot, in nm; None where the ground over it is not known."""

    shot: NewestShot
    depth_nm: Length | None

    @property
    def station_nm(self) -> int:
        """Station of the shot, in nm."""
        return self.shot.station_nm


@dataclass(frozen=True, slots=True)
class DeepStretch:
    """Stations between which a trench is as deep as the limit or deeper, in nm.

    ``deepest_nm`` is its greatest depth, met at ``at_nm``. Ends between two whole
    nanometres lie on the outer one.
    """

    from_nm: int
    to_nm: int
    deepest_nm: Length
    at_nm: int


@dataclass(frozen=True, slots=True)
class PlannedTrench:
    """A trench as designed: where it is deep, and where nobody knows for want of ground."""

    limit_nm: int
    deep: tuple[DeepStretch, ...]
    unknown: tuple[tuple[int, int], ...]


def protection_limit_nm(design: CollectorDesign) -> int:
    """Depth from which protection must be noted, in nm: the job's own where it is stricter."""
    return min(design.protection_depth_nm, RULE_LIMIT_NM)


def shot_depths(state: JobState, collector_id: str) -> list[ShotDepth]:
    """Depth at every station whose floor is known by a shot, by station.

    Where the floor itself was not shot it lies below the pipe's wall and the bedding:
    as thick as they were checked there, else as designed. Of bedding and invert the one
    that leads deeper counts.
    """
    collector = state.latest(COLLECTOR, collector_id)
    if not isinstance(collector, Collector):
        return []
    ground_at = ground_over(state, collector_id)
    floors = _floors(state, collector_id, collector.design)
    return [
        ShotDepth(floors[station_nm][0], _less(ground_at(station_nm), floors[station_nm][1]))
        for station_nm in sorted(floors)
    ]


def _floors(
    state: JobState, collector_id: str, design: CollectorDesign
) -> dict[int, tuple[NewestShot, Length]]:
    """Floor by station, each with the shot that it is known by."""
    shots = newest_shots(state, collector_id)
    wall_nm = Fraction(design.outside_nm - design.bore_nm, 2)
    tops = [(shot, shot.level_nm) for shot in shots.get("bedding", {}).values()]
    tops += [
        (pipe, pipe.level_nm - wall_nm) for pipe in inverts(state, collector_id, design.bore_nm)
    ]
    found: dict[int, tuple[NewestShot, Length]] = {}
    for shot, top_nm in tops:
        at_nm = shot.station_nm
        floor_nm = top_nm - bedding_nm(state, collector_id, design, at_nm)
        if at_nm not in found or floor_nm < found[at_nm][1]:
            found[at_nm] = shot, floor_nm
    for at_nm, shot in shots.get("trench_floor", {}).items():
        found[at_nm] = shot, shot.level_nm
    return found


def bedding_nm(state: JobState, collector_id: str, design: CollectorDesign, station_nm: int) -> int:
    """Bedding under the pipe at a station, in nm: as checked last over it, else as designed."""
    measured = [
        layer.thickness_nm
        for layer in state.bodies(LAYER_CHECK, collector_id)
        if layer.layer == "bedding"
        and layer.thickness_nm is not None
        and StationRange.between(layer.from_nm, layer.to_nm).holds(station_nm)
    ]
    return measured[-1] if measured else design.bedding_nm


def protects(noted: TrenchProtection, station_nm: int, depth_nm: Length) -> bool:
    """Whether protection that was noted is for this station and a trench so deep, in nm.

    A trench judged stable is enough only where the rule leaves it to the judge: below
    5 ft (29 CFR 1926.652(a)(1)(ii)); deeper, the ground must be stable rock throughout.
    """
    if noted.protection == "judged_stable" and depth_nm >= RULE_LIMIT_NM:
        return False
    stretch = StationRange.between(noted.from_nm, noted.to_nm)
    return stretch.holds(station_nm) and depth_nm <= noted.depth_nm


def planned_trench(state: JobState, collector: Collector) -> PlannedTrench:
    """Judge the floor of the design against the limit, before anybody digs.

    Ground is straight between the stations where it is known: shot, else planned.
    """
    design = collector.design
    ends = (design.start_nm, design.start_nm + design.length_nm)
    ground_at = ground_over(state, collector.collector_id)
    stations = {level.station_nm for level in design.ground}
    stations |= set(newest_shots(state, collector.collector_id).get("ground", {}))
    knots = sorted({one for one in stations if ends[0] <= one <= ends[1]} | set(ends))
    depths = [
        (one, depth)
        for one in knots
        if (depth := planned_depth_nm(collector, ground_at, one)) is not None
    ]
    limit_nm = protection_limit_nm(design)
    return PlannedTrench(limit_nm, tuple(_deep(depths, limit_nm)), _unknown(depths, ends))


def planned_depth_nm(collector: Collector, ground_at: Ground, station_nm: int) -> Length | None:
    """Depth of the designed floor below the ground, in nm; None where it is not known."""
    floor_nm = design_of(collector, "trench_floor", station_nm)
    return None if floor_nm is None else _less(ground_at(station_nm), floor_nm)


def deep_text(trench: PlannedTrench, figures: Figures) -> Iterator[str]:
    """Sentences on the deep stretches of a trench, one each."""
    limit, station = figures.length(trench.limit_nm), figures.station
    unit = "ft" if figures.is_us else "m"
    for deep in trench.deep:
        yield (
            f"From {station(deep.from_nm)} to {station(deep.to_nm)} the trench is planned "
            f"{limit} deep or deeper, {figures.level(round(deep.deepest_nm))} {unit} at "
            f"{station(deep.at_nm)}: PROTECT it before anybody enters."
        )


def _less(ground_nm: Length | None, floor_nm: Length) -> Length | None:
    return None if ground_nm is None else ground_nm - floor_nm


def _unknown(
    depths: Sequence[tuple[int, Length]], ends: tuple[int, int]
) -> tuple[tuple[int, int], ...]:
    """Stretches at either end that no known ground reaches."""
    if not depths:
        return (ends,)
    first, last = depths[0][0], depths[-1][0]
    return tuple(one for one in ((ends[0], first), (last, ends[1])) if one[0] < one[1])


def _deep(depths: Sequence[tuple[int, Length]], limit_nm: int) -> Iterator[DeepStretch]:
    """Join neighbouring pieces that reach the limit."""
    run: DeepStretch | None = None
    for piece in _deep_pieces(depths, limit_nm):
        if run is not None and piece.from_nm <= run.to_nm:
            deeper = max(run, piece, key=lambda one: one.deepest_nm)
            run = DeepStretch(run.from_nm, piece.to_nm, deeper.deepest_nm, deeper.at_nm)
            continue
        if run is not None:
            yield run
        run = piece
    if run is not None:
        yield run


def _deep_pieces(depths: Sequence[tuple[int, Length]], limit_nm: int) -> Iterator[DeepStretch]:
    """Give the part of each piece between two known depths that reaches the limit."""
    if len(depths) == 1 and depths[0][1] >= limit_nm:
        yield DeepStretch(depths[0][0], depths[0][0], depths[0][1], depths[0][0])
    for (low_nm, low), (high_nm, high) in pairwise(depths):
        if max(low, high) < limit_nm:
            continue
        start_nm, end_nm = low_nm, high_nm
        if min(low, high) < limit_nm:
            met = low_nm + Fraction(limit_nm - low) * (high_nm - low_nm) / Fraction(high - low)
            start_nm, end_nm = (floor(met), high_nm) if low < high else (low_nm, ceil(met))
        at_nm = low_nm if low >= high else high_nm
        yield DeepStretch(start_nm, end_nm, max(low, high), at_nm)
