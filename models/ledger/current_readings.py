"""Depth readings of a line that count: those that no later reading or cut has overtaken."""

from __future__ import annotations

from collections.abc import Sequence

from models.entries.bodies.passes import Probe
from models.entries.envelope import AnyEntry, Entry
from models.entries.keys import line_key
from models.entries.kind_names import PROBE, SURFACE
from models.ledger.ledger import LineTally, ledger_of
from models.plan.pattern import SlitPattern
from models.state.indexes import CUTS_OF
from models.state.job_state import JobState, Place
from models.units.spec import FOOT_NM

NEAR_NM = FOOT_NM
"""Two readings nearer than this are of one place: what a tape over turf is good to.
Common practice, no source."""


def current_probes(
    state: JobState, surface_id: str, line_id: str, day: str = ""
) -> list[Entry[Probe]]:
    """Depth readings of a line that count, from its start; as at the end of a day if one is given.

    A reading was overtaken by a later one at the same distance; by a later one nearer than
    1 ft, if it was out; and by a later pass that cut over its place, since the slit that it
    measured is gone. Readings within tolerance close together all count.
    """
    found = _with_overtakers(state, surface_id, line_id, day)
    return sorted((one for one, by in found if by is None), key=lambda one: one.body.along_nm)


def overtaken_probes(
    state: JobState, surface_id: str, line_id: str
) -> list[tuple[Entry[Probe], AnyEntry]]:
    """Depth readings of a line that count no more, each with the reading or pass that says so."""
    found = _with_overtakers(state, surface_id, line_id, "")
    return [(one, by) for one, by in found if by is not None]


def _with_overtakers(
    state: JobState, surface_id: str, line_id: str, day: str
) -> list[tuple[Entry[Probe], AnyEntry | None]]:
    """Readings on a line in the order they were taken, each with what overtook it, or None."""
    key = ("overtaken_probes", f"{surface_id}/{line_id}/{day}")
    if key not in state.memo:
        state.memo[key] = _find_overtakers(state, surface_id, line_id, day)
    found: list[tuple[Entry[Probe], AnyEntry | None]] = state.memo[key]
    return found


def _find_overtakers(
    state: JobState, surface_id: str, line_id: str, day: str
) -> list[tuple[Entry[Probe], AnyEntry | None]]:
    """Each reading with the reading or pass that came over it; found once between two entries."""
    taken = _taken(state, surface_id, line_id, day)
    tally = ledger_of(state).line_on(surface_id, line_id, day)
    surface = state.latest(SURFACE, surface_id)
    place = surface.places.get(line_id) if surface is not None else None
    pattern = place.pattern if place is not None else None
    return [
        (
            one,
            _read_again(one, taken[number + 1 :], pattern)
            or _cut_over(state, one, _turn(state, one), tally),
        )
        for number, one in enumerate(taken)
    ]


def _taken(state: JobState, surface_id: str, line_id: str, day: str) -> list[Entry[Probe]]:
    """Readings on a line that stand, in the order in which they were taken."""
    passes = dict.fromkeys(
        entry.body.pass_id for entry in state.current(CUTS_OF, line_key(surface_id, line_id))
    )
    found = [
        probe
        for pass_id in passes
        for probe in state.current(PROBE, pass_id)
        if probe.body.line_id == line_id and (not day or probe.day <= day)
    ]
    return sorted(found, key=lambda one: _turn(state, one))


def _turn(state: JobState, entry: AnyEntry) -> tuple[str, Place]:
    """Place of an entry among the readings and cuts: by day, then by the book."""
    return entry.day, state.place_of(entry)


def _read_again(
    entry: Entry[Probe], later: Sequence[Entry[Probe]], pattern: SlitPattern | None
) -> Entry[Probe] | None:
    """The last later reading that counts in place of one, or None."""
    along_nm = entry.body.along_nm
    is_out = pattern is not None and is_probe_out(entry.body, pattern)
    within_nm = NEAR_NM if is_out else 1
    again = [one for one in later if abs(one.body.along_nm - along_nm) < within_nm]
    return again[-1] if again else None


def _cut_over(
    state: JobState, entry: Entry[Probe], turn: tuple[str, Place], tally: LineTally
) -> AnyEntry | None:
    """The last later pass that cut over the place of a reading, or None."""
    along_nm = entry.body.along_nm
    over = [
        state.entries[piece.entry_id]
        for piece in tally.pieces
        if piece.piece.from_nm <= along_nm <= piece.piece.to_nm
        and piece.pass_id != entry.body.pass_id
        and _turn(state, state.entries[piece.entry_id]) > turn
    ]
    return over[-1] if over else None


def is_probe_out(probe: Probe, pattern: SlitPattern) -> bool:
    """Whether a depth, or the width read with it, is outside what its pattern allows."""
    width_nm = probe.width_nm
    is_wide_or_narrow = (
        width_nm is not None and abs(width_nm - pattern.width_nm) > pattern.width_tolerance_nm
    )
    depth_nm = probe.depth_nm
    return not pattern.least_depth_nm <= depth_nm <= pattern.most_depth_nm or is_wide_or_narrow
