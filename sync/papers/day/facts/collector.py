"""Collector work of a day: grade shots against design, one line of quality each."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.entries.bodies.levels import GradeShot
from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR, GRADE_SHOT
from models.queries.grade.shot_verdict import shot_verdict
from models.queries.levelling.elevations import (
    current_inverts,
    design_of,
    reduced_shots,
    stationing_of,
)
from models.science.quality.verdict import Verdict, judge
from models.state.job_state import JobState


@dataclass(frozen=True, slots=True)
class ShotLine:
    """A grade shot of the day with its elevation, design and verdict."""

    at: str
    collector_id: str
    station_nm: int
    on: str
    reading_nm: int
    reading_typed: str
    setup_id: str
    elevation_nm: Fraction | None
    design_nm: Fraction | None
    off_nm: Fraction | None
    verdict: Verdict
    author: str
    body: GradeShot


@dataclass(frozen=True, slots=True)
class GradeQuality:
    """Quality of a collector's inverts: today's shots, all so far, and the grade they make."""

    collector_id: str
    name: str
    shot_today: int
    n: int
    inside: int
    lowest_nm: Fraction
    highest_nm: Fraction
    from_nm: int
    to_nm: int
    grade: Fraction | None
    design_grade: Fraction
    high_nm: int
    low_nm: int


def shots_of(state: JobState, day: str, time_of: dict[str, str]) -> tuple[ShotLine, ...]:
    """Current grade shots of a day, in the order of the book."""
    found: list[ShotLine] = []
    for collector_id in state.every_name(GRADE_SHOT):
        collector = state.latest(COLLECTOR, collector_id)
        for shot in reduced_shots(state, collector_id):
            if shot.entry.day != day:
                continue
            design = None
            if isinstance(collector, Collector):
                design = design_of(collector, shot.shot.on, shot.station_nm)
            level = shot.elevation_nm
            off = None if level is None or design is None else level - design
            found.append(
                ShotLine(
                    at=time_of.get(shot.entry.id, ""),
                    collector_id=collector_id,
                    station_nm=shot.station_nm,
                    on=shot.shot.on,
                    reading_nm=shot.shot.reading_nm,
                    reading_typed=shot.shot.reading_typed,
                    setup_id=shot.shot.setup_id,
                    elevation_nm=shot.elevation_nm,
                    design_nm=design,
                    off_nm=off,
                    verdict=shot_verdict(state, collector, shot),
                    author=shot.entry.author,
                    body=shot.shot,
                )
            )
    return tuple(found)


def grade_quality_of(state: JobState, day: str) -> tuple[GradeQuality, ...]:
    """Quality of each collector that was shot on the day."""
    found = []
    for collector_id in state.every_name(COLLECTOR):
        collector = state.latest(COLLECTOR, collector_id)
        shots = [one for one in current_inverts(state, collector_id) if one.entry.day <= day]
        today = sum(one.entry.day == day for one in shots)
        if not isinstance(collector, Collector) or not today:
            continue
        design = collector.design
        offs = [off_design(collector, one.station_nm, one.elevation_nm) for one in shots]
        run = shots[-1].station_nm - shots[0].station_nm
        rise = Fraction(shots[-1].elevation_nm or 0) - Fraction(shots[0].elevation_nm or 0)
        found.append(
            GradeQuality(
                collector_id=collector_id,
                name=collector.name,
                shot_today=today,
                n=len(shots),
                inside=sum(
                    judge(one, -design.low_nm, design.high_nm) is Verdict.OK for one in offs
                ),
                lowest_nm=min(offs),
                highest_nm=max(offs),
                from_nm=shots[0].station_nm,
                to_nm=shots[-1].station_nm,
                grade=stationing_of(collector).climb * rise / run if run else None,
                design_grade=Fraction(design.fall_nm, design.run_nm),
                high_nm=design.high_nm,
                low_nm=design.low_nm,
            )
        )
    return tuple(found)


def off_design(collector: Collector, station_nm: int, elevation_nm: Fraction | None) -> Fraction:
    """Height of an invert over its design."""
    design = design_of(collector, "invert", station_nm)
    return Fraction(elevation_nm or 0) - Fraction(design or 0)
