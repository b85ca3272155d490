"""Sand placed in a pass against what its slits take, worked out once for all checks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.checks.affected import (
    DAY_ENDS,
    PROBED,
    pass_of_entry,
    passes_of_day,
    passes_of_machine,
    passes_of_sand,
    passes_under_turf,
    passes_with_sand,
)
from models.checks.finding import Finding, Subjects, make_finding
from models.checks.memo import memoize
from models.checks.slits.pass_work import PassWork, has_day_ended, is_pass_covered, pass_work
from models.entries.bodies.passes import SandPlaced
from models.entries.envelope import Entry
from models.entries.kind_names import SAND_PLACED, WATERED_IN
from models.ledger.sand_due import sand_due
from models.queries.materials.material_properties import dry_share_of, dry_volume_of
from models.state.indexes import SAND_ON, SAND_WITHOUT_PASS
from models.state.job_state import JobState
from models.units import round_half_even

SAND_AND_LIMITS: dict[str, Subjects] = {
    **PROBED,
    "sand_placed": pass_of_entry,
    "turf_strip": passes_under_turf,
    "machine": passes_of_machine,
    "material": passes_with_sand,
    "box_weighing": passes_with_sand,
    "bulking_test": passes_with_sand,
}
"""What touches the sand of a pass and its limits."""

FILLED: dict[str, Subjects] = {
    **SAND_AND_LIMITS,
    "sand_placed": passes_of_sand,
    "watered_in": pass_of_entry,
    **dict.fromkeys(DAY_ENDS, passes_of_day),
}
"""What touches the sand of a pass, its limits, and whether the pass is finished."""


@dataclass(frozen=True, slots=True)
class SandWork:
    """Sand of a pass: loose volume placed, as dry, what its slits take, and the limits between.

    Where the thickness of the sod over them is not known, ``due_pl`` is what they take without
    any, and only what is beyond either case is short or over.
    """

    work: PassWork
    entries: Sequence[Entry[SandPlaced]]
    placed_pl: int | Fraction
    due_pl: int
    least_pl: int
    most_pl: int
    is_short: bool
    is_over: bool
    is_sod_known: bool


def sand_work(state: JobState, pass_id: str) -> SandWork | None:
    """Sand of a pass, or None where it can't be held against the cut.

    That is so without sand, without a pattern for every line, and where a load
    was weighed and nobody weighed a box of the sand. What is due follows the hole
    as it was probed.
    """
    return memoize(state, "sand_work", pass_id, lambda: _sand_work(state, pass_id))


def sand_finding(check: str, sand: SandWork, **limit: int) -> Finding:
    """Finding of a check that the sand of a pass goes beyond a limit, named in ``limit``."""
    pass_id = sand.work.cut.pass_id
    return make_finding(
        check,
        pass_id,
        sand.entries,
        place="",
        pass_id=pass_id,
        placed_pl=round(sand.placed_pl),
        **limit,
        due_pl=sand.due_pl,
    )


def is_finished(state: JobState, sand: SandWork) -> bool:
    """Whether the crew has gone on from filling a pass, so that the sand should be enough.

    Sand logged for the surface as a whole may have gone into any pass of it.
    """
    cut = sand.work.cut
    if state.current(SAND_WITHOUT_PASS, cut.surface_id):
        return False
    own = sand.entries[-1].body
    last = state.current(SAND_ON, own.surface_id)[-1].body
    return (
        last.pass_id != cut.pass_id
        or bool(state.current(WATERED_IN, cut.pass_id))
        or is_pass_covered(state, cut)
        or has_day_ended(state, sand.entries[-1].day)
    )


def _sand_work(state: JobState, pass_id: str) -> SandWork | None:
    entries = state.current(SAND_PLACED, pass_id)
    work = pass_work(state, pass_id) if entries else None
    due = sand_due(state, work.entry) if work is not None else None
    placed = _placed_pl(state, entries)
    if work is None or due is None or placed is None:
        return None
    return SandWork(
        work,
        tuple(entries),
        placed,
        due.high_pl,
        round_half_even(due.low_pl * due.least, 1000),
        round_half_even(due.high_pl * due.most, 1000),
        is_short=placed * 1000 < due.low_pl * due.least,
        is_over=placed * 1000 > due.high_pl * due.most,
        is_sod_known=due.sod_nm is not None,
    )


def _placed_pl(state: JobState, entries: Sequence[Entry[SandPlaced]]) -> int | Fraction | None:
    total: int | Fraction = 0
    for entry in entries:
        body = entry.body
        if body.volume_pl is not None:
            total += body.volume_pl * dry_share_of(state, body.material_id, body.moisture)
            continue
        mass_ug = body.mass_ug
        volume = dry_volume_of(state, body.material_id, mass_ug) if mass_ug is not None else None
        if volume is None:
            return None
        total += volume
    return total
