"""probes_far_apart: neighbouring probes on a line that lie further apart than allowed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from models.checks.affected import PROBED_WHEN_DONE
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import is_pass_done, pass_work
from models.entries.kind_names import PASS
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Find the widest gap between probes on each line; a pattern may ask for none."""
    work = pass_work(state, pass_id)
    for line_id, readings in work.readings_on.items() if work is not None else ():
        if work is None or len(readings) < 2:
            continue
        most_nm = readings[0].pattern.probe_every_nm
        gap_nm, left, right = max(
            (
                (after.probe.along_nm - before.probe.along_nm, before, after)
                for before, after in pairwise(readings)
            ),
            key=lambda gap: gap[0],
        )
        if 0 < most_nm < gap_nm and is_pass_done(state, work):
            yield make_finding(
                "probes_far_apart",
                pass_id,
                [left.entry, right.entry],
                line_id,
                pass_id=pass_id,
                line_id=line_id,
                gap_nm=gap_nm,
                along_nm=left.probe.along_nm,
                most_nm=most_nm,
            )


CHECK = Check(
    id="probes_far_apart",
    severity=Severity.FIX,
    problem="Probes lie too far apart.",
    why="A shallow place between two probes stays unseen and holds water.",
    cure="Probe once more between the two, halfway or closer, before sand goes in.",
    message="Pass {pass_id}, line {line_id}: {gap_nm:length} without a probe from "
    "{along_nm:length} on, at most {most_nm:length} is allowed.",
    watches=PROBED_WHEN_DONE,
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
