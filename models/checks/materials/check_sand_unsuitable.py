"""sand_unsuitable: sand in use whose test says not to use it."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import material_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.kind_names import DELIVERY, MATERIAL
from models.state.indexes import SAND_OF
from models.state.job_state import JobState


def examine(state: JobState, material_id: str) -> Iterator[Finding]:
    """Look whether sand that is not suitable was delivered or placed."""
    filed = state.current(MATERIAL, material_id)
    material = filed[-1].body if filed else None
    if material is None or material.suitable or material.use != "sand":
        return
    used = state.current(DELIVERY, material_id)[:1] or state.current(SAND_OF, material_id)[:1]
    if used:
        yield make_finding(
            "sand_unsuitable",
            material_id,
            [filed[-1], *used],
            material_id=material_id,
            test_note=material.test_note.strip().rstrip(".") or "no reason given",
        )


CHECK = Check(
    id="sand_unsuitable",
    severity=Severity.STOP,
    problem="The sand on the job failed its test.",
    why="Sand that is too fine or dirty seals the slit, and nobody can get it out again.",
    cure="Stop filling with it. Ask the owner in writing, and have the right sand brought "
    "before the next pass.",
    message="{material_id} is on the job, but its test says not to use it: {test_note}.",
    watches={
        "material": material_of_entry,
        "delivery": material_of_entry,
        "sand_placed": material_of_entry,
    },
    subjects=lambda state: state.every_name(MATERIAL),
    examine=examine,
)
