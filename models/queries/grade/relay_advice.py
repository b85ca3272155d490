"""Advice for a re-lay: shots to lift and to lower so that the least pipe is disturbed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR
from models.queries.grade.laid_pipe import laid_pipe
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
    between ``stuck_nm``, why no re-lay between the fixed points would do.
    """

    keep_nm: tuple[int, ...] = ()
    lift: tuple[Move, ...] = ()
    lower: tuple[Move, ...] = ()
    disturbed_nm: int = 0
    no_way: str = ""
    stuck_nm: tuple[int, int] | None = None

    @property
    def is_needed(self) -> bool:
        """Whether anything has to move."""
        return bool(self.lift or self.lower or self.no_way)


def relay_advice(state: JobState, collector_id: str) -> RelayAdvice | None:
    """Least re-lay of a collector as it lies, or None while two inverts are not shot.

    The shot nearest to the outlet stays where it is. Every reach is brought to
    the least grade of the plan and every invert within its tolerance.
    """
    collector = state.latest(COLLECTOR, collector_id)
    pipe = laid_pipe(state, collector_id)
    if not isinstance(collector, Collector) or pipe is None or len(pipe.shots) < 2:
        return None
    shots = [Shot(shot.at.station_nm, shot.at.level_nm) for shot in pipe.shots]
    plan = least_relay(shots, stationing_of(collector), _limits(collector, pipe.least_grade))
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
