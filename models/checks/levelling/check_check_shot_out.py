"""check_shot_out: the rod on a known point reads another height than the known one."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import (
    PROOFS,
    every_setup,
    runs_and_setup_before,
    whole_nm,
)
from models.checks.finding import Check, Finding, Severity, make_finding
from models.queries.levelling.setup_chain import is_over
from models.queries.levelling.setup_proof import REPEAT, miss_of
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    miss = miss_of(state, subject, is_run=False)
    if miss is None or (not miss.in_doubt and is_over(state, subject)):
        return  # nothing hangs on it: the shots were taken again, or never were
    from_nm, to_nm = miss.stations_nm
    yield make_finding(
        CHECK.id,
        subject,
        [*miss.in_doubt, miss.proof.entry],
        setup_id=subject,
        point=miss.proof.on_point,
        missed_nm=whole_nm(miss.proof.missed_nm),
        allowed_nm=REPEAT.amount_nm,
        shots=len(miss.in_doubt),
        from_nm=from_nm,
        to_nm=to_nm,
    )


CHECK = Check(
    id="check_shot_out",
    severity=Severity.STOP,
    problem="A check shot does not come back to the level of its point.",
    why="The laser has moved or was read wrong, and nobody can say since when: every shot "
    "since the last good check is in doubt.",
    cure="Read the check shot again. If it still misses, set up anew and shoot again every "
    "station in doubt before anything is covered.",
    message="The check shot on {point} from {setup_id} misses by {missed_nm:fine}, "
    "{allowed_nm:fine} is allowed. Shots in doubt: {shots}, from {from_nm:station} "
    "to {to_nm:station}.",
    watches={**PROOFS, "setup": runs_and_setup_before},
    subjects=every_setup,
    examine=_examine,
)
