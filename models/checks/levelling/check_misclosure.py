"""misclosure: a run of setups comes back to a benchmark and misses it.

One that is allowed is told as well where it is more than the readings of the run explain:
beyond 1.96 standard deviations, which one sound run in twenty is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from models.checks.affected_together import PROOFS, every_setup, setups_by, whole_nm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.queries.levelling.level_errors import check_variance
from models.queries.levelling.setup_proof import RUN, miss_of, proofs_of
from models.science.levelling.closure import allowed_nm
from models.science.levelling.uncertainty import guard_band_nm
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    miss = miss_of(state, subject, is_run=True)
    if miss is None:
        yield from _unlikely(state, subject)
        return
    yield make_finding(
        CHECK.id,
        subject,
        [*miss.in_doubt, miss.proof.entry],
        setup_id=subject,
        point=miss.proof.on_point,
        setups=miss.proof.setups,
        missed_nm=whole_nm(miss.proof.missed_nm),
        allowed_nm=allowed_nm(RUN, setups=miss.proof.setups),
        shots=len(miss.in_doubt),
    )


def _unlikely(state: JobState, subject: str) -> Iterator[Finding]:
    """The last check shot of a run, where it is allowed and yet misses by much."""
    proofs = [proof for proof in proofs_of(state, subject) if proof.is_run]
    if not proofs:
        return
    proof = proofs[-1]
    spread = check_variance(state, proof.entry)
    if spread is None or proof.missed_nm**2 <= TWO_SIDED_95**2 * spread:
        return
    found = make_finding(
        CHECK.id,
        subject,
        [proof.entry],
        setup_id=subject,
        point=proof.on_point,
        setups=proof.setups,
        missed_nm=whole_nm(proof.missed_nm),
        error_nm=guard_band_nm(spread, TWO_SIDED_95),
    )
    yield replace(found, saying=UNLIKELY, severity=Severity.NOTE)


TWO_SIDED_95 = Fraction(196, 100)
"""Standard deviations that nineteen sound runs in twenty stay within."""

UNLIKELY = "unlikely"
"""Message of a run that is allowed to miss by what it does, and rarely would."""

CHECK = Check(
    id="misclosure",
    severity=Severity.FIX,
    problem="A run of setups by turning points misses the benchmark that it comes back to.",
    why="Somewhere on the way a rod was misread or a turning point has moved, and every level "
    "carried along the run may be wrong by as much.",
    cure="Read the last setup again; if it still misses, run the levels again from the last "
    "benchmark and shoot again what was shot on the way.",
    message="The run of {setups} setups that ends at {setup_id} misses {point} by "
    "{missed_nm:fine}, {allowed_nm:fine} is allowed. Shots in doubt: {shots}.",
    messages={
        UNLIKELY: "The run of {setups} setups that ends at {setup_id} misses {point} by "
        "{missed_nm:fine}: allowed, and more than its readings explain, {error_nm:fine}."
    },
    cures={
        UNLIKELY: "Nothing has to be done; a rod misread by a little or a turning point that "
        "moved would look like this, so read the last setup again while it stands."
    },
    watches={**PROOFS, "instrument": setups_by},
    subjects=every_setup,
    examine=_examine,
)
