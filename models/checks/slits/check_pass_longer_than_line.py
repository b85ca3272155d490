"""pass_longer_than_line: a pass that is longer than the line it was cut on."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import pass_of_entry, passes_of_surface
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import pass_work
from models.entries.kind_names import PASS
from models.ledger.ledger import ledger_of
from models.state.job_state import JobState
from models.units.spec import FOOT_NM

ALLOWED_NM = FOOT_NM
"""How far beyond an end of its line a piece may run, 1 ft: what a tape over turf is good to.
Common practice, no source."""


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Hold both ends of each piece of a pass against its line."""
    work = pass_work(state, pass_id)
    if work is None:
        return
    for piece in ledger_of(state).pieces_in(work.entry):
        place = work.place(piece.line_id)
        if place is None:
            continue
        planned_nm = place.line.length_nm
        if max(piece.to_nm - planned_nm, -piece.from_nm) > ALLOWED_NM:
            yield make_finding(
                "pass_longer_than_line",
                pass_id,
                [work.entry],
                piece.line_id,
                pass_id=pass_id,
                line_id=piece.line_id,
                length_nm=max(piece.to_nm, planned_nm) - min(piece.from_nm, 0),
                planned_nm=planned_nm,
            )


CHECK = Check(
    id="pass_longer_than_line",
    severity=Severity.FIX,
    problem="The pass is longer than the line on the plan.",
    why="The blade ran past the end of the line, into a collar, a bunker or a place kept out, "
    "or the length belongs to another line.",
    cure="Walk to the end and look. If the cut ran over, fill and close what is too much; if "
    "the length or the line is wrong, correct the pass.",
    message="Pass {pass_id} is {length_nm:length} long; line {line_id} is {planned_nm:length} on "
    "the plan.",
    watches={
        "pass": pass_of_entry,
        "surface": passes_of_surface,
    },
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
