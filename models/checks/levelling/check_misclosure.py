"""misclosure: a run of setups comes back to a benchmark and misses it."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import PROOFS, every_setup, whole_nm
from models.checks.finding import Check, Finding, Severity, make_finding
from models.queries.levelling.setup_proof import RUN, miss_of
from models.science.levelling.closure import allowed_nm
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    miss = miss_of(state, subject, is_run=True)
    if miss is None:
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
    watches=PROOFS,
    subjects=every_setup,
    examine=_examine,
)
