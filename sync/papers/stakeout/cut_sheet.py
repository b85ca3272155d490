"""The collector's cut sheet: levels, cuts, rods, and where the trench must be protected."""

from __future__ import annotations

from collections.abc import Iterator

from models.entries.bodies.surfaces import Collector
from models.entries.kind_names import COLLECTOR, SURFACE
from models.queries.grade.trench_depth import PlannedTrench, deep_text, planned_trench
from models.queries.layout.stakeout import CutRow, cut_sheet
from models.queries.levelling.setup_proof import miss_of
from models.state.job_state import JobState
from models.units.job_units import Figures
from sync.papers.tables.record_table import Field, MeasureCells, Record, Row, make_record, text_cell
from sync.papers.wording.measures import Measure
from sync.papers.wording.safe_text import slug

TRENCH = "Nobody enters a trench that is not protected."
PROTECT = "protect"


def cut_records(
    state: JobState, figures: Figures, surface_id: str, every_nm: int, setup_id: str
) -> Iterator[Record]:
    """Cut sheets of the collectors; with a surface named, of the one it drains to.

    Stations lie ``every_nm`` apart, 0 is as far as the plan wants shots.
    """
    surface = state.latest(SURFACE, surface_id) if surface_id else None
    for name in state.every_name(COLLECTOR):
        collector = state.latest(COLLECTOR, name)
        if surface is not None and surface.collector_id != name:
            continue
        if isinstance(collector, Collector):
            apart_nm = every_nm or collector.design.shot_every_nm
            rows = cut_sheet(state, collector, apart_nm, setup_id)
            trench = planned_trench(state, collector)
            rods = _rod_words(state, setup_id)
            yield _cut_record(collector, rows, trench, figures, rods)


def _cut_record(
    collector: Collector, rows: list[CutRow], trench: PlannedTrench, figures: Figures, rods: str
) -> Record:
    figure = MeasureCells(figures)

    def level(name: str, head: str, width_mm: float = 15.5) -> Field:
        return figure.field(name, Measure.LEVEL, head, width_mm)

    fields = (
        figure.station_field("station", "station", 12.5),
        level("design_invert", "invert"),
        level("design_trench_floor", "floor"),
        level("hub", "top of hub"),
        level("ground", "ground"),
        level("cut_to_invert", "cut, invert", 17.0),
        level("cut_to_floor", "cut, floor", 16.0),
        level("rod_on_invert", "rod, invert", 17.0),
        level("rod_on_floor", "rod, floor", 16.0),
        level("depth", "depth", 12.0),
        Field("protection", "", 11.0),
        Field("staked", "staked, by whom", 0.0),
    )
    return make_record(
        slug(f"{collector.collector_id} cut sheet")[:31],
        f"{collector.collector_id} {collector.name}: cut sheet",
        fields,
        [_cut_row(figure, row, trench) for row in rows],
        note=_cut_note(collector, trench, figures, rods),
    )


def _cut_row(figure: MeasureCells, row: CutRow, trench: PlannedTrench) -> Row:
    levels = (
        row.invert_nm,
        row.floor_nm,
        row.hub_nm,
        row.ground_nm,
        row.cut_to_invert_nm,
        row.cut_to_floor_nm,
        row.rod_on_invert_nm,
        row.rod_on_floor_nm,
        row.depth_nm,
    )
    shown = (figure.of(Measure.LEVEL, nm) for nm in levels)
    is_deep = row.depth_nm is not None and row.depth_nm >= trench.limit_nm
    protect = "not known" if row.depth_nm is None else PROTECT if is_deep else ""
    items = (figure.station(row.station_nm), *shown, text_cell(protect), text_cell(""))
    return Row(items, is_heavy=bool(protect))


def _rod_words(state: JobState, setup_id: str) -> str:
    """Which setup the rods are for, and whether the book says that it has moved."""
    if not setup_id:
        return "Rod readings need a setup: name the day's one."
    words = f"Rod readings on grade are those of setup {setup_id}; prove it on a benchmark first."
    if any(miss_of(state, setup_id, is_run=is_run) for is_run in (False, True)):
        words += f" The last check shot of {setup_id} missed: do not use them, set up again."
    return words


def _cut_note(collector: Collector, trench: PlannedTrench, figures: Figures, rods: str) -> str:
    ends = f"Stations from the {collector.design.stationed_from}."
    cuts = "Cuts are from the top of the hub where one was shot, else from the planned ground."
    told = " ".join(_protect_words(trench, figures))
    return f"{ends} {cuts} {rods} {told} {TRENCH}"


def _protect_words(trench: PlannedTrench, figures: Figures) -> Iterator[str]:
    """Say from where to where the trench must be protected, before anybody digs it."""
    limit, station = figures.length(trench.limit_nm), figures.station
    yield "Depth is from the ground down to the floor."
    yield from deep_text(trench, figures)
    for low_nm, high_nm in trench.unknown:
        yield (
            f"From {station(low_nm)} to {station(high_nm)} the depth is not known: no ground "
            "level is planned or shot there."
        )
    if not trench.deep and not trench.unknown:
        yield (
            f"As planned it is nowhere as deep as {limit}; a competent person looks at any "
            "depth, and each day."
        )
