"""Verdict on one invert against the tolerance of its design, as far as its readings prove it."""

from __future__ import annotations

from fractions import Fraction

from models.entries.bodies.surfaces import Collector
from models.queries.levelling.elevations import ReducedShot, design_of
from models.queries.levelling.level_errors import confidence_of, setup_errors
from models.science.levelling.uncertainty import variance
from models.science.quality.verdict import Verdict, judge_margin
from models.state.job_state import JobState

PIPE = frozenset({"invert", "obvert"})
"""What the tolerance of a design is set for."""


def shot_verdict(state: JobState, collector: Collector | None, shot: ReducedShot) -> Verdict:
    """Verdict where the design sets a limit, on inverts and obverts.

    A shot whose setup has no level, or whose readings no rod gives, is not measured.
    """
    if collector is None or shot.elevation_nm is None or shot.shot.on not in PIPE:
        return Verdict.NOT_MEASURED
    design_nm = design_of(collector, shot.shot.on, shot.station_nm)
    if design_nm is None:
        return Verdict.NOT_MEASURED
    off_nm = shot.elevation_nm - design_nm
    design = collector.design
    inside_nm = min(design.high_nm - off_nm, design.low_nm + off_nm)
    return judge_margin(inside_nm, shot_variance(state, shot), confidence_of(state))


def shot_variance(state: JobState, shot: ReducedShot) -> Fraction:
    """Variance of the elevation of a shot, in nm2."""
    errors = setup_errors(state, shot.shot.setup_id)
    return variance(errors.terms_at(shot.station_nm, shot.entry.id)) if errors else Fraction(0)
