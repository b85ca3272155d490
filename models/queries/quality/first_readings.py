"""Quality by place: each measured place with all its readings, right first and in the end.

A place is one thing to be measured: of a depth probe its pass, its line and where along it, to
less than a foot; of a shot its collector, its station and what was shot. Only places that the
plan sets limits for are told. A reading that was struck at once as a slip is not one; struck
later, or for another reason, it stays the reading that was taken first.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from models.entries.bodies.levels import GradeShot
from models.entries.bodies.passes import PassCut, Probe
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.envelope import AnyEntry
from models.entries.kind_names import COLLECTOR, PASS, SURFACE
from models.queries.levelling.elevations import design_of, plane_along
from models.science.levelling.laser_plane import GradeLine, shot_elevation_nm
from models.science.quality.verdict import Verdict, judge
from models.state.job_state import JobState
from models.units.spec import FOOT_NM

Measured = Literal["depth probe", "grade shot"]

TAPE_NM = FOOT_NM
"""Readings along a line nearer to each other are of one place [nm]: a tape over turf is good
to a foot; common practice, no source."""

SLIP_MS = 10 * 60 * 1000
"""A reading struck within so long by who took it was a slip [ms]; common practice, no source."""

SLIP_REASONS = frozenset(
    {"misread", "wrong key", "wrong line", "wrong place", "twice logged", "not taken"}
    | {"slip, undone at once"}
    | {"mal leído", "otra tecla", "otra línea", "otro lugar", "repetido", "no se tomó"}
)
"""Reasons of a slip, as a tablet writes them in each of its languages."""


@dataclass(frozen=True, slots=True)
class PlaceReading:
    """A reading at a place, in its turn; ``struck_late`` if a slip was struck too late."""

    entry: AnyEntry
    is_in: bool
    is_struck: bool
    is_slip: bool
    struck_late: bool


@dataclass(frozen=True, slots=True)
class MeasuredPlace:
    """A measured place with its readings, oldest first, slips among them."""

    what: Measured
    name: str
    readings: tuple[PlaceReading, ...]

    @property
    def readings_that_count(self) -> tuple[PlaceReading, ...]:
        """Readings with slips left out."""
        return tuple(one for one in self.readings if not one.is_slip)

    @property
    def last(self) -> PlaceReading | None:
        """The newest reading that stands, or None where all were struck."""
        return next((one for one in reversed(self.readings) if not one.is_struck), None)

    @property
    def is_reworked(self) -> bool:
        """Whether it was out at first and measured again."""
        counted = self.readings_that_count
        return len(counted) > 1 and not counted[0].is_in


def measured_places(state: JobState) -> list[MeasuredPlace]:
    """Every place that was measured and can be judged, probes first."""
    found: list[MeasuredPlace] = []
    for (pass_id, line_id), taken in _probes(state).items():
        for along_nm, near in _near(taken):
            found.append(MeasuredPlace("depth probe", f"{pass_id}/{line_id}@{along_nm}", near))
    for name, shots in _shots(state).items():
        found.append(MeasuredPlace("grade shot", name, tuple(shots)))
    return found


def _of_kind(state: JobState, kind: str) -> list[AnyEntry]:
    """Entries of a kind, struck ones too, a correction in the place of what it corrects."""
    entries = [one for one in state.entries_in_order() if one.kind == kind and one.body is not None]
    return sorted(entries, key=state.place_of)


_Along = tuple[int, PlaceReading]


def _probes(state: JobState) -> dict[tuple[str, str], list[_Along]]:
    """Probes of each pass and line, with their distance along it."""
    found: dict[tuple[str, str], list[_Along]] = defaultdict(list)
    for entry in _of_kind(state, "probe"):
        probe = entry.body
        assert isinstance(probe, Probe)
        is_in = _probe_is_in(state, probe)
        if is_in is not None:
            reading = _reading(state, entry, is_in)
            found[probe.pass_id, probe.line_id].append((probe.along_nm, reading))
    return found


def _probe_is_in(state: JobState, probe: Probe) -> bool | None:
    """Whether a depth is within its pattern; None where nothing says what it should be."""
    cut = state.latest(PASS, probe.pass_id)
    surface = state.latest(SURFACE, cut.surface_id) if isinstance(cut, PassCut) else None
    if not isinstance(surface, Surface):
        return None
    place = surface.places.get(probe.line_id)
    pattern = place.pattern if place else surface.sand_slits
    if pattern is None:
        return None
    return judge(probe.depth_nm, pattern.least_depth_nm, pattern.most_depth_nm) is Verdict.OK


def _near(taken: list[_Along]) -> Iterator[tuple[int, tuple[PlaceReading, ...]]]:
    """Part the readings of one line into places, each round the reading taken there first.

    Slips come last, so that none of them moves a place.
    """
    places: dict[int, list[int]] = {}
    for turn in sorted(range(len(taken)), key=lambda turn: (taken[turn][1].is_slip, turn)):
        along_nm = taken[turn][0]
        nearest = min(places, key=lambda at_nm: abs(at_nm - along_nm), default=None)
        if nearest is None or abs(nearest - along_nm) >= TAPE_NM:
            places[along_nm] = [turn]
        else:
            places[nearest].append(turn)
    for at_nm, turns in places.items():
        yield at_nm, tuple(taken[turn][1] for turn in sorted(turns))


def _shots(state: JobState) -> dict[str, list[PlaceReading]]:
    """Shots of inverts and obverts by their place: they alone are held to the design."""
    found: dict[str, list[PlaceReading]] = defaultdict(list)
    planes: dict[tuple[str, str], GradeLine | None] = {}
    for entry in _of_kind(state, "grade_shot"):
        shot = entry.body
        assert isinstance(shot, GradeShot)
        collector = state.latest(COLLECTOR, shot.collector_id)
        key = (shot.setup_id, shot.collector_id)
        if key not in planes:
            planes[key] = plane_along(state, *key)
        plane = planes[key]
        if plane is None or not isinstance(collector, Collector):
            continue
        design = design_of(collector, shot.on, shot.station_nm)
        if design is None or shot.on not in {"invert", "obvert"}:
            continue
        off_nm = shot_elevation_nm(plane, shot.station_nm, shot.reading_nm) - design
        is_in = judge(off_nm, -collector.design.low_nm, collector.design.high_nm) is Verdict.OK
        name = f"{shot.collector_id}/{shot.station_nm}/{shot.on}"
        found[name].append(_reading(state, entry, is_in))
    return found


def _reading(state: JobState, entry: AnyEntry, is_in: bool) -> PlaceReading:
    strikers = [state.entries[id] for id in state.struck_by.get(entry.id, ())]
    named = [one for one in strikers if one.reason.strip() in SLIP_REASONS]
    is_slip = any(
        one.author == entry.author and 0 <= one.at_ms - entry.at_ms <= SLIP_MS for one in named
    )
    late = bool(named) and not is_slip
    return PlaceReading(entry, is_in, state.is_struck(entry.id), is_slip, late)
