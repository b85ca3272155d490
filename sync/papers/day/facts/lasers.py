"""The lasers of a day or a job on paper: what was set up, and which peg test proves it."""

from __future__ import annotations

from models.entries.bodies.levels import LaserSetup
from models.queries.levelling.peg_tests import JudgedTest, LaserProof, laser_proof
from models.state.indexes import SETUPS
from models.state.job_state import JobState
from models.units.job_units import Figures


def error_words(test: JudgedTest, figures: Figures) -> str:
    """Direction in which a line of sight runs off level, and by how much."""
    way = "rises" if test.error >= 0 else "falls"
    return f"{way} {figures.sight_error(test.error)}"


def proof_words(proof: LaserProof, figures: Figures) -> str:
    """The laser of a setup with the peg test that proves it, or why none does."""
    if proof.doubt is not None:
        return f"{proof.name} NOT PROVEN: {proof.doubt}"
    if proof.test is None:
        return proof.name
    day = figures.day(proof.test.entry.day)
    return f"{proof.name}, peg test {day}: {error_words(proof.test, figures)}"


def lasers_of(state: JobState, figures: Figures, day: str) -> tuple[str, ...]:
    """A line for each setup of a day whose laser is on the job's list."""
    found = []
    for entry in state.current(SETUPS):
        proof = laser_proof(state, entry) if entry.day == day else None
        if proof is not None and isinstance(entry.body, LaserSetup):
            found.append(f"{entry.body.setup_id}: {proof_words(proof, figures)}")
    return tuple(found)
