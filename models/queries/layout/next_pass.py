"""Lines that the next pass cuts: the first uncut line and those its legs reach."""

from __future__ import annotations

from collections import defaultdict

from models.entries.bodies.job import Machine
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import LAYOUT
from models.ledger.ledger import ledger_of
from models.plan.line import LineUse, PlannedLine
from models.state.job_state import JobState


def is_cut(state: JobState, surface_id: str, line_id: str) -> bool:
    """Whether a line is cut, so that nobody has to go back to it; one cut in part is not."""
    return ledger_of(state).line(surface_id, line_id).is_cut


def lines_left(state: JobState, surface: Surface, use: LineUse) -> list[PlannedLine]:
    """Lines of a use that are still to be cut, in whole or in part, in the order of the plan."""
    return [
        line
        for line in surface.lines
        if line.use == use and not is_cut(state, surface.surface_id, line.line_id)
    ]


def legs_apart(surface: Surface, use: LineUse, machine: Machine | None) -> int:
    """How many line spacings lie between two legs of a machine; 1 when that is not whole.

    With m spacings between n legs, m passes shifted by one spacing leave n x m
    unbroken lines: the interleave.
    """
    pattern = surface.sand_slits if use == "sand_slit" else surface.piped_slits
    if pattern is None or machine is None or not pattern.spacing_nm or not machine.leg_spacing_nm:
        return 1
    whole, rest = divmod(machine.leg_spacing_nm, pattern.spacing_nm)
    return whole if whole and not rest else 1


def next_lines(
    state: JobState, surface: Surface, use: LineUse, machine: Machine | None
) -> tuple[PlannedLine, ...]:
    """Lines of the next pass, leg by leg; empty when every line of the use is cut.

    They are what is left of the first planned drive of such a machine that is not done.
    Without one, the first row with work and those that the other legs reach; where a keep-out
    parts a row, the pass takes all its pieces.
    """
    drive = _next_drive(state, surface, use, machine)
    if drive:
        return drive
    left: defaultdict[int, list[PlannedLine]] = defaultdict(list)
    for line in lines_left(state, surface, use):
        left[surface.places[line.line_id].number].append(line)
    if not left:
        return ()
    step = legs_apart(surface, use, machine)
    legs = max(machine.legs, 1) if machine else 1
    reached = [min(left) + leg * step for leg in range(legs)]
    return tuple(line for row in reached if row in left for line in left[row])


def _next_drive(
    state: JobState, surface: Surface, use: LineUse, machine: Machine | None
) -> tuple[PlannedLine, ...]:
    """What is left of the first planned drive that is not done; nothing for another machine."""
    layout = state.latest(LAYOUT, surface.surface_id)
    legs = max(machine.legs, 1) if machine else 1
    for drive in layout.drives if layout is not None else ():
        if drive.use != use or len(drive.legs) != legs:
            continue
        lines = [surface.places[name].line for name in drive.line_ids if name in surface.places]
        left = [one for one in lines if not is_cut(state, surface.surface_id, one.line_id)]
        if left:
            return tuple(left)
    return ()
