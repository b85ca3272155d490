"""sand_moist: sand that was placed damp or wet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from models.checks.finding import Check, Finding, Severity, make_finding
from models.entries import id_fields
from models.entries.bodies.passes import SandPlaced
from models.entries.envelope import AnyEntry
from models.entries.kind_names import SAND_PLACED
from models.state.job_state import JobState

WETTER = ("dry", "damp", "wet")


def pass_or_itself(state: JobState, entry: AnyEntry) -> Iterable[str]:
    """The pass that sand went into, or the load by its id where no pass is named."""
    return (id_fields.pass_id_of(entry.body) or entry.id,)


def every_place(state: JobState) -> Iterator[str]:
    """Every pass with sand, and every load without a pass."""
    for pass_id in state.every_name(SAND_PLACED):
        if pass_id:
            yield pass_id
    for entry in state.current(SAND_PLACED):
        yield entry.id


def examine(state: JobState, subject: str) -> Iterator[Finding]:
    """Find the loads of a pass, or one load, that felt damp or wet."""
    filed: Sequence[AnyEntry] = state.current(SAND_PLACED, subject)
    if not filed and subject in state.entries and not state.is_struck(subject):
        filed = [state.entries[subject]]
    loads = [(entry, entry.body) for entry in filed if isinstance(entry.body, SandPlaced)]
    moist = [(entry, sand) for entry, sand in loads if sand.moisture != "dry"]
    if not moist:
        return
    last = moist[-1][1]
    yield make_finding(
        "sand_moist",
        subject,
        [entry for entry, _ in moist],
        where=last.pass_id or last.surface_id,
        moisture=max((sand.moisture for _, sand in moist), key=WETTER.index),
        loads=len(moist),
    )


CHECK = Check(
    id="sand_moist",
    severity=Severity.FIX,
    problem="Sand was placed that was not dry.",
    why="Moist sand hangs in a narrow slit: it looks full on top and is hollow below.",
    cure="Stop filling with this load. Rod the slit or water it in until it settles, top it up "
    "with dry sand, and cover the heap.",
    message="Sand put into {where} was {moisture}; loads logged so: {loads}.",
    watches={
        "sand_placed": pass_or_itself,
    },
    subjects=every_place,
    examine=examine,
)
