"""Errors of the elevations of a job: every reading from the benchmark to the rod has its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.entries.bodies.levels import CheckShot, LaserSetup, TurningPoint
from models.entries.envelope import Entry
from models.entries.kind_names import BENCHMARK
from models.queries.levelling.peg_tests import find_instrument, laser_proof
from models.queries.levelling.setup_chain import chain_of, is_graded, newest
from models.science.levelling.laser_plane import Length
from models.science.levelling.uncertainty import (
    SEAT_NM,
    SIGHT_NM,
    ErrorSource,
    Terms,
    angle_error,
    curvature_nm,
    known_error,
    reading_error,
    variance,
)
from models.science.quality.verdict import Z_OF
from models.state.indexes import TURNING_NAMED
from models.state.job_state import JobState

_CURVATURE = known_error("curvature", 1)
"""Curvature of the earth and refraction, where two sights are noted to be of unequal length:
levels are not corrected for it, so the whole of it counts."""


@dataclass(frozen=True, slots=True)
class SetupErrors:
    """Errors of every shot from a setup, and those that it takes on at a station.

    ``shared`` are the terms up to the plane; ``slopes`` are the tilt of the plane and a
    grade dialled, whose weight is the way from the backsight point at ``back_nm``. ``cone``
    is the line of sight off level by its own error, where it is known that the instrument
    stood at ``stands_nm`` and saw its backsight ``sight_nm`` away. ``is_stated`` says that
    the error of the instrument is written down; 10 arc seconds are taken where it isn't.
    """

    shared: Terms
    slopes: tuple[ErrorSource, ...]
    half_width_nm: int
    back_nm: int
    stands_nm: int | None = None
    sight_nm: int = 0
    cone: ErrorSource | None = None
    is_stated: bool = False

    def terms_at(self, station_nm: int, shot_id: str) -> Terms:
        """Terms of the elevation under the rod at a station."""
        terms: dict[ErrorSource, Length] = dict(self.shared)
        terms[reading_error(shot_id, self.half_width_nm)] = -1
        for slope in self.slopes:
            terms[slope] = station_nm - self.back_nm
        if self.stands_nm is not None and self.cone is not None:
            far_nm = abs(station_nm - self.stands_nm)
            terms[self.cone] = far_nm - self.sight_nm
            add_curvature(terms, far_nm, self.sight_nm)
        return terms


def confidence_of(state: JobState) -> Fraction:
    """Standard deviations that a margin has to be worth on this job to be called proven."""
    job = state.job
    return Z_OF[95 if job is None else job.confidence_percent]


def setup_errors(state: JobState, setup_id: str) -> SetupErrors | None:
    """Errors of shots from a setup; None where it hangs from no benchmark."""
    key = ("setup errors", setup_id)
    if key not in state.memo:
        state.memo[key] = _setup_errors(state, setup_id)
    found: SetupErrors | None = state.memo[key]
    return found


def _setup_errors(state: JobState, setup_id: str) -> SetupErrors | None:
    chain = chain_of(state, setup_id)
    if not chain.is_sound:
        return None
    own = chain.setups[0]
    setup, asec10 = own.body, _asec10(state, own.body)
    terms = _point_terms(state, chain.benchmark, chain.setups[1:], chain.turnings)
    terms[_backsight(setup)] = 1
    slopes = [angle_error(f"tilt of {setup_id}", asec10)]
    if is_graded(setup):
        slopes.append(angle_error(f"grade dialled at {setup_id}", asec10))
    return SetupErrors(
        shared=terms,
        slopes=tuple(slopes),
        half_width_nm=setup.reading_error_nm,
        back_nm=setup.at_station_nm,
        stands_nm=setup.stands_at_nm,
        sight_nm=_backsight_length_nm(setup),
        cone=None if setup.stands_at_nm is None else _cone(state, own, asec10),
        is_stated=asec10 is not None,
    )


def turning_terms(state: JobState, point: str) -> Terms | None:
    """Terms of the elevation of a turning point; None where it hangs from no benchmark."""
    turning = newest(state, TURNING_NAMED, point)
    if turning is None:
        return None
    chain = chain_of(state, turning.body.setup_id)
    if not chain.is_sound:
        return None
    return _point_terms(state, chain.benchmark, chain.setups, (turning, *chain.turnings))


def check_variance(state: JobState, entry: Entry[CheckShot]) -> Fraction | None:
    """Variance of what a check shot misses a benchmark by, in nm2; None without a chain."""
    check = entry.body
    chain = chain_of(state, check.setup_id)
    known = state.latest(BENCHMARK, check.on_point)
    if not chain.is_sound or known is None:
        return None
    own = chain.setups[0].body
    asec10, back_nm = _asec10(state, own), _backsight_length_nm(own)
    far_nm = SIGHT_NM if check.far_nm is None else check.far_nm
    terms = _point_terms(state, chain.benchmark, chain.setups[1:], chain.turnings)
    terms[_backsight(own)] = 1
    terms[reading_error("check shot", own.reading_error_nm)] = -1
    terms[angle_error("backsight direction", asec10)] = back_nm
    terms[angle_error("direction of the check shot", asec10)] = far_nm
    if own.backsight_far_nm is not None and check.far_nm is not None:
        add_curvature(terms, far_nm, back_nm)
    held = known_error(f"benchmark {check.on_point}", known.sd_nm**2)
    terms[held] = terms.get(held, 0) - 1
    return variance(terms)


def _point_terms(
    state: JobState,
    benchmark: str,
    setups: Sequence[Entry[LaserSetup]],
    turnings: Sequence[Entry[TurningPoint]],
) -> dict[ErrorSource, Length]:
    """Terms of the last of some turning points, each read from the setup beside it."""
    terms: dict[ErrorSource, Length] = {}
    known = state.latest(BENCHMARK, benchmark)
    if known is not None and known.sd_nm:
        terms[known_error(f"benchmark {benchmark}", known.sd_nm**2)] = 1
    for entry, read in zip(setups, turnings, strict=True):
        setup, turning = entry.body, read.body
        asec10 = _asec10(state, setup)
        point, back_nm = turning.point_id, _backsight_length_nm(setup)
        far_nm = SIGHT_NM if turning.far_nm is None else turning.far_nm
        terms[_backsight(setup)] = 1
        terms[reading_error(f"foresight on {point}", setup.reading_error_nm)] = -1
        terms[known_error(f"seat of {point}", SEAT_NM**2)] = 1
        terms[angle_error(f"backsight direction of {setup.setup_id}", asec10)] = back_nm
        terms[angle_error(f"foresight direction to {point}", asec10)] = far_nm
        if setup.backsight_far_nm is not None and turning.far_nm is not None:
            add_curvature(terms, far_nm, back_nm)
    return terms


def add_curvature(terms: dict[ErrorSource, Length], far_nm: int, back_nm: int) -> None:
    """Add what curvature does to a foresight of one length after a backsight of another."""
    bend_nm = round(curvature_nm(far_nm) - curvature_nm(back_nm))
    if bend_nm:
        terms[_CURVATURE] = terms.get(_CURVATURE, 0) + bend_nm


def _backsight(setup: LaserSetup) -> ErrorSource:
    return reading_error(f"backsight of {setup.setup_id}", setup.reading_error_nm)


def _backsight_length_nm(setup: LaserSetup) -> int:
    """Length of the backsight: as noted, else from where the instrument stood, else 30 m."""
    if setup.backsight_far_nm is not None:
        return setup.backsight_far_nm
    if setup.stands_at_nm is not None:
        return abs(setup.at_station_nm - setup.stands_at_nm)
    return SIGHT_NM


def _asec10(state: JobState, setup: LaserSetup) -> int | None:
    """Stated error of the instrument that was set up; None where none is stated."""
    instrument = find_instrument(state, setup.instrument_id)
    return None if instrument is None else instrument.plane_asec10


def _cone(state: JobState, setup: Entry[LaserSetup], asec10: int | None) -> ErrorSource:
    """Error of the line of sight off level: as good as its peg test, else as stated.

    Four readings go into a peg test, over the difference of two distances.
    """
    name = f"line of sight of {setup.body.setup_id}"
    proof = laser_proof(state, setup)
    if proof is None or proof.test is None or proof.doubt is not None:
        return angle_error(name, asec10)
    test = proof.test.test
    longer_nm = test.to_a_nm - test.to_b_nm
    return known_error(name, Fraction(4 * setup.body.reading_error_nm**2, 3 * longer_nm**2))
