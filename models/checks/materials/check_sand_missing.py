"""sand_missing: a pass is covered again and no sand was logged for it."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import pass_of_entry, passes_of_lines, passes_of_sand
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import is_covered, pass_work
from models.entries.keys import line_key
from models.entries.kind_names import PASS, SAND_PLACED
from models.state.indexes import SAND_WITHOUT_PASS, TURF_OF
from models.state.job_state import JobState


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Look for sand in a pass that is covered; sand logged for the surface may be in it."""
    work = pass_work(state, pass_id)
    if work is None or state.current(SAND_PLACED, pass_id):
        return
    surface_id = work.cut.surface_id
    covered = [line for line in work.readings_on if is_covered(state, surface_id, line)]
    if covered and not state.current(SAND_WITHOUT_PASS, surface_id):
        turf = [state.current(TURF_OF, line_key(surface_id, line))[-1] for line in covered]
        yield make_finding(
            "sand_missing",
            pass_id,
            [work.entry, *{entry.id: entry for entry in turf}.values()],
            pass_id=pass_id,
            lines=", ".join(covered),
        )


CHECK = Check(
    id="sand_missing",
    severity=Severity.STOP,
    problem="The turf lies again and no sand is logged.",
    why="An empty slit closes up in the first week and drains nothing.",
    cure="If sand went in, log how much. If not, lift the strip again and fill the slit before "
    "the crew moves on.",
    message="Pass {pass_id}: the strip over {lines} lies again, but no sand is logged for it.",
    watches={
        "pass": pass_of_entry,
        "turf_strip": passes_of_lines,
        "sand_placed": passes_of_sand,
    },
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
