"""setup_without_backsight: a laser setup without a height."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected_together import every_setup, setup_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.levels import LaserSetup
from models.entries.kind_names import SETUP
from models.queries.levelling.setup_chain import newest
from models.state.job_state import JobState


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    entry = newest(state, SETUP, subject)
    if entry is None or not isinstance(entry.body, LaserSetup):
        return
    if entry.body.backsight_nm is None:
        yield make_finding(CHECK.id, subject, [entry], setup_id=subject, point=entry.body.on_point)


CHECK = Check(
    id="setup_without_backsight",
    severity=Severity.STOP,
    problem="A setup has no backsight.",
    why="Until the rod has been read on a known point nobody knows how high the laser is, "
    "and no shot from it tells a level.",
    cure="Read the rod on the known point and correct the setup; if the laser has been moved, "
    "strike the setup and shoot again what was shot from it.",
    message="Setup {setup_id} has no backsight on {point}: no shot from it has a level.",
    watches={"setup": setup_of_entry},
    subjects=every_setup,
    examine=_examine,
)
