"""Advice for a re-lay: shots to lift and to lower so that the least pipe is disturbed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.grade.fixed_pipe import covered_shots, made_joints, shots_beside
from models.queries.grade.laid_pipe import LaidPipe, laid_pipe
from models.queries.levelling.elevations import design_line, stationing_of
from models.science.grade.profile import Shot
from models.science.grade.relay import NoRelay, RelayLimits, least_relay
from models.science.levelling.laser_plane import GradeLine
from models.state.job_state import JobState
from models.units import round_half_even


@dataclass(frozen=True, slots=True)
class Move:
    """How far the invert at a station goes up, or down where ``rise_nm`` is negative."""

    station_nm: int
    rise_nm: int


@dataclass(frozen=True, slots=True)
class RelayAdvice:
    """The least re-lay of a collector: what stays, what is lifted, what is lowered.

    ``disturbed_nm`` is the length of pipe that has to come up. ``no_way`` says,
    between ``stuck_nm``, why no re-lay between the fixed points would do. ``opens_nm`` is
    the length of it that is covered, and ``joints`` are those to be made again. ``leaves``
    is what it had to leave: all that is covered with the joints, or the joints alone.
    """

    keep_nm: tuple[int, ...] = ()
    lift: tuple[Move, ...] = ()
    lower: tuple[Move, ...] = ()
    disturbed_nm: int = 0
    no_way: str = ""
    stuck_nm: tuple[int, int] | None = None
    opens_nm: int = 0
    joints: tuple[str, ...] = ()
    leaves: Literal["covered", "joints", ""] = ""

    @property
    def is_needed(self) -> bool:
        """Whether anything has to move."""
        return bool(self.lift or self.lower or self.no_way)


def relay_advice(state: JobState, collector_id: str) -> RelayAdvice | None:
    """The first answer that would do, else the last; None while two inverts are not shot."""
    answers = relay_answers(state, collector_id)
    return answers[-1] if answers else None


def relay_answers(state: JobState, collector_id: str) -> list[RelayAdvice]:
    """Least re-lays of a collector, each freer than the one before, up to one that would do.

    The shot nearest to the outlet stays where it is. Every reach is brought to
    the least grade of the plan and every invert within its tolerance. First what is
    covered and every joint that was made stay as well; where that has no answer, what
    is covered is opened, and at last joints are made again.
    """
    collector = state.latest(COLLECTOR, collector_id)
    pipe = laid_pipe(state, collector_id)
    if not isinstance(collector, Collector) or pipe is None or len(pipe.shots) < 2:
        return []
    stations = [shot.at.station_nm for shot in pipe.shots]
    joints = made_joints(state, collector_id)
    covered = frozenset(covered_shots(state, collector_id, pipe))
    joined = frozenset(n for at_nm in joints.values() for n in shots_beside(stations, at_nm))
    answers: list[RelayAdvice] = []
    asked: set[frozenset[int]] = set()
    for leaves, fixed in _freer(covered, joined):
        if fixed in asked:
            continue
        asked.add(fixed)
        answer = replace(_relay(collector, pipe, fixed), leaves=leaves)
        answers.append(_with_costs(answer, pipe, stations, covered, joints))
        if not answer.no_way:
            break
    return answers


def _freer(
    covered: frozenset[int], joined: frozenset[int]
) -> tuple[tuple[Literal["covered", "joints", ""], frozenset[int]], ...]:
    """Shots that stay, each time fewer, and what they are."""
    return ("covered", covered | joined), ("joints", joined), ("", frozenset())


def _with_costs(
    answer: RelayAdvice,
    pipe: LaidPipe,
    stations: list[int],
    covered: frozenset[int],
    joints: dict[str, int],
) -> RelayAdvice:
    """The answer with what of it is covered, and the joints that move with it."""
    moved = {move.station_nm for move in (*answer.lift, *answer.lower)}
    opened = [
        reach.length_nm
        for n, reach in enumerate(pipe.reaches)
        if {n, n + 1} & covered and {stations[n], stations[n + 1]} & moved
    ]
    again = (
        name
        for name, at_nm in joints.items()
        if any(stations[n] in moved for n in shots_beside(stations, at_nm))
    )
    return replace(answer, opens_nm=sum(opened), joints=tuple(again))


def _relay(collector: Collector, pipe: LaidPipe, fixed: frozenset[int]) -> RelayAdvice:
    """Least re-lay of a pipe that leaves some of its shots where they are."""
    shots = [Shot(shot.at.station_nm, shot.at.level_nm) for shot in pipe.shots]
    limits = _limits(collector, pipe.least_grade)
    plan = least_relay(shots, stationing_of(collector), limits, fixed)
    if isinstance(plan, NoRelay):
        return RelayAdvice(no_way=plan.reason, stuck_nm=(plan.start_nm, plan.end_nm))
    moves = [
        Move(shot.station_nm, round_half_even(rise.numerator, rise.denominator))
        for shot, rise in zip(shots, plan.moves_nm, strict=True)
    ]
    return RelayAdvice(
        keep_nm=tuple(move.station_nm for move in moves if move.rise_nm == 0),
        lift=tuple(move for move in moves if move.rise_nm > 0),
        lower=tuple(move for move in moves if move.rise_nm < 0),
        disturbed_nm=plan.disturbed_nm,
    )


def _limits(collector: Collector, least: Fraction) -> RelayLimits:
    """The plan's limits; a band that is not even about the design is shifted to its middle."""
    design = collector.design
    line = design_line(collector)
    middle = GradeLine(
        line.elevation_nm + Fraction(design.high_nm - design.low_nm, 2),
        line.station_nm,
        line.grade,
        line.stationing,
    )
    # an odd sum would cost half a nanometre of the band, which no rod shows
    return RelayLimits(least, design=middle, tolerance_nm=(design.high_nm + design.low_nm) // 2)
