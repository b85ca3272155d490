"""laser_out_of_calibration: a laser that was last calibrated too long ago."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterator
from datetime import date

from models.checks.affected_together import INSTRUMENT_SETUPS, every_setup, setup_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.levels import LaserSetup
from models.entries.kind_names import SETUP
from models.queries.levelling.peg_tests import calibrations, laser_proof, read_day
from models.queries.levelling.setup_chain import newest
from models.state.job_state import JobState

MONTHS_GOOD = 6
"""Wastewater code of the City of Carmel: calibration within six months of use."""


def good_until(calibrated_on: date) -> date:
    """Last day of use: the same day six months on, or the last of a shorter month."""
    months = calibrated_on.month - 1 + MONTHS_GOOD
    year, month = calibrated_on.year + months // 12, months % 12 + 1
    return date(year, month, min(calibrated_on.day, monthrange(year, month)[1]))


def _examine(state: JobState, subject: str) -> Iterator[Finding]:
    entry = newest(state, SETUP, subject)
    if entry is None or not isinstance(entry.body, LaserSetup):
        return
    calibrated = max(calibrations(state, entry), default=None)
    used = read_day(entry.day)
    if calibrated is None or used is None or used <= good_until(calibrated):
        return
    proof = laser_proof(state, entry)
    if proof is not None and proof.doubt is None:
        return  # a peg test passed, which is what this asks for
    yield make_finding(
        CHECK.id,
        subject,
        [entry],
        setup_id=subject,
        instrument=entry.body.instrument or entry.body.instrument_id or "the laser",
        calibrated_on=calibrated.isoformat(),
        good_until=good_until(calibrated).isoformat(),
    )


CHECK = Check(
    id="laser_out_of_calibration",
    severity=Severity.NOTE,
    problem="A laser is in use whose calibration is out of date.",
    why="A laser drifts with knocks and heat; one that is out by a little lays the whole pipe "
    "off grade and shows nothing on the rod nearby.",
    cure="Peg-test it before the next setup, or use one that is in date.",
    message="At setup {setup_id}, {instrument} was last calibrated on {calibrated_on}, "
    "which held until {good_until}.",
    watches={"setup": setup_of_entry, **INSTRUMENT_SETUPS},
    subjects=every_setup,
    examine=_examine,
)
