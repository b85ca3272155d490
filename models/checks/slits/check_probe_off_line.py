"""probe_off_line: a probe logged farther along than its line was cut or planned."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import PROBED
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import surface_of
from models.entries.kind_names import PASS, PROBE
from models.queries.layout.measured_places import probed_line
from models.state.job_state import JobState


def _examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    filed = state.current(PASS, pass_id)
    if not filed:
        return
    cut = filed[-1].body
    surface = surface_of(state, cut.surface_id)
    for entry in state.current(PROBE, pass_id):
        probe = entry.body
        line = probed_line(surface, probe.line_id, cut)
        if not line.holds(probe.along_nm):
            yield make_finding(
                CHECK.id,
                pass_id,
                [filed[-1], entry],
                place=entry.id,
                pass_id=pass_id,
                line_id=probe.line_id,
                along_nm=probe.along_nm,
                length_nm=line.end_nm,
            )


CHECK = Check(
    id="probe_off_line",
    severity=Severity.FIX,
    problem="A probe is logged beyond the end of its line.",
    why="Nobody can have probed there: the distance, the line or the length of the pass is wrong, "
    "and the depth counts for a place that was not cut.",
    cure="Look which of the three was meant and correct it.",
    message="A probe on {line_id} is logged at {along_nm:length}; the line is {length_nm:length} "
    "long.",
    watches=PROBED,
    subjects=lambda state: state.every_name(PASS),
    examine=_examine,
)
