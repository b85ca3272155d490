"""more_pipe_laid_than_delivered: more pipe is logged as laid than came in."""

from __future__ import annotations

from collections.abc import Iterator

from models.checks.affected import material_of_entry
from models.checks.finding import Check, Finding, Severity, make_finding
from models.state.indexes import DELIVERED_NM, LAID_NM, PIPE_OF
from models.state.job_state import JobState


def examine(state: JobState, material_id: str) -> Iterator[Finding]:
    """Hold the pipe laid against the pipe delivered."""
    used = state.current(PIPE_OF, material_id)
    laid_nm = state.total(LAID_NM, material_id) if used else 0
    delivered_nm = state.total(DELIVERED_NM, material_id) if used else 0
    if laid_nm > delivered_nm:
        yield make_finding(
            "more_pipe_laid_than_delivered",
            material_id,
            used[-1:],
            material_id=material_id,
            laid_nm=laid_nm,
            delivered_nm=delivered_nm,
        )


CHECK = Check(
    id="more_pipe_laid_than_delivered",
    severity=Severity.FIX,
    problem="More pipe is logged as laid than was delivered.",
    why="A load in is missing from the book, or a length laid is counted twice: the bill and "
    "the stock are both wrong.",
    cure="Go through the tickets and log the one that is missing, or correct the length that "
    "is too much.",
    message="{material_id}: {laid_nm:length} laid, {delivered_nm:length} delivered.",
    watches={"pipe_laid": material_of_entry, "delivery": material_of_entry},
    subjects=lambda state: state.every_name(PIPE_OF),
    examine=examine,
)
