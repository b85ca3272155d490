"""shift_off_spacing: the shift from the pass before does not lead to the line that was cut."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from models.checks.affected import pass_and_neighbours, passes_of_surface
from models.checks.finding import Check, Finding, Severity, make_finding
from models.checks.slits.pass_work import PassWork, pass_work
from models.entries.kind_names import PASS
from models.state.indexes import PASSES_ON
from models.state.job_state import JobState

ALLOWED_SHARE = 10
"""A shift may be off by one in so many of the spacing: common practice, no source."""


def examine(state: JobState, pass_id: str) -> Iterator[Finding]:
    """Hold the measured shift against the distance between the first lines of two passes."""
    work = pass_work(state, pass_id)
    before = _pass_before(state, work) if work is not None else None
    pattern = work.pattern(work.cut.line_ids[0]) if work is not None else None
    if work is None or before is None or pattern is None or work.cut.shift_nm is None:
        return
    lines = _lines_between(work, before)
    expected_nm = lines * pattern.spacing_nm
    allowed_nm = pattern.spacing_nm // ALLOWED_SHARE
    if lines and abs(work.cut.shift_nm - expected_nm) > allowed_nm:
        yield make_finding(
            "shift_off_spacing",
            pass_id,
            [before.entry, work.entry],
            pass_id=pass_id,
            before=before.cut.pass_id,
            shift_nm=work.cut.shift_nm,
            expected_nm=expected_nm,
            allowed_nm=allowed_nm,
        )


def _pass_before(state: JobState, work: PassWork) -> PassWork | None:
    """The pass just before on the surface, if the same machine cut it."""
    passes = state.current(PASSES_ON, work.cut.surface_id)
    place = bisect_left(passes, state.place_of(work.entry), key=state.place_of)
    body = passes[place - 1].body if place else None
    if body is None or body.machine_id != work.cut.machine_id:
        return None
    before = pass_work(state, body.pass_id)
    return before if before is not None and before.entry is passes[place - 1] else None


def _lines_between(work: PassWork, before: PassWork) -> int:
    """Lines from the first of one pass to the first of the next; 0 where they don't compare."""
    here, there = work.place(work.cut.line_ids[0]), work.place(before.cut.line_ids[0])
    if here is None or there is None or here.line.use != there.line.use:
        return 0
    return abs(here.number - there.number)


CHECK = Check(
    id="shift_off_spacing",
    severity=Severity.FIX,
    problem="The machine was shifted off its spacing.",
    why="Slits too far apart leave a wet strip between them; too close, the turf between "
    "tears. Every later pass carries the error on.",
    cure="Measure the shift again from the last slit. If it is off, set the next pass from the "
    "plan line, not from this slit.",
    message="Pass {pass_id} was shifted {shift_nm:depth} from pass {before}; its line lies "
    "{expected_nm:depth} away, {allowed_nm:depth} more or less is allowed.",
    watches={
        "pass": pass_and_neighbours,
        "surface": passes_of_surface,
    },
    subjects=lambda state: state.every_name(PASS),
    examine=examine,
)
