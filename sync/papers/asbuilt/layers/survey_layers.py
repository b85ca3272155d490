"""Layers of utilities met, permanent points, ties, photos, readings out of force; all layers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, TypeVar

from models.units.job_units import Figures
from sync.papers.asbuilt.features.course import ByPosition
from sync.papers.asbuilt.features.feature_types import (
    AsBuilt,
    OutletAt,
    PermanentMark,
    PhotoTaken,
    TieMeasured,
    UtilityFeature,
    VoidReading,
)
from sync.papers.asbuilt.layers.layer_types import (
    Field,
    Layer,
    LayerMaker,
    ShapeKind,
    line_shape,
    point_shape,
)
from sync.papers.asbuilt.layers.pipe_layers import pipe_layers
from sync.papers.asbuilt.layers.slit_layers import slit_layers
from sync.papers.wording.measures import Measure
from sync.papers.wording.position_text import NANODEGREES, good_words

Placed = TypeVar("Placed", UtilityFeature, OutletAt)
"""A thing that the tablet's position may have placed."""


def layers_of(job: AsBuilt) -> tuple[Layer, ...]:
    """Every layer, empty ones included, in the order in which a reader needs them."""
    return (*slit_layers(job), *pipe_layers(job), *survey_layers(job))


def survey_layers(job: AsBuilt) -> Iterator[Layer]:
    """Utilities, permanent points, ties, photos, readings struck or overtaken."""
    make = LayerMaker(job)
    yield make.layer(
        ("utilities", "Met in the ground", ShapeKind.POINT),
        job.utilities,
        lambda one: point_shape(one.at),
        _utility_fields(make),
    )
    yield make.layer(
        ("outlets", "Outlets as seen", ShapeKind.POINT),
        job.outlets,
        lambda one: point_shape(one.at),
        _outlet_fields(make),
    )
    yield make.layer(
        ("points", "Permanent points", ShapeKind.POINT),
        job.points,
        lambda one: point_shape(one.at),
        _point_fields(make),
    )
    yield make.layer(
        ("ties", "Ties to permanent points", ShapeKind.LINE),
        job.ties,
        lambda one: line_shape(one.point, one.end),
        _tie_fields(make),
    )
    yield make.layer(
        ("photos", "Photos", ShapeKind.NONE), job.photos, lambda one: None, _photo_fields(make)
    )
    yield make.layer(
        ("struck", "Struck or overtaken: does not stand", ShapeKind.POINT),
        job.void_readings,
        lambda one: point_shape(one.at),
        _set_aside_fields(make),
    )


def _utility_fields(make: LayerMaker) -> list[Field[UtilityFeature]]:
    return [
        make.text("what", lambda one: one.what),
        make.text("event", lambda one: one.event),
        make.text("where", lambda one: one.where),
        make.measure("depth", Measure.DEPTH, lambda one: one.depth_nm),
        make.text("depth_typed", lambda one: one.depth_typed),
        make.text("action", lambda one: one.action),
        *_position_fields(make, UtilityFeature),
        make.text("day", lambda one: one.day),
        make.text("author", lambda one: one.author),
    ]


def _position_fields(make: LayerMaker, kind: type[Placed]) -> list[Field[Placed]]:
    """How a place of a kind of thing is known by position; empty for every other place."""
    figures = make.figures
    return [
        make.text("placed", lambda one: _placed(one.by_position, figures)),
        make.measure(
            "good_to",
            Measure.LENGTH,
            lambda one: one.by_position.good_to_nm if one.by_position else None,
        ),
        make.text("latitude", lambda one: _degrees(one.by_position, "lat_ndeg")),
        make.text("longitude", lambda one: _degrees(one.by_position, "lon_ndeg")),
    ]


def _placed(by: ByPosition | None, figures: Figures) -> str:
    return good_words(by.good_to_nm, figures) if by is not None else ""


def _degrees(by: ByPosition | None, name: Literal["lat_ndeg", "lon_ndeg"]) -> str:
    return "" if by is None else f"{getattr(by, name) / NANODEGREES:.6f}"


def _outlet_fields(make: LayerMaker) -> list[Field[OutletAt]]:
    return [
        make.text("outlet_id", lambda one: one.outlet_id),
        make.text("flows", lambda one: one.flows),
        make.text("note", lambda one: one.note),
        make.measure("invert", Measure.LEVEL, lambda one: one.invert_nm),
        make.measure("water", Measure.LEVEL, lambda one: one.water_nm),
        make.text("caution", lambda one: one.caution),
        *_position_fields(make, OutletAt),
        make.text("day", lambda one: one.day),
        make.text("author", lambda one: one.author),
    ]


def _point_fields(make: LayerMaker) -> list[Field[PermanentMark]]:
    return [
        make.text("point_id", lambda one: one.point_id),
        make.text("where", lambda one: one.where),
        make.measure("east", Measure.LENGTH, lambda one: one.at.x_nm if one.at else None),
        make.measure("north", Measure.LENGTH, lambda one: one.at.y_nm if one.at else None),
    ]


def _tie_fields(make: LayerMaker) -> list[Field[TieMeasured]]:
    return [
        make.text("point_id", lambda one: one.point_id),
        make.text("name", lambda one: one.name),
        make.text("tied", lambda one: one.tied),
        make.text("surface_id", lambda one: one.surface_id),
        make.text("line_id", lambda one: one.line_id),
        make.text("collector_id", lambda one: one.collector_id),
        make.measure("distance", Measure.LENGTH, lambda one: one.distance_nm),
        make.text("distance_typed", lambda one: one.distance_typed),
        make.measure("distance_by_plan", Measure.LENGTH, lambda one: one.by_plan_nm),
        make.text("day", lambda one: one.day),
    ]


def _photo_fields(make: LayerMaker) -> list[Field[PhotoTaken]]:
    return [
        make.text("file", lambda one: one.file_name),
        make.text("caption", lambda one: one.caption),
        make.text("where", lambda one: one.where),
        make.text("day", lambda one: one.day),
        make.text("author", lambda one: one.author),
    ]


def _set_aside_fields(make: LayerMaker) -> list[Field[VoidReading]]:
    return [
        make.text("how", lambda one: one.how),
        make.text("kind", lambda one: one.kind),
        make.text("surface_id", lambda one: one.surface_id),
        make.text("line_id", lambda one: one.line_id),
        make.text("collector_id", lambda one: one.collector_id),
        make.text("said", lambda one: one.said),
        make.text("reason", lambda one: one.reason),
        make.text("struck_by", lambda one: one.by),
        make.text("instead", lambda one: one.instead),
        make.text("day", lambda one: one.day),
        make.text("author", lambda one: one.author),
    ]
