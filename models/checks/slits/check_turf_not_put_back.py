"""turf_not_put_back: a turf strip that was lifted and still lay off when its day ended."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import DAY_ENDS, lines_of_day, lines_of_entry
from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.slits.pass_work import has_day_ended
from models.entries.keys import LineKey
from models.state.indexes import TURF_OF
from models.state.job_state import JobState


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Look whether the last thing done with the strip over a line was to lift it."""
    turf = state.current(TURF_OF, key)
    if not turf or turf[-1].body.step != "lifted":
        return
    if has_day_ended(state, turf[-1].day):
        yield line_finding("turf_not_put_back", key, turf[-1:])


CHECK = Check(
    id="turf_not_put_back",
    severity=Severity.FIX,
    problem="A turf strip was left off overnight.",
    why="A lifted strip dries out in one windy night, and an open slit is a trip hazard.",
    cure="Put the strip back and roll it, or keep it moist and fence the slit off until it "
    "goes back.",
    message="Line {line_id} on {surface_id}: the turf strip is lifted and not logged as put back.",
    watches={"turf_strip": lines_of_entry, **dict.fromkeys(DAY_ENDS, lines_of_day)},
    subjects=lambda state: state.every_name(TURF_OF),
    examine=examine,
)
