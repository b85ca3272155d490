"""Drives and the pieces they cut: what a pass along some lines is to cut, and what it did cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from models.entries.bodies.job import Machine
from models.entries.bodies.passes import PassCut, PieceCut
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import Entry
from models.entries.kind_names import LAYOUT, MACHINE, SURFACE
from models.ledger.coverage import Interval, cover_line, left_of
from models.ledger.ledger import ledger_of
from models.plan.layout import PlannedDrive
from models.plan.line import PlannedLine
from models.science.layout.drive_pieces import DriveMatch, DriveStretch, match_drive
from models.state.job_state import JobState
from models.units.rounding import round_half_even

_OFF_AXIS = Fraction(1, 50)
"""Lines that run apart by more than this have no drive in common. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class DrivePlan:
    """Plan of one pass: stretches to be cut, leg by leg; ``number`` 0 is no planned drive."""

    stretches: tuple[DriveStretch, ...]
    number: int = 0
    is_along: bool | None = None

    @property
    def length_nm(self) -> int:
        """Length of the drive by the plan; 0 where no plan has its lines."""
        return max((one.to_nm for one in self.stretches), default=0)

    def match(self, length_nm: int) -> DriveMatch:
        """Pieces that a drive of a length comes to."""
        return match_drive(self.stretches, length_nm, is_along=self.is_along is not False)


@dataclass(frozen=True, slots=True)
class TypedPiece:
    """Length of one piece as it was typed for itself."""

    length_nm: int
    typed: str


@dataclass(frozen=True, slots=True)
class _OnDrive:
    """A whole line on its drive: leg, and where it begins and ends as it is driven."""

    line: PlannedLine
    leg: int
    from_nm: int

    def stretch(self, part: Interval, is_along: bool) -> DriveStretch:
        """A part of the line, by stations from its planned start, on the drive."""
        length_nm = self.line.length_nm
        off_nm = part.from_nm if is_along else length_nm - part.to_nm
        from_nm = self.from_nm + off_nm
        station_nm = part.from_nm if is_along else part.to_nm
        return DriveStretch(
            self.line.line_id, self.leg, from_nm, from_nm + part.length_nm, station_nm
        )


def plan_pass(
    state: JobState,
    surface: Surface,
    line_ids: Sequence[str],
    machine: Machine | None,
    *,
    earlier: Iterable[PassCut] = (),
    before: Entry[PassCut] | None = None,
) -> DrivePlan:
    """Plan of a pass along planned lines; lines that no plan has are left out.

    Of a line that is cut in part, what is left: the drive is taken up again, and lines of it
    that are cut are left out. Of lines that are cut, and none in part, all of it once more.
    ``earlier`` are passes that will stand before this one and are not written yet;
    ``before`` is the pass in whose place this one stands.
    """
    names = [name for name in dict.fromkeys(line_ids) if name in surface.places]
    if not names:
        return DrivePlan(())
    drive = _planned_drive(state, surface, names)
    is_along = drive.is_along if drive is not None else True
    on = _on_planned(surface, drive, names) if drive else _on_axis(surface, names, machine)
    also = list(earlier)
    left = {one.line.line_id: _left(state, surface, one.line, also, before) for one in on}
    is_resumed = any(parts and parts[0] != _whole(one.line) for one, parts in _each(on, left))
    stretches = [
        one.stretch(part, is_along)
        for one, parts in _each(on, left)
        for part in parts or (() if is_resumed else (_whole(one.line),))
    ]
    first_nm = min(one.from_nm for one in stretches)
    moved = tuple(
        one._replace(from_nm=one.from_nm - first_nm, to_nm=one.to_nm - first_nm)
        for one in stretches
    )
    return DrivePlan(moved, drive.number if drive else 0, is_along if drive else None)


def with_pieces(
    state: JobState,
    cut: PassCut,
    typed: Mapping[str, TypedPiece] | None = None,
    *,
    earlier: Iterable[PassCut] = (),
    before: Entry[PassCut] | None = None,
) -> PassCut:
    """A pass with the pieces that its length comes to, by the plan in force.

    A piece that was typed for itself stands as it was typed. A line that no plan has was cut
    from its start to the length; one that the drive did not reach is left out.
    """
    if cut.length_nm <= 0:
        return cut
    surface = state.latest(SURFACE, cut.surface_id)
    machine = state.latest(MACHINE, cut.machine_id) if cut.machine_id else None
    plan = DrivePlan(())
    if surface is not None:
        plan = plan_pass(state, surface, cut.line_ids, machine, earlier=earlier, before=before)
    pieces = list(_pieces(plan, cut, typed or {}))
    reached = {one.line_id for one in pieces}
    return cut.model_copy(
        update={
            "line_ids": tuple(n for n in dict.fromkeys(cut.line_ids) if n in reached),
            "pieces": tuple(pieces),
            "drive_number": plan.number,
            "is_along": plan.is_along,
        }
    )


def _pieces(plan: DrivePlan, cut: PassCut, typed: Mapping[str, TypedPiece]) -> Iterator[PieceCut]:
    """Pieces of a pass, leg by leg, as they are written."""
    is_along = plan.is_along is not False
    found = {one.line_id: [] for one in plan.stretches}  # type: dict[str, list[PieceCut]]
    for one in plan.match(cut.length_nm).pieces if plan.stretches else ():
        found[one.line_id].append(
            PieceCut(
                line_id=one.line_id, leg=one.leg, from_nm=one.from_nm, to_nm=one.to_nm, by=one.by
            )
        )
    for stretch in plan.stretches:
        given = typed.get(stretch.line_id)
        if given is not None:
            found[stretch.line_id] = [_typed_piece(stretch, given, is_along)]
    alone = len(dict.fromkeys(cut.line_ids)) == 1
    for line_id in dict.fromkeys(cut.line_ids):
        if line_id in found:
            yield from found[line_id]
        else:
            given = typed.get(line_id)
            yield PieceCut(
                line_id=line_id,
                from_nm=0,
                to_nm=given.length_nm if given else cut.length_nm,
                by="measured" if alone or given else "drive",
                typed=given.typed if given else "",
            )


def _typed_piece(stretch: DriveStretch, given: TypedPiece, is_along: bool) -> PieceCut:
    """A piece of the length that was typed for it, from where its blade went in."""
    station_nm = stretch.station_nm
    low_nm = station_nm if is_along else station_nm - given.length_nm
    return PieceCut(
        line_id=stretch.line_id,
        leg=stretch.leg,
        from_nm=low_nm,
        to_nm=low_nm + given.length_nm,
        by="measured",
        typed=given.typed,
    )


def _planned_drive(state: JobState, surface: Surface, names: Sequence[str]) -> PlannedDrive | None:
    """The planned drive that all the lines lie on, or None."""
    layout = state.latest(LAYOUT, surface.surface_id)
    wanted = set(names)
    for drive in layout.drives if layout is not None else ():
        if wanted <= set(drive.line_ids):
            return drive
    return None


def _on_planned(surface: Surface, drive: PlannedDrive, names: Sequence[str]) -> list[_OnDrive]:
    """Lines as they lie on their planned drive, leg by leg."""
    lines = {name: surface.places[name].line for name in names}
    if drive.pieces:
        return [
            _OnDrive(lines[one.line_id], one.leg, one.from_nm)
            for one in drive.pieces
            if one.line_id in lines
        ]
    every = [surface.places[n].line for n in drive.line_ids if n in surface.places]
    begins = _along_axis(every, drive.is_along)
    legs = {name: leg for leg, on in enumerate(drive.legs, start=1) for name in on}
    return [_OnDrive(lines[n], legs[n], begins[n]) for n in drive.line_ids if n in lines]


def _on_axis(surface: Surface, names: Sequence[str], machine: Machine | None) -> list[_OnDrive]:
    """Lines picked by hand as they lie beside one another, leg by leg where that is plain."""
    lines = [surface.places[name].line for name in names]
    begins = _along_axis(lines, is_along=True)
    legs = _legs(surface, names, machine)
    return [_OnDrive(line, legs.get(line.line_id, 0), begins[line.line_id]) for line in lines]


def _legs(surface: Surface, names: Sequence[str], machine: Machine | None) -> dict[str, int]:
    """Leg of each line, where every leg of the machine has a row, or it has but one."""
    if machine is None or not machine.legs:
        return {}
    rows = sorted({surface.places[name].number for name in names})
    if len(rows) != machine.legs:
        return {}
    return {name: rows.index(surface.places[name].number) + 1 for name in names}


def _along_axis(lines: Sequence[PlannedLine], is_along: bool) -> dict[str, int]:
    """Where each line begins along the first one, from where the first of them begins.

    Lines that don't run side by side have no drive in common: each begins at its own start.
    """
    first = lines[0]
    dx, dy = first.x2_nm - first.x1_nm, first.y2_nm - first.y1_nm
    square = dx * dx + dy * dy
    if not square or not all(_is_beside(line, dx, dy) for line in lines):
        return {line.line_id: 0 for line in lines}
    length_nm = isqrt(square)
    begins: dict[str, int] = {}
    for line in lines:
        at = (line.x1_nm - first.x1_nm) * dx + (line.y1_nm - first.y1_nm) * dy
        start_nm = round_half_even(at, length_nm)
        begins[line.line_id] = start_nm if is_along else -(start_nm + line.length_nm)
    low_nm = min(begins.values())
    return {name: begin - low_nm for name, begin in begins.items()}


def _is_beside(line: PlannedLine, dx: int, dy: int) -> bool:
    """Whether a line runs the way of an axis."""
    own_x, own_y = line.x2_nm - line.x1_nm, line.y2_nm - line.y1_nm
    dot, cross = own_x * dx + own_y * dy, own_x * dy - own_y * dx
    return dot > 0 and abs(cross) <= _OFF_AXIS * dot


def _each(
    on: Sequence[_OnDrive], left: Mapping[str, Sequence[Interval]]
) -> Iterator[tuple[_OnDrive, Sequence[Interval]]]:
    """Lines on their drive, each with what is left of it."""
    return ((one, left[one.line.line_id]) for one in on)


def _whole(line: PlannedLine) -> Interval:
    """All of a line."""
    return Interval(0, line.length_nm)


def _left(
    state: JobState,
    surface: Surface,
    line: PlannedLine,
    earlier: Iterable[PassCut],
    before: Entry[PassCut] | None,
) -> Sequence[Interval]:
    """Stretches of a line that are still to be cut; none where nobody has to go back to it."""
    found = ledger_of(state).line_before(surface.surface_id, line.line_id, before)
    also = [
        Interval(one.from_nm, one.to_nm)
        for cut in earlier
        if cut.surface_id == surface.surface_id
        for one in cut.pieces
        if one.line_id == line.line_id
    ]
    covered = cover_line(line.length_nm, [*found.cut, *also])
    return left_of(line.length_nm, covered.cut) if covered.left else ()
