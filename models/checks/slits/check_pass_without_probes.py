"""pass_without_probes: a line of a pass that was left without a single probe."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import PROBED_WHEN_DONE
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import is_pass_done, pass_work
from models.entries.kind_names import PASS, PROBE
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Name the lines of a pass that the crew left without a probe.

    One that was probed, and cut again since, is the later pass's to probe.
    """
    work = pass_work(state, pass_id)
    if work is None:
        return
    probed = {probe.line_id for probe in state.bodies(PROBE, pass_id)}
    bare = [
        line_id
        for line_id in work.readings_on
        if line_id not in probed and work.pattern(line_id) is not None
    ]
    if bare and is_pass_done(state, work):
        yield make_finding(
            "pass_without_probes",
            pass_id,
            [work.entry],
            pass_id=pass_id,
            lines=", ".join(bare),
        )


CHECK = Check(
    id="pass_without_probes",
    severity=Severity.FIX,
    problem="A line was cut and nobody probed its depth.",
    why="Once sand is in, nobody can tell how deep it is, and the owner pays for depth.",
    cure="Probe the line now, near both ends and between; if it is filled, open it by hand at "
    "three places.",
    message="Pass {pass_id}: no probe on {lines}.",
    watches=PROBED_WHEN_DONE,
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
