"""Sand that the slits of a pass take: one figure, with what it rests on, for every reader."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal, NamedTuple

from models.entries.bodies.passes import PassCut
from models.entries.bodies.surfaces import Surface
from models.entries.body import Body
from models.entries.envelope import Entry
from models.entries.kind_names import MACHINE, SURFACE
from models.errors import CalculationInputError
from models.ledger.current_readings import current_probes
from models.ledger.ledger import ledger_of
from models.plan.pattern import SlitPattern
from models.science.slits.floor import CutPiece, DepthReading
from models.science.slits.hole import Hole, SlitSection
from models.state.indexes import SOD_ON
from models.state.job_state import JobState
from models.units.rounding import round_half_even
from models.units.spec import INCH_NM

THICKEST_SOD_NM: Final = 2 * INCH_NM
"""Sod on a green whose thickness nobody gave is taken to be no thicker.
Common practice, no source."""

Basis = Literal["probed", "design"]
"""What the depth of the slits of a pass rests on: readings, or the plan."""


class SandDue(NamedTuple):
    """Loose volume that the slits of a pass take in place, with the limits between which it lies.

    ``low_pl`` and ``high_pl`` part only where the thickness of the sod is not known:
    ``sod_nm`` is None then. ``least`` and ``most`` are thousandths of it that are accepted.
    """

    low_pl: int
    high_pl: int
    basis: Basis
    sod_nm: int | None
    least: int
    most: int


def sand_due(state: JobState, entry: Entry[PassCut], day: str = "") -> SandDue | None:
    """Sand that a pass takes, as at the end of a day if one is given; None without a pattern.

    What a later pass cuts deeper, or beyond, is due to that one: passes add up to their lines.
    """
    key = ("sand_due", f"{day}/{entry.id}")
    if key not in state.memo:
        try:
            state.memo[key] = _sand_due(state, entry, day)
        except CalculationInputError:  # a plan without sizes has no volume to compare with
            state.memo[key] = None
    found: SandDue | None = state.memo[key]
    return found


def _sand_due(state: JobState, entry: Entry[PassCut], day: str) -> SandDue | None:
    surface = state.latest(SURFACE, entry.body.surface_id)
    line_ids = dict.fromkeys(piece.line_id for piece in ledger_of(state).pieces_in(entry))
    patterns: dict[str, SlitPattern] = {}
    for line_id in line_ids:
        place = surface.places.get(line_id) if surface is not None else None
        if place is not None and place.pattern is not None:
            patterns[line_id] = place.pattern
    if surface is None or not line_ids or len(patterns) < len(line_ids):
        return None
    first = next(iter(patterns.values()))
    sod_nm = sod_of(state, surface, first, day)
    sods = (0, THICKEST_SOD_NM) if sod_nm is None else (sod_nm,)
    mean_nm = _mean_depth(state, entry, day)
    total = dict.fromkeys(sods, Fraction(0))
    for line_id, pattern in patterns.items():
        depth_nm = mean_nm if mean_nm is not None and pattern is first else pattern.depth_nm
        line = _CutLine.read(state, surface.surface_id, line_id, depth_nm, day)
        for sod in sods:
            total[sod] += line.share_pl(entry.id, pattern, sod)
    low, high = (round_half_even(volume) for volume in (min(total.values()), max(total.values())))
    return (
        SandDue(
            low,
            high,
            "design" if mean_nm is None else "probed",
            sod_nm,
            min(one.sand_least_permille for one in patterns.values()),
            max(one.sand_most_permille for one in patterns.values()),
        )
        if high
        else None
    )


def sod_of(state: JobState, surface: Surface, pattern: SlitPattern, day: str = "") -> int | None:
    """Turf that goes back into the slits of a surface: measured, else planned; None not known.

    Ground that is no green gets none back unless somebody says so.
    """
    measured = [
        entry.body.sod_nm
        for entry in state.current(SOD_ON, surface.surface_id)
        if not day or entry.day <= day
    ]
    if measured:
        return measured[-1]
    if pattern.sod_nm is not None:
        return pattern.sod_nm
    return None if surface.use == "green" else 0


@dataclass(frozen=True, slots=True)
class _CutLine:
    """A line as its blades cut it: pieces with their passes, readings, mean width."""

    owners: tuple[str, ...]
    pieces: tuple[CutPiece, ...]
    readings: tuple[DepthReading, ...]
    width_nm: Fraction | None

    @classmethod
    def read(
        cls, state: JobState, surface_id: str, line_id: str, depth_nm: int | Fraction, day: str
    ) -> _CutLine:
        """Read a line; ``depth_nm`` is its depth where no reading on it says another."""
        tally = ledger_of(state).line_on(surface_id, line_id, day)
        probes = current_probes(state, surface_id, line_id, day)
        newest = {one.body.along_nm: one.body for one in probes}
        widths = [one.body.width_nm for one in probes if one.body.width_nm]
        return cls(
            tuple(one.entry_id for one in tally.pieces),
            tuple(
                CutPiece(
                    one.piece.from_nm,
                    one.piece.to_nm,
                    depth_nm,
                    _blade_radius_nm(state, state.entries[one.entry_id].body),
                )
                for one in tally.pieces
            ),
            tuple(DepthReading(along_nm, one.depth_nm) for along_nm, one in newest.items()),
            Fraction(sum(widths), len(widths)) if widths else None,
        )

    def share_pl(self, entry_id: str, pattern: SlitPattern, sod_nm: int) -> Fraction:
        """Volume that the pieces of a pass add to those before them."""
        section = SlitSection(
            pattern.width_nm if self.width_nm is None else self.width_nm,
            pattern.depth_nm,
            sod_nm,
            pattern.pipe_outside_nm,
        )
        own = (number for number, owner in enumerate(self.owners) if owner == entry_id)
        return sum(Hole(section, self.pieces, self.readings).added_pl(own), Fraction(0))


def _mean_depth(state: JobState, entry: Entry[PassCut], day: str) -> Fraction | None:
    """Mean of the readings that count on a pass; None where there are none."""
    depths = [
        probe.body.depth_nm
        for line_id in dict.fromkeys(entry.body.line_ids)
        for probe in current_probes(state, entry.body.surface_id, line_id, day)
        if probe.body.pass_id == entry.body.pass_id
    ]
    return Fraction(sum(depths), len(depths)) if depths else None


def _blade_radius_nm(state: JobState, cut: Body | None) -> int:
    """Radius of the round blades that made a pass, 0 where its machine has none."""
    machine_id = cut.machine_id if isinstance(cut, PassCut) else ""
    machine = state.latest(MACHINE, machine_id) if machine_id else None
    return machine.round_blade_nm if machine is not None else 0
