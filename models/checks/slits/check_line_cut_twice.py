"""line_cut_twice: a line that was cut by more than one pass."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import lines_of_entry, lines_of_plan
from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.slits.check_pass_longer_than_line import ALLOWED_NM
from models.entries.keys import LineKey, split_key
from models.ledger.ledger import ledger_of
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Look for more of a line cut again than a tape is off; two tablets have their own check.

    Parts of a line, cut on several passes, are none of it cut twice.
    """
    cuts = list({entry.id: entry for entry in state.current(CUTS_OF, key)}.values())
    if len(cuts) < 2 or len({entry.stream for entry in cuts}) > 1:
        return
    tally = ledger_of(state).line(*split_key(key))
    if tally.planned is not None and tally.again <= ALLOWED_NM:
        return
    yield line_finding(
        "line_cut_twice",
        key,
        cuts,
        cuts=len(cuts),
        passes=", ".join(entry.body.pass_id for entry in cuts),
    )


CHECK = Check(
    id="line_cut_twice",
    severity=Severity.FIX,
    problem="The line is logged as cut twice.",
    why="One of the passes was on another line, or the length is counted and billed twice.",
    cure="If one pass was on another line, correct its line. If the line was cut again to "
    "reach depth, answer rework and say so.",
    message="Line {line_id} on {surface_id} is logged by {cuts} passes: {passes}.",
    watches={
        "pass": lines_of_entry,
        "surface": lines_of_plan,
    },
    subjects=lambda state: state.every_name(CUTS_OF),
    examine=examine,
)
