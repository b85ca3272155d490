"""Acceptance by lot: depth, width and sand of the slits, and the fall of each collector."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from models.entries.bodies.passes import PassCut
from models.entries.envelope import Entry
from models.entries.kind_names import COLLECTOR, PASS, SAND_PLACED
from models.queries.grade.laid_pipe import LaidPipe, laid_pipe
from models.queries.materials.sand_balance import dry_pl
from models.science.quality.acceptance import lot_figures
from models.state.job_state import JobState
from models.units.job_units import Figures
from models.units.percent import percent_beside_limits
from sync.papers.asbuilt.features.feature_types import AsBuilt, ProbeAt
from sync.papers.day.facts.slits import (
    current_of,
    depth_limits,
    due_pl,
    pattern_of,
    use_of,
    width_limits,
)
from sync.papers.tables.record_table import (
    Field,
    Record,
    RecordCell,
    count_cell,
    make_record,
    text_cell,
)
from sync.papers.wording.measures import (
    Measure,
    mean_depth,
    number,
    number_text,
    printed_unit,
    signed_offset,
    unit_of,
    within_limits,
)

Show = Callable[[int | Fraction], RecordCell]
_WHOLE = 10**12
"""Shares and grades are held in parts so small that judging them is judging what was read."""


@dataclass(frozen=True, slots=True)
class _Kind:
    """How readings of one kind are shown: a mean may have a figure more than a reading."""

    unit: tuple[str, str]
    show: Show
    mean: Show


@dataclass(frozen=True, slots=True)
class _Lot:
    """Readings of one thing in one place, with the limits they are held to."""

    where: str
    what: str
    kind: _Kind
    readings: Sequence[int]
    low: int | None
    high: int | None


def lot_record(state: JobState, job: AsBuilt) -> Record:
    """Every lot: n, least, mean, most, how many in tolerance, estimated percent within limits."""
    figures = job.figures
    lots = [
        *_depths(state, job),
        *_sand(state),
        *(lot for name in state.every_name(COLLECTOR) for lot in _falls(state, name, figures)),
    ]
    fields = [
        Field("where", "where", 13),
        Field("what", "what"),
        Field("unit", "unit", 5.5),
        Field("n", "n", 7.5, is_number=True),
        *(Field(name, name, 9.3, is_number=True) for name in ("least", "mean", "most")),
        Field("limit_low", "from", 9.3, is_number=True),
        Field("limit_high", "to", 9.3, is_number=True),
        Field("in_tolerance", "in", 7.5, is_number=True),
        Field("percent_within_limits", "PWL", 8, is_number=True),
    ]
    note = (
        "A lot is all readings of one thing on one surface or collector, the newest at each "
        "place; from and to: the limits, themselves within; in: how many of n lie within; PWL: "
        "estimated percent of all the work within limits, told from three readings on."
    )
    return make_record(
        "lots", "Acceptance by lot", fields, map(_row, lots), "Nothing read yet.", note
    )


def _row(lot: _Lot) -> list[RecordCell]:
    told = lot_figures(lot.readings, lot.low, lot.high)
    none = RecordCell("-", None)
    return [
        text_cell(lot.where),
        text_cell(lot.what),
        RecordCell(*lot.kind.unit),
        count_cell(told.n),
        lot.kind.show(told.least_nm),
        lot.kind.mean(told.mean_nm),
        lot.kind.show(told.most_nm),
        none if lot.low is None else lot.kind.show(lot.low),
        none if lot.high is None else lot.kind.show(lot.high),
        RecordCell(f"{told.inside}", told.inside),
        RecordCell(*within_limits(told.percent_within)),
    ]


def _depth_kind(figures: Figures) -> _Kind:
    unit = (printed_unit(Measure.DEPTH, figures), unit_of(Measure.DEPTH, figures.is_us))

    def value(nm: int | Fraction) -> float | None:
        return number(Measure.DEPTH, nm, figures.is_us)

    return _Kind(
        unit,
        lambda nm: RecordCell(number_text(Measure.DEPTH, nm, figures), value(nm)),
        lambda nm: RecordCell(mean_depth(Fraction(nm), figures), value(nm)),
    )


def _off_kind(figures: Figures) -> _Kind:
    unit = unit_of(Measure.OFF, figures.is_us)

    def show(nm: int | Fraction) -> RecordCell:
        words = signed_offset(round(nm), figures).rsplit(" ", 1)[0]
        return RecordCell(words, number(Measure.OFF, nm, figures.is_us))

    return _Kind((unit, unit), show, show)


def _share_kind(low: int | None, high: int | None, places: int, finest: int) -> _Kind:
    """Shares in parts of :data:`_WHOLE`, shown as percents that lie where they lie by limits."""

    def percents(share: int | Fraction) -> Fraction:
        return Fraction(share) * 100 / _WHOLE

    least = None if low is None else percents(low)
    most = None if high is None else percents(high)

    def show(share: int | Fraction) -> RecordCell:
        shown = percent_beside_limits(percents(share), least, most, places)
        fine = percent_beside_limits(percents(share), least, most, finest)
        return RecordCell(shown + ("" if places else " %"), float(fine))

    return _Kind(("%", "percent"), show, show)


def _depths(state: JobState, job: AsBuilt) -> Iterator[_Lot]:
    """Depth and width of each surface and use."""
    kind = _depth_kind(job.figures)
    groups: dict[tuple[str, str], list[ProbeAt]] = defaultdict(list)
    for probe in job.probes:
        groups[(probe.surface_id, probe.use)].append(probe)
    for (surface_id, use), group in groups.items():
        where = f"{surface_id} {use.removesuffix('_slit')}"
        pattern = pattern_of(state, surface_id, use)
        yield _Lot(where, "depth", kind, [one.depth_nm for one in group], *depth_limits(pattern))
        widths = [one.width_nm for one in group if one.width_nm is not None]
        if widths:
            yield _Lot(where, "width", kind, widths, *width_limits(pattern))


def _sand(state: JobState) -> Iterator[_Lot]:
    """Sand placed pass by pass, as a share of the volume that its slits hold."""
    shares: dict[tuple[str, str], list[int]] = defaultdict(list)
    for entry in current_of(state, PASS):
        if isinstance(entry.body, PassCut):
            share = _sand_share(state, entry)
            if share is not None:
                use = use_of(state, entry.body.surface_id, entry.body.line_ids[0])
                shares[(entry.body.surface_id, use)].append(share)
    for (surface_id, use), found in shares.items():
        pattern = pattern_of(state, surface_id, use)
        permille = (pattern.sand_least_permille, pattern.sand_most_permille) if pattern else (0, 0)
        low, high = (limit * _WHOLE // 1000 for limit in permille)
        where = f"{surface_id} {use.removesuffix('_slit')}"
        kind = _share_kind(low, high, 0, 2)
        yield _Lot(where, "sand of volume cut", kind, found, low, high)


def _sand_share(state: JobState, entry: Entry[PassCut]) -> int | None:
    """Sand of a pass in parts of what it holds; None without sand, size or density."""
    due = due_pl(state, entry)
    bodies = list(state.bodies(SAND_PLACED, entry.body.pass_id))
    if not due or not bodies:
        return None
    volumes = [
        dry_pl(state, body.material_id, body.mass_ug or 0, body.volume_pl or 0, body.moisture)
        for body in bodies
    ]
    known = [volume for volume in volumes if volume is not None]
    return round(Fraction(sum(known) * _WHOLE, due)) if len(known) == len(volumes) else None


def _falls(state: JobState, collector_id: str, figures: Figures) -> Iterator[_Lot]:
    """Inverts off design, and the grade of every reach between neighbours."""
    pipe = laid_pipe(state, collector_id)
    if pipe is None or not pipe.shots:
        return
    offs = [round(shot.off_nm) for shot in pipe.shots]
    low, high = -pipe.design.low_nm, pipe.design.high_nm
    yield _Lot(collector_id, "inverts off design", _off_kind(figures), offs, low, high)
    grades = _grades(pipe)
    if grades:
        least = round(pipe.least_grade * _WHOLE)
        kind = _share_kind(least, None, 2, 4)
        yield _Lot(collector_id, "grade, reach by reach", kind, grades, least, None)


def _grades(pipe: LaidPipe) -> list[int]:
    return [round(Fraction(reach.fall_nm) / reach.length_nm * _WHOLE) for reach in pipe.reaches]
