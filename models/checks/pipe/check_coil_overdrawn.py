"""coil_overdrawn: more pipe is logged from a coil than it holds."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries.bodies.loads import Delivery
from models.entries.bodies.passes import PipeLaid
from models.entries.envelope import AnyEntry
from models.entries.kind_names import MATERIAL
from models.state.indexes import COIL_IN, COIL_USES, DRAWN_NM
from models.state.job_state import JobState


def coil_of_entry(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Coil that an entry names, as subject."""
    body = entry.body
    return (body.coil_id,) if isinstance(body, PipeLaid | Delivery) and body.coil_id else ()


def coils_of_material(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """Every coil that pipe was drawn from; a new coil length may concern any of them."""
    return state.every_name(COIL_USES)


def examine(state: JobState, coil_id: str) -> Iterator[Finding]:
    """Hold what was drawn from a coil against what came in, or else a new coil's length."""
    uses = state.current(COIL_USES, coil_id)
    held_nm = _held_nm(state, coil_id) if uses else 0
    drawn_nm = state.total(DRAWN_NM, coil_id) if uses else 0
    if held_nm and drawn_nm > held_nm:
        yield make_finding(
            "coil_overdrawn",
            coil_id,
            uses[-1:],
            coil_id=coil_id,
            drawn_nm=drawn_nm,
            held_nm=held_nm,
        )


def _held_nm(state: JobState, coil_id: str) -> int:
    """Length that a coil came with; 0 while nobody knows it."""
    delivered_nm = sum(load.length_nm or 0 for load in state.bodies(COIL_IN, coil_id))
    if delivered_nm:
        return delivered_nm
    pipe = state.current(COIL_USES, coil_id)[-1].body
    material = state.latest(MATERIAL, pipe.material_id)
    return material.coil_nm or 0 if material is not None else 0


CHECK = Check(
    id="coil_overdrawn",
    severity=Severity.FIX,
    problem="More pipe is logged from a coil than was on it.",
    why="Either a length is wrong, or pipe came from another coil: the count of coils to "
    "order is wrong either way.",
    cure="See which line drew from another coil and correct it, or correct the length that was "
    "misread.",
    message="Coil {coil_id}: {drawn_nm:length} drawn, {held_nm:length} was on it.",
    watches={"pipe_laid": coil_of_entry, "delivery": coil_of_entry, "material": coils_of_material},
    subjects=lambda state: state.every_name(COIL_USES),
    examine=examine,
)
