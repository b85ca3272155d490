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

from models.entries.bodies.surfaces import Collector
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, GRADE_SHOT
from models.plan.collector import CollectorDesign
from models.queries.levelling.elevations import design_line, plane_along, stationing_of
from models.queries.levelling.level_errors import SetupErrors, confidence_of, setup_errors
from models.queries.levelling.setup_chain import is_on_rod
from models.science.grade.bellies import Belly, find_bellies
from models.science.grade.profile import Shot
from models.science.grade.reach_grade import GradeLimits, length_to_tell_nm, margin_nm
from models.science.levelling.laser_plane import GradeLine, Length, Stationing
from models.science.levelling.uncertainty import (
    Level,
    Terms,
    difference,
    guard_band_nm,
    variance,
)
from models.science.quality.verdict import Verdict, judge_margin
from models.state.job_state import JobState


class Fault(StrEnum):
    """Fault of a shot or a reach; none where it is well or another one reports it.

    One that is too short falls enough as read, which the readings can't prove.
    """

    NONE = ""
    OFF_GRADE = "off grade"
    BELLY = "belly"
    ADVERSE = "adverse"
    FLAT = "flat"
    TOO_SHORT = "too short"


@dataclass(frozen=True, slots=True)
class NewestShot:
    """The newest shot of one thing at one station, with its elevation and what that rests on."""

    entry: AnyEntry
    station_nm: int
    level_nm: Length
    errors: SetupErrors

    @property
    def error_nm(self) -> int:
        """Error of a reading of its setup, plus or minus, in nm."""
        return self.errors.half_width_nm

    @property
    def terms(self) -> Terms:
        """Terms of its elevation."""
        return self.errors.terms_at(self.station_nm, self.entry.id)

    @property
    def level(self) -> Level:
        """Elevation under the rod, with the terms that it rests on."""
        return Level(self.level_nm, self.terms)


@dataclass(frozen=True, slots=True)
class Proof:
    """Verdict on a margin, and the guard band that readings take off a tolerance.

    ``is_stated`` says that the error of every instrument in it is written down.
    """

    verdict: Verdict
    guard_nm: int = 0
    is_stated: bool = True


@dataclass(frozen=True, slots=True)
class LaidShot:
    """An invert as it lies; ``off_nm`` is positive when it is high."""

    at: NewestShot
    off_nm: Length
    proof: Proof
    fault: Fault = Fault.NONE

    @property
    def verdict(self) -> Verdict:
        """Whether it lies within the tolerance of its design, as far as readings prove it."""
        return self.proof.verdict


@dataclass(frozen=True, slots=True)
class LaidReach:
    """The pipe between two neighbouring inverts; ``fall_nm`` is negative when adverse.

    ``proof`` is that of its fault, or that it falls enough.
    """

    low: LaidShot
    high: LaidShot
    fall_nm: Length
    fault: Fault
    proof: Proof

    @property
    def length_nm(self) -> int:
        """Length along the stations, in nm."""
        return self.high.at.station_nm - self.low.at.station_nm

    @property
    def error_nm(self) -> int:
        """Error of the poorer of its two readings, in nm."""
        return max(self.low.at.error_nm, self.high.at.error_nm)

    @property
    def fall(self) -> Level:
        """Fall of the reach with its terms; those that both ends share are not in it."""
        return difference(self.high.at.level, self.low.at.level)


@dataclass(frozen=True, slots=True)
class LaidBelly:
    """A low place that holds water as read, and whether readings prove it."""

    belly: Belly
    proof: Proof

    def wets(self, low_nm: int, high_nm: int) -> bool:
        """Whether some of it lies between two stations."""
        return self.belly.start_nm < high_nm and low_nm < self.belly.end_nm


@dataclass(frozen=True, slots=True)
class LaidPipe:
    """A collector as laid, by growing station."""

    design: CollectorDesign
    shots: tuple[LaidShot, ...]
    reaches: tuple[LaidReach, ...]
    bellies: tuple[LaidBelly, ...]

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
    heights: dict[str, tuple[Callable[[int], Length], SetupErrors] | None] = {}
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
) -> tuple[Callable[[int], Length], SetupErrors] | None:
    """Height of a setup's plane along the collector, and what it rests on."""
    errors = setup_errors(state, setup_id)
    plane = plane_along(state, setup_id, collector_id) if errors is not None else None
    return None if plane is None or errors is None else (height_along(plane), errors)


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


def prove(state: JobState, margin: Length, *shots: NewestShot) -> Proof:
    """Judge a margin that one shot has, or the difference of two, by its readings."""
    terms = shots[0].terms if len(shots) == 1 else difference(*(one.level for one in shots)).terms
    z, spread = confidence_of(state), variance(terms)
    is_stated = all(one.errors.is_stated for one in shots)
    return Proof(judge_margin(margin, spread, z), guard_band_nm(spread, z), is_stated)


def length_that_proves(
    state: JobState, margin: Fraction, low: NewestShot, high: NewestShot
) -> int | None:
    """Length of a reach that would prove a grade off its limit by a margin, in nm.

    None where none would: the plane's own tilt may be more, and two setups differ by
    more than a tilt.
    """
    if low.errors != high.errors:
        return None
    slope = variance(dict.fromkeys(low.errors.slopes, 1))
    reach_nm = high.station_nm - low.station_nm
    fixed = variance(difference(high.level, low.level).terms) - slope * reach_nm**2
    return length_to_tell_nm(margin, fixed, slope, confidence_of(state))


def _lay(state: JobState, collector_id: str, collector: Collector) -> LaidPipe:
    design = collector.design
    height_at = height_along(design_line(collector))
    shots = []
    for shot in inverts(state, collector_id, design.bore_nm):
        off_nm = shot.level_nm - height_at(shot.station_nm)
        inside_nm = min(design.high_nm - off_nm, design.low_nm + off_nm)
        fault = Fault.OFF_GRADE if inside_nm < 0 else Fault.NONE
        shots.append(LaidShot(shot, off_nm, prove(state, inside_nm, shot), fault))
    stationing = stationing_of(collector)
    bellies = _find_bellies(state, shots, stationing, design)
    shots = [_in_belly(shot, bellies) for shot in shots]
    limits = GradeLimits(least=least_grade(design))
    reaches = tuple(
        _reach(state, low, high, stationing, limits, bellies) for low, high in pairwise(shots)
    )
    return LaidPipe(design, tuple(shots), reaches, bellies)


def _find_bellies(
    state: JobState, shots: list[LaidShot], stationing: Stationing, design: CollectorDesign
) -> tuple[LaidBelly, ...]:
    """Low places whose sill is not itself what is wrong.

    One that the pipe has not climbed out of yet is told as a reach that runs
    backwards.
    """
    if design.bore_nm <= 0:
        return ()
    by_station = {shot.at.station_nm: shot for shot in shots}
    profile = [Shot(shot.at.station_nm, shot.at.level_nm) for shot in shots]
    found = []
    for belly in find_bellies(profile, stationing, design.bore_nm):
        from_outlet = stationing is Stationing.FROM_OUTLET
        sill = by_station[belly.start_nm if from_outlet else belly.end_nm]
        deepest = by_station[belly.deepest_nm]
        is_high = sill.fault is Fault.OFF_GRADE and sill.off_nm > 0
        if not belly.open_at_head and not is_high:
            proof = prove(state, -belly.depth_nm, sill.at, deepest.at)
            found.append(LaidBelly(belly, proof))
    return tuple(found)


def _in_belly(shot: LaidShot, bellies: tuple[LaidBelly, ...]) -> LaidShot:
    """A low shot in a belly is told as the belly, unless it is surer than that."""
    inside = any(
        one.belly.start_nm < shot.at.station_nm < one.belly.end_nm and _tells(one.proof, shot.proof)
        for one in bellies
    )
    is_low = shot.fault is Fault.OFF_GRADE and shot.off_nm < 0
    return replace(shot, fault=Fault.BELLY) if inside and is_low else shot


def _tells(belly: Proof, own: Proof) -> bool:
    """Whether a belly weighs as much as a fault within it, and so is told in its place."""
    return belly.verdict is Verdict.OUT or own.verdict is not Verdict.OUT


def _reach(
    state: JobState,
    low: LaidShot,
    high: LaidShot,
    stationing: Stationing,
    limits: GradeLimits,
    bellies: tuple[LaidBelly, ...],
) -> LaidReach:
    fall_nm = stationing.climb * (high.at.level_nm - low.at.level_nm)
    length_nm = high.at.station_nm - low.at.station_nm
    graded = prove(state, margin_nm(fall_nm, length_nm, limits), high.at, low.at)
    fault, proof = _fault_of(state, low, high, fall_nm, graded)
    if any(
        one.wets(low.at.station_nm, high.at.station_nm) and _tells(one.proof, proof)
        for one in bellies
    ):
        fault = Fault.BELLY
    return LaidReach(low, high, fall_nm, fault, proof)


def _fault_of(
    state: JobState, low: LaidShot, high: LaidShot, fall_nm: Length, graded: Proof
) -> tuple[Fault, Proof]:
    """What a reach is told for, and what proves it.

    A reach with an end that is off grade is judged again once that end has been
    moved; until then the end is the fault. One that runs backwards as read, and is
    proven too flat, is told for what is proven.
    """
    if Fault.OFF_GRADE in (low.fault, high.fault) or graded.verdict is Verdict.OK:
        return Fault.NONE, graded
    if graded.verdict is Verdict.WITHIN:
        return Fault.TOO_SHORT, graded
    if fall_nm < 0:
        adverse = prove(state, fall_nm, high.at, low.at)
        if adverse.verdict is Verdict.OUT or graded.verdict is not Verdict.OUT:
            return Fault.ADVERSE, adverse
    return Fault.FLAT, graded
