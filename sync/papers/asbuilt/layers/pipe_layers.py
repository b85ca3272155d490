"""Layers of collectors, their stations and inverts, joints, and stretches released."""

from __future__ import annotations

from collections.abc import Iterator

from sync.papers.asbuilt.features.feature_types import AsBuilt, CollectorRun, JointAt
from sync.papers.asbuilt.features.station_features import InvertShot, ReleasedStretch, StationMark
from sync.papers.asbuilt.layers.layer_types import (
    Field,
    Layer,
    LayerMaker,
    ShapeKind,
    line_shape,
    point_shape,
    yes_text,
)
from sync.papers.wording.measures import Measure


def pipe_layers(job: AsBuilt) -> Iterator[Layer]:
    """Collectors as planned and as laid, stations, inverts, joints, stretches released."""
    make = LayerMaker(job)
    yield make.layer(
        ("collectors", "Collectors as planned", ShapeKind.LINE),
        job.collectors,
        lambda one: line_shape(*one.course),
        _collector_fields(make),
    )
    yield make.layer(
        ("collectors_laid", "Collector inverts as shot", ShapeKind.LINE),
        [one for one in job.collectors if one.laid],
        lambda one: line_shape(*one.laid),
        _collector_fields(make),
        has_levels=True,
    )
    yield make.layer(
        ("stations", "Stations", ShapeKind.POINT),
        [(one.collector_id, mark) for one in job.collectors for mark in one.marks],
        lambda one: point_shape(one[1].at),
        _mark_fields(make, job),
    )
    yield make.layer(
        ("inverts", "Invert shots", ShapeKind.POINT),
        job.inverts,
        lambda one: point_shape(one.at),
        _invert_fields(make, job),
        has_levels=True,
    )
    yield make.layer(
        ("joints", "Joints at the collector", ShapeKind.POINT),
        job.joints,
        lambda one: point_shape(one.at),
        _joint_fields(make, job),
    )
    yield make.layer(
        ("released", "Released to be covered", ShapeKind.LINE),
        job.released,
        lambda one: line_shape(*one.course) if one.course else None,
        _released_fields(make),
    )


def _collector_fields(make: LayerMaker) -> list[Field[CollectorRun]]:
    return [
        make.text("collector_id", lambda one: one.collector_id),
        make.text("name", lambda one: one.name),
        make.text("outlet", lambda one: one.outlet),
        make.text("stationed_from", lambda one: one.stationed_from),
        make.measure("first_station", Measure.LENGTH, lambda one: one.start_nm),
        make.measure("planned_length", Measure.LENGTH, lambda one: one.length_nm),
        make.measure("pipe_length", Measure.LENGTH, lambda one: one.pipe_nm),
        make.text("pipe", lambda one: ", ".join(one.pipe_materials)),
        make.measure("bore", Measure.DEPTH, lambda one: one.bore_nm),
        make.measure("outside", Measure.DEPTH, lambda one: one.outside_nm),
        make.percent("design_grade", lambda one: one.design_grade),
        make.percent("laid_grade", lambda one: one.laid_grade),
    ]


def _mark_fields(make: LayerMaker, job: AsBuilt) -> list[Field[tuple[str, StationMark]]]:
    return [
        make.text("collector_id", lambda one: one[0]),
        make.text("station", lambda one: job.figures.station(one[1].station_nm)),
        make.measure("station", Measure.LENGTH, lambda one: one[1].station_nm),
        make.measure("design_invert", Measure.LEVEL, lambda one: one[1].design_nm),
    ]


def _invert_fields(make: LayerMaker, job: AsBuilt) -> list[Field[InvertShot]]:
    return [
        make.text("collector_id", lambda one: one.collector_id),
        make.text("station", lambda one: job.figures.station(one.station_nm)),
        make.measure("station", Measure.LENGTH, lambda one: one.station_nm),
        make.measure("invert", Measure.LEVEL, lambda one: one.invert_nm),
        make.measure("design_invert", Measure.LEVEL, lambda one: one.design_nm),
        make.measure("off_design", Measure.OFF, lambda one: one.off_nm),
        make.measure("low_allowed", Measure.OFF, lambda one: one.low_nm),
        make.measure("high_allowed", Measure.OFF, lambda one: one.high_nm),
        make.text("verdict", lambda one: one.verdict.value),
        make.text("answer", lambda one: one.answered.text),
        make.text("answered_by", lambda one: one.answered.by),
        make.text("why", lambda one: one.answered.why),
        make.text("setup_id", lambda one: one.setup_id),
        make.text("day", lambda one: one.day),
        make.text("author", lambda one: one.author),
    ]


def _joint_fields(make: LayerMaker, job: AsBuilt) -> list[Field[JointAt]]:
    return [
        make.text("collector_id", lambda one: one.collector_id),
        make.count("number", lambda one: one.number),
        make.text("surface_id", lambda one: one.surface_id),
        make.text("line_id", lambda one: one.line_id),
        make.text("station", lambda one: job.figures.station(one.station_nm)),
        make.measure("station", Measure.LENGTH, lambda one: one.station_nm),
        make.measure("gap", Measure.LENGTH, lambda one: one.gap_nm),
        make.text("goes_through", lambda one: yes_text(one.goes_through)),
        make.text("made", lambda one: yes_text(one.is_made)),
    ]


def _released_fields(make: LayerMaker) -> list[Field[ReleasedStretch]]:
    return [
        make.text("collector_id", lambda one: one.collector_id),
        make.measure("from_station", Measure.LENGTH, lambda one: one.from_nm),
        make.measure("to_station", Measure.LENGTH, lambda one: one.to_nm),
        make.text("released_by", lambda one: one.released_by),
        make.text("day", lambda one: one.day),
        make.text("note", lambda one: one.note),
    ]
