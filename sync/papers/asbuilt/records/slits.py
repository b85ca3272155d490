"""Tables of the slits: every line with what was cut and read on it, and every probe."""

from __future__ import annotations

from models.entries.bodies.surfaces import Surface
from models.entries.kind_names import SURFACE
from models.plan.pattern import SlitPattern
from models.state.job_state import JobState
from sync.papers.asbuilt.features.feature_types import AsBuilt, LineAsCut, LineStatus
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
from sync.papers.wording.measures import Measure, mean_depth, number

USES = {"sand_slit": "sand", "piped_slit": "piped"}
_PIPE_NOTE = {True: "", False: ", not joined"}


def pattern_record(state: JobState, made: MeasureCells) -> Record:
    """Table of the slits of each surface as designed, with their tolerances."""
    rows = []
    for surface_id in state.every_name(SURFACE):
        surface = state.latest(SURFACE, surface_id)
        if not isinstance(surface, Surface):
            continue
        for use, pattern in (("sand", surface.sand_slits), ("piped", surface.piped_slits)):
            if pattern is not None:
                rows.append([text_cell(surface_id), text_cell(use), *_pattern_cells(pattern, made)])
    fields = [
        Field("surface", "on", 12),
        Field("kind", "kind", 9),
        made.field("spacing", Measure.DEPTH, "apart", 13),
        made.field("width", Measure.DEPTH, "wide", 13),
        made.field("width_tolerance", Measure.DEPTH, "±", 11),
        made.field("depth", Measure.DEPTH, "deep", 13),
        made.field("depth_least", Measure.DEPTH, "from", 14),
        made.field("depth_most", Measure.DEPTH, "to", 14),
        made.field("pipe_outside", Measure.DEPTH, "pipe", 14),
    ]
    note = "Deep: below finished turf. Pipe: outside diameter of the pipe on the floor of the slit."
    return make_record("sections", "What a slit was meant to be", fields, rows, "No pattern.", note)


def _pattern_cells(pattern: SlitPattern, made: MeasureCells) -> list[RecordCell]:
    amounts = (
        pattern.spacing_nm,
        pattern.width_nm,
        pattern.width_tolerance_nm,
        pattern.depth_nm,
        pattern.least_depth_nm,
        pattern.most_depth_nm,
        pattern.pipe_outside_nm or None,
    )
    return [made.of(Measure.DEPTH, amount) for amount in amounts]


def line_record(job: AsBuilt, made: MeasureCells) -> Record:
    """Every line: planned, cut, its pipe, and what its probes say."""
    fields = [
        Field("surface", "on", 8.5),
        Field("line", "line", 9),
        Field("kind", "kind", 7.5),
        made.field("planned", Measure.LENGTH, "plan", 11),
        made.field("cut", Measure.LENGTH, "cut", 10),
        made.field("pipe", Measure.LENGTH, "pipe", 10.5),
        Field("probes", "n", 4, is_number=True),
        made.field("least_depth", Measure.DEPTH, "least", 11.5),
        made.field("mean_depth", Measure.DEPTH, "mean", 12.2),
        made.field("most_depth", Measure.DEPTH, "most", 11.7),
        Field("in_tolerance", "in", 4, is_number=True),
        Field("status", "", 0),
        Field("passes", "pass"),
        *(
            made.field(f"{end}_{way}", Measure.LENGTH, "", 0)
            for end in ("start", "end")
            for way in ("east", "north")
        ),
    ]
    note = (
        "Depths are below finished turf, the newest reading at each place; in: how many of n lie "
        "within limits. A line without a pass was not cut. Rows in bold hold a reading that is "
        "out and that nobody has accepted."
    )
    rows = [_line_row(line, made) for line in job.lines]
    return make_record(
        "lines", "Lines, as planned and as cut", fields, rows, "No line planned.", note
    )


def _line_row(line: LineAsCut, made: MeasureCells) -> Row:
    mean = RecordCell("-", None)
    if line.mean_nm is not None:
        value = number(Measure.DEPTH, line.mean_nm, made.figures.is_us)
        mean = RecordCell(mean_depth(line.mean_nm, made.figures), value)
    pipe = made.of(Measure.LENGTH, line.pipe_nm or None)
    items = (
        text_cell(line.surface_id),
        text_cell(line.line_id),
        text_cell(USES.get(line.use, line.use) if line.start else "not on plan"),
        made.of(Measure.LENGTH, line.planned_nm),
        made.of(Measure.LENGTH, line.cut_nm if line.pass_ids else None),
        pipe,
        count_cell(line.n_probes),
        made.of(Measure.DEPTH, line.least_nm),
        mean,
        made.of(Measure.DEPTH, line.most_nm),
        count_cell(line.n_in_tolerance if line.n_probes else None),
        text_cell(line.status.value),
        text_cell(", ".join(line.pass_ids) or "not cut"),
        *(
            made.of(Measure.LENGTH, nm)
            for end in (line.start, line.end)
            for nm in ((end.x_nm, end.y_nm) if end else (None, None))
        ),
    )
    return Row(items, is_heavy=line.status is LineStatus.OUT)


def probe_record(job: AsBuilt, made: MeasureCells) -> Record:
    """Every probe that counts; the workbook alone holds them one by one."""
    rows = [
        [
            text_cell(one.surface_id),
            text_cell(one.line_id),
            text_cell(one.pass_id),
            made.of(Measure.LENGTH, one.along_nm),
            made.of(Measure.DEPTH, one.depth_nm),
            text_cell(one.depth_typed),
            made.of(Measure.DEPTH, one.width_nm),
            made.of(Measure.DEPTH, one.low_nm),
            made.of(Measure.DEPTH, one.high_nm),
            text_cell(one.verdict.value),
            text_cell(one.answered.text),
            text_cell(one.day),
            text_cell(one.author),
        ]
        for one in job.probes
    ]
    fields = [
        Field("surface"),
        Field("line"),
        Field("pass"),
        made.field("along", Measure.LENGTH, "", 0),
        made.field("depth", Measure.DEPTH, "", 0),
        Field("depth_typed"),
        made.field("width", Measure.DEPTH, "", 0),
        made.field("limit_low", Measure.DEPTH, "", 0),
        made.field("limit_high", Measure.DEPTH, "", 0),
        Field("verdict"),
        Field("answer"),
        Field("day"),
        Field("by"),
    ]
    return make_record("probes", "Depth probes", fields, rows)
