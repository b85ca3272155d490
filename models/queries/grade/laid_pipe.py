"""A collector as its shots show it: inverts, reaches and bellies, each fault reported once.

What one shot, one reach or one low place suffers from is settled here, so that
the checks that report it never report the same fault twice. Worked out once for
each state of the job and kept in its memo.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from itertools import pairwise

from models.entries.bodies.levels import LaserSetup
from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, GRADE_SHOT, SETUP
from models.plan.collector import CollectorDesign
from models.queries.levelling.elevations import design_line, plane_along, stationing_of
from models.queries.levelling.setup_chain import chain_of, is_on_rod, newest
from models.science.grade.bellies import Belly, find_bellies
from models.science.grade.profile import Shot
from models.science.grade.reach_grade import NOT_ADVERSE, GradeLimits, judge_grade
from models.science.levelling.laser_plane import GradeLine, Length, Stationing
from models.science.quality.verdict import Verdict
from models.state.job_state import JobState


class Fault(StrEnum):
    """Fault of a shot or a reach; none where it is well or another one reports it."""

    NONE = ""
    OFF_GRADE = "off grade"
    BELLY = "belly"
    ADVERSE = "adverse"
    FLAT = "flat"
    TOO_SHORT = "too short"


@dataclass(frozen=True, slots=True)
class NewestShot:
    """The newest shot of one thing at one station, with its elevation."""

    entry: AnyEntry
    station_nm: int
    level_nm: Length
    error_nm: int


@dataclass(frozen=True, slots=True)
class LaidShot:
    """An invert as it lies; ``off_nm`` is positive when it is high."""

    at: NewestShot
    off_nm: Length
    fault: Fault = Fault.NONE


@dataclass(frozen=True, slots=True)
class LaidReach:
    """The pipe between two neighbouring inverts; ``fall_nm`` is negative when adverse."""

    low: LaidShot
    high: LaidShot
    fall_nm: Length
    fault: Fault

    @property
    def length_nm(self) -> int:
        """Length along the stations, in nm."""
        return self.high.at.station_nm - self.low.at.station_nm

    @property
    def error_nm(self) -> int:
        """Error of the poorer of its two readings, in nm."""
        return max(self.low.at.error_nm, self.high.at.error_nm)


@dataclass(frozen=True, slots=True)
class LaidPipe:
    """A collector as laid, by growing station."""

    design: CollectorDesign
    shots: tuple[LaidShot, ...]
    reaches: tuple[LaidReach, ...]
    bellies: tuple[Belly, ...]

    @property
    def least_grade(self) -> Fraction:
        """Least grade of a reach."""
        return least_grade(self.design)


def least_grade(design: CollectorDesign) -> Fraction:
    """Least grade of a reach by a design."""
    return Fraction(design.least_grade_fall_nm, design.run_nm)


def height_along(line: GradeLine) -> Callable[[int], Length]:
    """Height of a line at a station, as a whole number wherever it is one.

    Whole numbers are an order of magnitude quicker than fractions, and nearly
    every station of a job meets its grade on a whole nanometre.
    """
    start_nm = line.station_nm
    level_nm = _plain(line.elevation_nm)
    climb = line.stationing.climb * line.grade
    rise, run = climb.numerator, climb.denominator

    def height_at(station_nm: int) -> Length:
        whole, rest = divmod(rise * (station_nm - start_nm), run)
        return level_nm + whole + (Fraction(rest, run) if rest else 0)

    return height_at


def _plain(level_nm: Length) -> Length:
    return level_nm.numerator if level_nm.denominator == 1 else level_nm


NewestShots = dict[str, dict[int, NewestShot]]


def newest_shots(state: JobState, collector_id: str) -> NewestShots:
    """Newest shot at each station, by the thing it was taken on.

    Left out are readings that no rod gives and shots whose setup hangs from
    nothing: other checks report those.
    """
    key = ("standing", collector_id)
    if key not in state.memo:
        state.memo[key] = _standing(state, collector_id)
    found: NewestShots = state.memo[key]
    return found


def _standing(state: JobState, collector_id: str) -> NewestShots:
    heights: dict[str, tuple[Callable[[int], Length], int] | None] = {}
    found: NewestShots = {}
    for entry in state.current(GRADE_SHOT, collector_id):
        shot = entry.body
        if shot.setup_id not in heights:
            heights[shot.setup_id] = _height_of(state, shot.setup_id, collector_id)
        height = heights[shot.setup_id]
        if height is None or not is_on_rod(shot.reading_nm):
            continue
        level_nm = height[0](shot.station_nm) - shot.reading_nm
        found.setdefault(shot.on, {})[shot.station_nm] = NewestShot(
            entry, shot.station_nm, level_nm, height[1]
        )
    return found


def _height_of(
    state: JobState, setup_id: str, collector_id: str
) -> tuple[Callable[[int], Length], int] | None:
    """Height of a setup's plane along the collector, and what its readings are good to."""
    plane = (
        plane_along(state, setup_id, collector_id) if chain_of(state, setup_id).is_sound else None
    )
    setup = newest(state, SETUP, setup_id)
    if plane is None or setup is None or not isinstance(setup.body, LaserSetup):
        return None
    return height_along(plane), setup.body.reading_error_nm


def inverts(state: JobState, collector_id: str, bore_nm: int) -> list[NewestShot]:
    """Inverts as they stand, by station; an obvert shot is an invert one bore lower."""
    shots = newest_shots(state, collector_id)
    found = dict(shots.get("invert", {}))
    for station_nm, shot in shots.get("obvert", {}).items():
        other = found.get(station_nm)
        if other is None or state.place_of(other.entry) < state.place_of(shot.entry):
            found[station_nm] = replace(shot, level_nm=shot.level_nm - bore_nm)
    return [found[station_nm] for station_nm in sorted(found)]


def laid_pipe(state: JobState, collector_id: str) -> LaidPipe | None:
    """A collector as laid, or None while it has no plan."""
    key = ("laid_pipe", collector_id)
    if key not in state.memo:
        collector = state.latest(COLLECTOR, collector_id)
        state.memo[key] = (
            _lay(state, collector_id, collector) if isinstance(collector, Collector) else None
        )
    found: LaidPipe | None = state.memo[key]
    return found


def _lay(state: JobState, collector_id: str, collector: Collector) -> LaidPipe:
    design = collector.design
    height_at = height_along(design_line(collector))
    shots = []
    for shot in inverts(state, collector_id, design.bore_nm):
        off_nm = shot.level_nm - height_at(shot.station_nm)
        is_off = off_nm > design.high_nm or -off_nm > design.low_nm
        shots.append(LaidShot(shot, off_nm, Fault.OFF_GRADE if is_off else Fault.NONE))
    stationing = stationing_of(collector)
    bellies = _told_bellies(shots, stationing, design)
    shots = [_in_belly(shot, bellies) for shot in shots]
    limits = GradeLimits(least=least_grade(design))
    reaches = tuple(_reach(low, high, stationing, limits, bellies) for low, high in pairwise(shots))
    return LaidPipe(design, tuple(shots), reaches, bellies)


def _told_bellies(
    shots: list[LaidShot], stationing: Stationing, design: CollectorDesign
) -> tuple[Belly, ...]:
    """Low places deep enough to be sure of, whose sill is not itself what is wrong.

    One that the pipe has not climbed out of yet is told as a reach that runs
    backwards.
    """
    if design.bore_nm <= 0:
        return ()
    by_station = {shot.at.station_nm: shot for shot in shots}
    profile = [Shot(shot.at.station_nm, shot.at.level_nm) for shot in shots]
    told = []
    for belly in find_bellies(profile, stationing, design.bore_nm):
        from_outlet = stationing is Stationing.FROM_OUTLET
        sill = by_station[belly.start_nm if from_outlet else belly.end_nm]
        deepest = by_station[belly.deepest_nm]
        error_nm = max(sill.at.error_nm, deepest.at.error_nm)
        is_high = sill.fault is Fault.OFF_GRADE and sill.off_nm > 0
        if not belly.open_at_head and not is_high and belly.depth_nm**2 > 2 * error_nm**2:
            told.append(belly)
    return tuple(told)


def _in_belly(shot: LaidShot, bellies: tuple[Belly, ...]) -> LaidShot:
    """A low shot in a belly is told as the belly."""
    inside = any(belly.start_nm < shot.at.station_nm < belly.end_nm for belly in bellies)
    is_low = shot.fault is Fault.OFF_GRADE and shot.off_nm < 0
    return replace(shot, fault=Fault.BELLY) if inside and is_low else shot


def _reach(
    low: LaidShot,
    high: LaidShot,
    stationing: Stationing,
    limits: GradeLimits,
    bellies: tuple[Belly, ...],
) -> LaidReach:
    fall_nm = stationing.climb * (high.at.level_nm - low.at.level_nm)
    reach = LaidReach(low, high, fall_nm, Fault.NONE)
    wet = any(
        belly.start_nm < high.at.station_nm and low.at.station_nm < belly.end_nm
        for belly in bellies
    )
    return replace(reach, fault=Fault.BELLY if wet else _fault_of(reach, limits))


def _fault_of(reach: LaidReach, limits: GradeLimits) -> Fault:
    """What a reach is told for.

    A reach with an end that is off grade is judged again once that end has been
    moved; until then the end is the fault.
    """
    if Fault.OFF_GRADE in (reach.low.fault, reach.high.fault):
        return Fault.NONE
    verdict = judge_grade(reach.fall_nm, reach.length_nm, limits, reach.error_nm)
    if verdict is Verdict.OK:
        return Fault.NONE
    adverse = judge_grade(reach.fall_nm, reach.length_nm, NOT_ADVERSE, reach.error_nm)
    if adverse is Verdict.OUT:
        return Fault.ADVERSE
    return Fault.FLAT if verdict is Verdict.OUT else Fault.TOO_SHORT
