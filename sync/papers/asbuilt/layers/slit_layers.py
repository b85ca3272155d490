"""Layers of surfaces, keep-outs, lines and probes."""

from __future__ import annotations

from collections.abc import Iterator

from sync.papers.asbuilt.features.feature_types import (
    AsBuilt,
    KeepOut,
    LineAsCut,
    ProbeAt,
    SurfaceArea,
)
from sync.papers.asbuilt.layers.layer_types import (
    Field,
    Layer,
    LayerMaker,
    ShapeKind,
    area_shape,
    line_shape,
    point_shape,
    yes_text,
)
from sync.papers.wording.measures import Measure

AS_PLANNED = "course as planned, length as measured"
UNPLACED = "on no plan: no place known"


def slit_layers(job: AsBuilt) -> Iterator[Layer]:
    """Surfaces, keep-outs, lines, probes."""
    make = LayerMaker(job)
    yield make.layer(
        ("surfaces", "Surfaces", ShapeKind.AREA),
        job.surfaces,
        lambda one: area_shape(one.outline),
        _surface_fields(make),
    )
    yield make.layer(
        ("keep_outs", "Keep-outs", ShapeKind.AREA),
        [(one.surface_id, kept) for one in job.surfaces for kept in one.keep_outs],
        lambda one: area_shape(one[1].ring, one[1].islands),
        _keep_out_fields(make),
    )
    yield make.layer(
        ("lines", "Lines as cut", ShapeKind.LINE),
        job.lines,
        lambda one: line_shape(one.start, one.end),
        [*_line_fields(make), *_line_quality(make), *_line_fill(make)],
    )
    yield make.layer(
        ("probes", "Depth probes", ShapeKind.POINT),
        job.probes,
        lambda one: point_shape(one.at),
        _probe_fields(make),
    )


def _surface_fields(make: LayerMaker) -> list[Field[SurfaceArea]]:
    return [
        make.text("surface_id", lambda one: one.surface_id),
        make.text("name", lambda one: one.name),
        make.text("use", lambda one: one.use),
        make.count("n_lines", lambda one: one.n_lines),
        make.measure("planned_length", Measure.LENGTH, lambda one: one.planned_nm),
        make.measure("cut_length", Measure.LENGTH, lambda one: one.cut_nm),
        make.measure("setback", Measure.LENGTH, lambda one: one.setback_nm),
        make.text("note", lambda one: one.note),
    ]


def _keep_out_fields(make: LayerMaker) -> list[Field[tuple[str, KeepOut]]]:
    return [
        make.text("surface_id", lambda one: one[0]),
        make.text("name", lambda one: one[1].name),
        make.measure("clearance", Measure.LENGTH, lambda one: one[1].clearance_nm),
    ]


def _line_fields(make: LayerMaker) -> list[Field[LineAsCut]]:
    return [
        make.text("surface_id", lambda one: one.surface_id),
        make.text("line_id", lambda one: one.line_id),
        make.text("use", lambda one: one.use),
        make.text("status", lambda one: one.status.value),
        make.measure("planned_length", Measure.LENGTH, lambda one: one.planned_nm),
        make.measure("cut_length", Measure.LENGTH, lambda one: one.cut_nm),
        make.text("passes", lambda one: ", ".join(one.pass_ids)),
        make.text("days", lambda one: ", ".join(one.days)),
        make.text("place", lambda one: AS_PLANNED if one.start else UNPLACED),
    ]


def _line_quality(make: LayerMaker) -> list[Field[LineAsCut]]:
    return [
        make.count("n_probes", lambda one: one.n_probes),
        make.count("n_in_tolerance", lambda one: one.n_in_tolerance),
        make.measure("least_depth", Measure.DEPTH, lambda one: one.least_nm),
        make.measure("mean_depth", Measure.DEPTH, lambda one: one.mean_nm),
        make.measure("most_depth", Measure.DEPTH, lambda one: one.most_nm),
        make.measure("depth_at_least", Measure.DEPTH, lambda one: one.low_nm),
        make.measure("depth_at_most", Measure.DEPTH, lambda one: one.high_nm),
    ]


def _line_fill(make: LayerMaker) -> list[Field[LineAsCut]]:
    return [
        make.measure("pipe_length", Measure.LENGTH, lambda one: one.pipe_nm),
        make.text("pipe", lambda one: ", ".join(one.pipe_materials)),
        make.text("connected", lambda one: yes_text(one.is_connected)),
        make.text("end_capped", lambda one: yes_text(one.is_end_capped)),
        make.measure("sand_share", Measure.VOLUME, lambda one: one.sand_pl or None),
        make.measure("sand_share", Measure.MASS, lambda one: one.sand_ug or None),
    ]


def _probe_fields(make: LayerMaker) -> list[Field[ProbeAt]]:
    return [
        make.text("surface_id", lambda one: one.surface_id),
        make.text("line_id", lambda one: one.line_id),
        make.text("pass_id", lambda one: one.pass_id),
        make.measure("along", Measure.LENGTH, lambda one: one.along_nm),
        make.measure("depth", Measure.DEPTH, lambda one: one.depth_nm),
        make.text("depth_typed", lambda one: one.depth_typed),
        make.measure("depth_at_least", Measure.DEPTH, lambda one: one.low_nm),
        make.measure("depth_at_most", Measure.DEPTH, lambda one: one.high_nm),
        make.measure("width", Measure.DEPTH, lambda one: one.width_nm),
        make.text("verdict", lambda one: one.verdict.value),
        make.text("answer", lambda one: one.answered.text),
        make.text("answered_by", lambda one: one.answered.by),
        make.text("why", lambda one: one.answered.why),
        make.text("day", lambda one: one.day),
        make.text("author", lambda one: one.author),
    ]
