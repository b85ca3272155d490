"""line_cut_twice: a line that was cut by more than one pass."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import lines_of_entry, lines_of_plan
from models.checks.finding import Check, Finding, Severity, line_finding
from models.checks.slits.check_pass_longer_than_line import ALLOWED_NM
from models.checks.slits.pass_work import surface_of
from models.entries.bodies.passes import PassCut
from models.entries.envelope import Entry
from models.entries.keys import LineKey, split_key
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState


def examine(state: JobState, key: LineKey) -> Iterator[Finding]:
    """Count the passes along a line; two tablets on it have a check of their own."""
    cuts = list({entry.id: entry for entry in state.current(CUTS_OF, key)}.values())
    if len(cuts) < 2 or len({entry.stream for entry in cuts}) > 1 or _are_parts(state, key, cuts):
        return
    yield line_finding(
        "line_cut_twice",
        key,
        cuts,
        cuts=len(cuts),
        passes=", ".join(entry.body.pass_id for entry in cuts),
    )


def _are_parts(state: JobState, key: LineKey, cuts: list[Entry[PassCut]]) -> bool:
    """Whether the passes together are no longer than the line: cut in parts round something."""
    surface_id, line_id = split_key(key)
    surface = surface_of(state, surface_id)
    place = surface.places.get(line_id) if surface is not None else None
    if place is None:
        return False
    total_nm = sum(entry.body.length_nm for entry in cuts)
    return total_nm <= place.line.length_nm + ALLOWED_NM


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
