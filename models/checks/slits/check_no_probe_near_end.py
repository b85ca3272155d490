"""no_probe_near_end: a line that was not probed near one of its ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from models.checks.affected import PROBED_WHEN_DONE
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import PassWork, is_pass_done, pass_work
from models.entries.bodies.passes import PieceCut
from models.entries.kind_names import PASS
from models.ledger.ledger import ledger_of
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Look for a probe near the start and near the end of each line that has probes."""
    work = pass_work(state, pass_id)
    if work is None:
        return
    pieces = ledger_of(state).pieces_in(work.entry)
    late = [
        (line_id, end, gap_nm)
        for line_id, readings in work.readings_on.items()
        if readings
        for end, gap_nm in _gaps(work, pieces, line_id).items()
        if 0 < readings[0].pattern.probe_end_nm < gap_nm
    ]
    if late and is_pass_done(state, work):
        yield from (_finding(work, line_id, end, gap_nm) for line_id, end, gap_nm in late)


def _gaps(work: PassWork, pieces: Sequence[PieceCut], line_id: str) -> dict[str, int]:
    """Distance from each end of what the pass cut of a line to the nearest probe."""
    readings = work.readings_on[line_id]
    own = [piece for piece in pieces if piece.line_id == line_id]
    return {
        "start": readings[0].probe.along_nm - min((one.from_nm for one in own), default=0),
        "end": max((one.to_nm for one in own), default=0) - readings[-1].probe.along_nm,
    }


def _finding(work: PassWork, line_id: str, end: str, gap_nm: int) -> Finding:
    readings = work.readings_on[line_id]
    return make_finding(
        "no_probe_near_end",
        work.cut.pass_id,
        [work.entry, readings[0 if end == "start" else -1].entry],
        f"{line_id}/{end}",
        pass_id=work.cut.pass_id,
        line_id=line_id,
        end=end,
        gap_nm=gap_nm,
        most_nm=readings[0].pattern.probe_end_nm,
    )


CHECK = Check(
    id="no_probe_near_end",
    severity=Severity.FIX,
    problem="There is no probe near an end of the line.",
    why="The blade goes in and comes out at the ends: that is where a slit is shallow first.",
    cure="Probe the line again close to the end that is named, before sand goes in.",
    message="Pass {pass_id}, line {line_id}: the probe nearest to its {end} is {gap_nm:length} "
    "away, at most {most_nm:length} is allowed.",
    watches=PROBED_WHEN_DONE,
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
