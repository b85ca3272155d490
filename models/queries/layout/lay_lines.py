"""Lines laid over a surface: a surface and its layout's terms become lines, drives, joints."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Collector, Surface
from models.errors import CalculationInputError
from models.plan.collector import PlanPoint
from models.plan.layout import (
    DroppedStub,
    LayoutTerms,
    PlannedDrive,
    PlannedEnd,
    PlannedKeepOut,
    PlannedPiece,
)
from models.plan.line import LineUse, PlannedLine
from models.queries.layout.line_bearings import SettledBearing
from models.science.layout.bearings import BearingRow, compare_bearings
from models.science.layout.collector_ends import CollectorEnds, find_collector_ends
from models.science.layout.crossings import count_crossings
from models.science.layout.cuttable_ground import Ground, KeepOut, RoundKeepOut
from models.science.layout.driving import Drive, PlannedPass, plan_drive
from models.science.layout.interleave import Machine
from models.science.layout.layout import lay_lines
from models.science.layout.layout_types import LaidSegment, Layout, LinePattern
from models.science.shapes.outline import LEAST_KEEP_OUT_NM2, Outline, Trace, require_outline
from models.science.shapes.rings import PointNm, distance_nm

PREFIXES: dict[LineUse, str] = {"sand_slit": "S", "piped_slit": "P"}
"""What names of lines begin with."""

FULL_TURN_UDEG = 360_000_000


@dataclass(frozen=True, slots=True)
class LaidSurface:
    """A surface with its lines, and how they were laid; nothing is written yet."""

    surface: Surface
    layout: SurfaceLayout
    settled: tuple[SettledBearing, ...] = ()
    """Bearings that nobody gave."""


@dataclass(frozen=True, slots=True)
class _Use:
    """Lines of one use, laid and driven."""

    terms: LayoutTerms
    layout: Layout
    drive: Drive


def lay_surface(
    surface: Surface, asked: SurfaceLayout, collector: Collector | None = None
) -> LaidSurface:
    """Lay the lines that a layout's terms ask for over a surface.

    A use without terms keeps the lines it has. Sand slits come first, in names, drives and
    stubs; drives are numbered through. Of ``asked`` the setback, keep-outs, terms, reach and
    source count; whatever else it holds is worked out anew.

    Raises
    ------
    OutlineError
        If the outline or a keep-out bounds no ground.
    CalculationInputError
        If there is no outline, a figure is out of range or nothing is left to cut.
    InterleaveError
        If the legs of a machine don't fit the spacing; offers the nearest that do.
    """
    ground = ground_of_surface(surface, asked)
    uses = [_lay_use(ground, terms) for terms in _in_order(asked.terms)]
    laid: dict[LineUse, Sequence[LaidSegment]] = {
        use: _kept(surface, use) for use in PREFIXES if use not in {one.terms.use for one in uses}
    }
    laid |= {one.terms.use: one.layout.segments for one in uses}
    ends = _ends(laid["piped_slit"], asked, collector)
    patterns = {
        f"{one.terms.use}s": pattern.model_copy(update={"spacing_nm": one.terms.spacing_nm})
        for one in uses
        if (pattern := surface.pattern_of(one.terms.use)) is not None
    }
    new = {one.terms.use: [_line(one.terms.use, s) for s in one.layout.segments] for one in uses}
    lines = [
        new[use] if use in new else [one for one in surface.lines if one.use == use]
        for use in PREFIXES
    ]
    return LaidSurface(
        surface.model_copy(update={"lines": tuple(chain(*lines)), **patterns}),
        asked.model_copy(
            update={
                "terms": tuple(one.terms for one in uses),
                "drives": tuple(_drives(uses)),
                "stubs": tuple(chain.from_iterable(map(_stubs, uses))),
                "ends": _planned_ends(ends),
                "unjoined": ends.unjoined,
                "crossings": count_crossings(laid["piped_slit"], laid["sand_slit"]),
            }
        ),
    )


def compare_surface(
    surface: Surface, asked: SurfaceLayout, terms: LayoutTerms, bearings_udeg: Sequence[int]
) -> Iterator[BearingRow]:
    """Compare bearings for the lines of one use, yielding a row as each is worked out.

    Raises
    ------
    OutlineError, CalculationInputError, InterleaveError
        As ``lay_surface`` does.
    """
    ground = ground_of_surface(surface, asked)
    for bearing in bearings_udeg:
        yield from compare_bearings(ground, _pattern(terms), _machine(terms), [bearing])


def ground_of_surface(surface: Surface, asked: SurfaceLayout) -> Ground:
    """The ground that lines may be cut in.

    Raises
    ------
    OutlineError
        If the outline or a keep-out bounds no ground.
    CalculationInputError
        If the surface has no outline.
    """
    if not surface.outline:
        raise CalculationInputError(
            what=f"the lines of {surface.surface_id}",
            why="it has no outline yet",
            accepted="Give its outline first: a rectangle, a circle, or a file of points, "
            "offsets, GeoJSON or DXF",
        )
    outline = require_outline(Trace(points_of(surface.outline), name=f"of {surface.surface_id}"))
    cut_round = [one for one in asked.keep_outs if not one.is_cut_over]
    return Ground(
        (outline,),
        tuple(_keep_out(one) for one in cut_round if one.ring),
        asked.setback_nm,
        tuple(_round_keep_out(one) for one in cut_round if not one.ring),
    )


def points_of(path: Sequence[PlanPoint]) -> tuple[PointNm, ...]:
    """Points of a plan as calculations take them."""
    return tuple(PointNm(point.x_nm, point.y_nm) for point in path)


def plan_points(points: Sequence[PointNm]) -> tuple[PlanPoint, ...]:
    """Points of a calculation as a plan keeps them."""
    return tuple(map(_at, points))


def join_reach_nm(asked: SurfaceLayout) -> int:
    """How near to the collector an end is meant to join it.

    Where nothing is said, the setback and one spacing of the piped slits: common practice,
    no source.
    """
    if asked.reach_nm is not None:
        return asked.reach_nm
    spacings = [terms.spacing_nm for terms in asked.terms if terms.use == "piped_slit"]
    return asked.setback_nm + sum(spacings)


def _in_order(terms: Sequence[LayoutTerms]) -> list[LayoutTerms]:
    """Terms with sand slits first."""
    return sorted(terms, key=lambda one: list(PREFIXES).index(one.use))


def _lay_use(ground: Ground, terms: LayoutTerms) -> _Use:
    """Lines and drives of one use."""
    layout = lay_lines(ground, _pattern(terms))
    return _Use(terms, layout, plan_drive(layout, _machine(terms)))


def _pattern(terms: LayoutTerms) -> LinePattern:
    """The pattern that terms ask for."""
    return LinePattern(
        terms.spacing_nm, terms.bearing_udeg, terms.least_nm, terms.first_nm, PREFIXES[terms.use]
    )


def _machine(terms: LayoutTerms) -> Machine:
    """The machine that terms were given for."""
    return Machine(terms.legs, terms.leg_spacing_nm, terms.turning_radius_nm)


def _keep_out(planned: PlannedKeepOut) -> KeepOut:
    """A keep-out as calculations take it."""
    name = planned.name or "of a keep-out"
    islands = tuple(_small(island, f"of an island in {name}") for island in planned.islands)
    return KeepOut(_small(planned.ring, name), planned.clearance_nm, planned.name, islands)


def _round_keep_out(planned: PlannedKeepOut) -> RoundKeepOut:
    """A circle or a corridor as calculations take it."""
    corners = (planned.at,) if planned.at is not None else planned.path
    half_nm = planned.radius_nm or planned.half_nm or 0
    return RoundKeepOut(points_of(corners), half_nm, planned.clearance_nm, planned.name)


def _small(ring: Sequence[PlanPoint], name: str) -> Outline:
    """An outline that may be as small as a sprinkler head."""
    return require_outline(Trace(points_of(ring), name=name), LEAST_KEEP_OUT_NM2)


def _kept(surface: Surface, use: LineUse) -> tuple[LaidSegment, ...]:
    """Lines that a surface has already, where no terms ask for others."""
    segments = []
    for line in surface.lines:
        start, end = PointNm(line.x1_nm, line.y1_nm), PointNm(line.x2_nm, line.y2_nm)
        if line.use == use and distance_nm(start, end):
            segments.append(LaidSegment(line.line_id, 0, start, end, line.length_nm, 0, 0))
    return tuple(segments)


def _line(use: LineUse, segment: LaidSegment) -> PlannedLine:
    """A piece as the plan keeps it."""
    (x1_nm, y1_nm), (x2_nm, y2_nm) = segment.start, segment.end
    return PlannedLine(
        line_id=segment.line_id,
        use=use,
        x1_nm=x1_nm,
        y1_nm=y1_nm,
        x2_nm=x2_nm,
        y2_nm=y2_nm,
        length_nm=segment.length_nm,
    )


def _drives(uses: Sequence[_Use]) -> Iterator[PlannedDrive]:
    """Drives of all uses in driving order, each with the turn that follows it."""
    before = 0
    for one in uses:
        turns = {turn.after: turn.length_nm for turn in one.drive.turns}
        for drive in one.drive.passes:
            legs: list[tuple[str, ...]] = [()] * one.terms.legs
            for leg in drive.legs:
                legs[leg.leg - 1] = leg.line_ids
            yield PlannedDrive(
                number=before + drive.number,
                use=one.terms.use,
                block=drive.block - 1,
                shift=drive.shift - 1,
                is_along=drive.is_along,
                legs=tuple(legs),
                start=_at(drive.start),
                end=_at(drive.end),
                driven_nm=drive.driven_nm,
                across_nm=drive.across_nm - one.layout.left_nm,
                turn_nm=turns.get(drive.number, 0),
                pieces=tuple(_planned_pieces(drive)),
            )
        before += len(one.drive.passes)


def _planned_pieces(drive: PlannedPass) -> Iterator[PlannedPiece]:
    """What each leg cuts on a drive."""
    for leg in drive.legs:
        for line_id, (from_nm, to_nm) in zip(leg.line_ids, leg.stretches, strict=True):
            yield PlannedPiece(leg=leg.leg, line_id=line_id, from_nm=from_nm, to_nm=to_nm)


def _stubs(one: _Use) -> Iterator[DroppedStub]:
    """What was too short to cut."""
    for stub in one.layout.stubs:
        yield DroppedStub(
            use=one.terms.use,
            number=stub.number,
            start=_at(stub.start),
            end=_at(stub.end),
            length_nm=stub.length_nm,
        )


def _ends(
    piped: Sequence[LaidSegment], asked: SurfaceLayout, collector: Collector | None
) -> CollectorEnds:
    """Where piped slits join the collector; nothing where its course is not drawn."""
    if collector is None or len(collector.design.path) < 2 or not piped:
        return CollectorEnds((), ())
    design = collector.design
    return find_collector_ends(piped, points_of(design.path), join_reach_nm(asked), design.start_nm)


def _planned_ends(found: CollectorEnds) -> tuple[PlannedEnd, ...]:
    """Joints as the plan keeps them."""
    return tuple(
        PlannedEnd(
            number=end.number,
            line_id=end.line_id,
            station_nm=end.station_nm,
            at=_at(end.at),
            gap_nm=end.gap_nm,
            goes_through=end.goes_through,
        )
        for end in found.ends
    )


def _at(point: PointNm) -> PlanPoint:
    """A point as the plan keeps it."""
    return PlanPoint(x_nm=point.x_nm, y_nm=point.y_nm)
