"""Facts of the stake-out sheet: what to stake and cut, surface by surface, and the cut sheet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from math import hypot

from models.counted import CountedNoun
from models.entries.bodies.planning import PermanentPoint
from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import PERMANENT_POINT, SURFACE
from models.plan.line import LineUse
from models.queries.layout.stakeout import StakedLine, StakedPass, StakeOut, stake_out
from models.science.shapes.rings import PointNm
from models.state.check_code import book_code
from models.state.job_state import JobState
from models.units.job_units import Figures, figures_of
from sync.papers.drawing.plan_strip import PlanView
from sync.papers.stakeout.cut_sheet import cut_records
from sync.papers.stakeout.plan import plan_to_drive
from sync.papers.tables.record_table import (
    Field,
    MeasureCells,
    Record,
    RecordCell,
    Row,
    count_cell,
    make_record,
    text_cell,
)
from sync.papers.wording.cautions import STAKEOUT, in_both
from sync.papers.wording.measures import Measure
from sync.papers.wording.missing_sections import yield_or_notice
from sync.papers.wording.safe_text import single_line, slug

USES: dict[LineUse, str] = {"sand_slit": "sand slits", "piped_slit": "piped slits"}
WAYS = {True: "out", False: "back"}
SKEW_NM = 1_000_000
"""Ends of one line nearer than this along the tape stand at one place of it: a millimetre."""
CAUTIONS = (
    *in_both(STAKEOUT),
    "A stake is right when its offset and its diagonal both agree; a stake that fails one is set "
    "again before anything is cut.",
)


@dataclass(frozen=True, slots=True)
class StakedSurface:
    """A surface: its plan, where its tapes lie, its passes; ``n_left`` are still to be cut."""

    name: str
    plan: PlanView | None
    baselines: tuple[str, ...]
    tables: tuple[Record, ...]
    n_left: int


@dataclass(frozen=True, slots=True)
class StakeoutSheet:
    """Facts of the stake-out sheet of a morning."""

    job: str
    job_id: str
    place: str
    code: str
    last_at_ms: int
    is_us: bool
    surfaces: tuple[StakedSurface, ...]
    cuts: tuple[Record, ...]

    @property
    def tables(self) -> list[Record]:
        """Every table, in the order of the sheet."""
        return [*(table for one in self.surfaces for table in one.tables), *self.cuts]


@dataclass(frozen=True, slots=True)
class PadQuestion:
    """Request for a stake-out sheet: without a surface, all of them."""

    surface_id: str = ""
    every_nm: int = 0
    setup_id: str = ""
    has_done: bool = False


def gather_stakeout(state: JobState, asked: PadQuestion) -> StakeoutSheet:
    """Gather the sheet from the plan and from what is cut already."""
    job = state.job
    figures = figures_of(job.unit_system, job.station_style) if job else Figures()
    names = [asked.surface_id] if asked.surface_id else state.every_name(SURFACE)
    surfaces = [state.latest(SURFACE, name) for name in names]
    entries = state.entries_in_order()
    cuts = partial(cut_records, state, figures, asked.surface_id, asked.every_nm, asked.setup_id)
    return StakeoutSheet(
        single_line(job.name if job else "job without a name"),
        job.job_id if job else "job",
        single_line(job.site if job else ""),
        book_code(state),
        max((entry.at_ms for entry in entries), default=0),
        figures.is_us,
        tuple(
            each
            for one in surfaces
            if isinstance(one, Surface)
            for each in yield_or_notice(
                one.surface_id, partial(_surfaces, state, one, figures, asked), _no_surface
            )
        ),
        tuple(yield_or_notice("cut sheets", cuts, _no_table)),
    )


def _surfaces(
    state: JobState, surface: Surface, figures: Figures, asked: PadQuestion
) -> Iterator[StakedSurface]:
    yield _surface(state, surface, figures, asked)


def _no_surface(text: str) -> StakedSurface:
    return StakedSurface(single_line(text), None, (), (), 0)


def _no_table(text: str) -> Record:
    return make_record("not_made", "Not made", [Field("said", "said")], [[text_cell(text)]])


def _surface(
    state: JobState, surface: Surface, figures: Figures, asked: PadQuestion
) -> StakedSurface:
    tables, baselines, uses, left = [], [], [], 0
    for use, words in USES.items():
        staked = stake_out(state, surface, use)
        if staked is None:
            continue
        uses.append(staked)
        left += sum(not one.is_done for one in staked.passes)
        baselines.append(f"{words.capitalize()}: {_baseline_words(state, staked, figures)}")
        tables.append(_passes(surface, staked, words, figures, has_done=asked.has_done))
    return StakedSurface(
        single_line(f"{surface.surface_id} {surface.name}"),
        plan_to_drive(state, surface, uses),
        tuple(map(single_line, baselines)),
        tuple(tables),
        left,
    )


def _baseline_words(state: JobState, staked: StakeOut, figures: Figures) -> str:
    line = staked.baseline
    zero, end = _place_words(line.zero, figures), _place_words(line.end, figures)
    words = (
        f"lay a tape of {figures.length(line.length_nm)} from zero at {zero} to {end}; "
        f"{'offsets' if _is_skew(staked) else 'lines'} are square to it, "
        f"bearing {line.bearing_udeg / 1e6:.2f} degrees."
    )
    ties = ", ".join(_ties(state, line.zero, figures))
    order = "" if staked.has_drives else " The plan keeps no driving order; lines follow in turn."
    return f"{words}{f' Zero lies {ties}.' if ties else ''}{order}"


def _ties(state: JobState, zero: PointNm, figures: Figures) -> Iterator[str]:
    """Distances to points that will stay, to find zero again."""
    for name in state.every_name(PERMANENT_POINT):
        point = state.latest(PERMANENT_POINT, name)
        if not isinstance(point, PermanentPoint) or point.x_nm is None or point.y_nm is None:
            continue
        away = round(hypot(point.x_nm - zero.x_nm, point.y_nm - zero.y_nm))
        yield f"{figures.length(away)} from {name}"


def _place_words(point: PointNm, figures: Figures) -> str:
    return f"({figures.length(point.x_nm)}, {figures.length(point.y_nm)})"


def _is_skew(staked: StakeOut) -> bool:
    """Whether a line is not square to the tape, so that its ends stand at two places along it."""
    lines = (line for one in staked.passes for leg in one.legs for line in leg)
    return any(abs(line.start.station_nm - line.end.station_nm) > SKEW_NM for line in lines)


def _passes(
    surface: Surface, staked: StakeOut, words: str, figures: Figures, *, has_done: bool
) -> Record:
    """Rows of the passes still to drive, or of all of them, leg by leg."""
    figure, is_skew = MeasureCells(figures), _is_skew(staked)
    rows = [
        row
        for one in staked.passes
        if has_done or not one.is_done
        for number, leg in enumerate(one.legs, start=1)
        for line in leg
        for row in [_line_row(figure, one, number, line, is_skew=is_skew)]
    ]
    done = sum(one.is_done for one in staked.passes)
    title = f"{surface.surface_id}, {words}: {len(staked.passes) - done} of "
    return make_record(
        slug(f"{surface.surface_id} {words}")[:31],
        f"{title}{CountedNoun(len(staked.passes)):pass|passes} to drive",
        _pass_fields(figure, is_skew=is_skew),
        rows,
        none="Every pass is driven.",
        note="Start and end: square off the tape. Check: straight from zero to the stake. "
        "A pass marked back is driven from end to start.",
    )


def _pass_fields(figure: MeasureCells, *, is_skew: bool) -> tuple[Field, ...]:
    """Columns of the passes; a skew line has a place along the tape at either end."""
    along = (
        (("start_station", "tape, start"), ("end_station", "tape, end"))
        if is_skew
        else (("station", "along tape"),)
    )
    return (
        Field("pass", "pass", 8.0, is_number=True),
        Field("way", "way", 8.0),
        Field("leg", "leg", 6.0, is_number=True),
        Field("line", "line", 13.0),
        *(figure.field(name, Measure.LENGTH, head, 16.0) for name, head in along),
        figure.field("start_offset", Measure.LENGTH, "start", 14.0),
        figure.field("end_offset", Measure.LENGTH, "end", 14.0),
        figure.field("start_diagonal", Measure.LENGTH, "check, start", 18.0),
        figure.field("end_diagonal", Measure.LENGTH, "check, end", 18.0),
        figure.field("length", Measure.LENGTH, "length", 14.0),
        Field("state", "staked, cut", 0.0),
    )


def _line_row(
    figure: MeasureCells, one: StakedPass, leg: int, line: StakedLine, *, is_skew: bool
) -> Row:
    def length(nm: int) -> RecordCell:
        return figure.of(Measure.LENGTH, nm)

    stations = (line.start.station_nm, line.end.station_nm)
    return Row(
        (
            count_cell(one.number),
            text_cell(WAYS[one.is_along]),
            count_cell(leg),
            text_cell(line.line_id),
            *map(length, stations if is_skew else [sum(stations) // 2]),
            length(line.start.offset_nm),
            length(line.end.offset_nm),
            length(line.start_diagonal_nm),
            length(line.end_diagonal_nm),
            length(line.length_nm),
            text_cell("cut" if line.is_cut else ""),
        )
    )
