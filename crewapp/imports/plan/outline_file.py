"""A file of outlines, points or courses, whatever form it comes in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import NoReturn

from models.errors import CrewError
from models.readers.outlines.geojson import read_geojson
from models.readers.outlines.points_csv import read_offsets_csv, read_points_csv
from models.readers.outlines.read_shapes import PlanShapes, TracedShape
from models.science.shapes.offsets import ORIGIN, trace_offsets
from models.science.shapes.projection import LocalProjection
from models.science.shapes.rings import PointNm
from models.units import LengthUnit, StationStyle
from sync.dxf_import.outlines_dxf import DrawingUnit, read_drawing, read_drawing_facts


class OutlineForm(StrEnum):
    """A form that outlines come in."""

    GEOJSON = "geojson"
    DXF = "dxf"
    POINTS = "points"
    OFFSETS = "offsets"


_BY_ENDING = {
    ".geojson": OutlineForm.GEOJSON,
    ".json": OutlineForm.GEOJSON,
    ".dxf": OutlineForm.DXF,
    ".csv": OutlineForm.POINTS,
    ".txt": OutlineForm.POINTS,
}


class OutlineFormError(CrewError, ValueError):
    """A file's form, unit or layer is unknown, or does not go with it."""

    code = "paper.outline_form"
    sentence = "Cannot read {name} as a drawing: {why}. {accepted}. Nothing was written."


@dataclass(frozen=True, slots=True)
class ReadingOptions:
    """How a file is to be read; what a form has no use for must be left out.

    ``unit`` is that of bare numbers in a table, or of a drawing; ``job_unit`` stands in
    for it in tables. ``origin`` and ``bearing_udeg`` are those of a baseline.
    """

    form: OutlineForm | None = None
    unit: str | None = None
    job_unit: LengthUnit = LengthUnit.FT
    stations: StationStyle = StationStyle.US_100FT
    layer: str | None = None
    origin: PointNm = ORIGIN
    bearing_udeg: int = 0
    plane: LocalProjection | None = None


def read_outline_file(name: str, data: bytes, reading: ReadingOptions) -> PlanShapes:
    """Read what a file draws into the local plane.

    Raises
    ------
    OutlineFormError
        If the form can't be told, or the unit or layer is missing or means nothing to it.
    PlanFileError, DrawingUnitError, CalculationInputError
        If it can't be read; every fault is told with its place.
    PlanningAbsentError
        If the library it needs is not installed.
    """
    form = reading.form or _form_of(name, data)
    if form is not OutlineForm.DXF and reading.layer is not None:
        _refuse(name, f"a {form} file has no layers", "Leave the layer out")
    if form is OutlineForm.GEOJSON:
        if reading.unit is not None:
            _refuse(name, "GeoJSON is in degrees, whatever the unit", "Leave the unit out")
        return read_geojson(data, reading.plane)
    if form is OutlineForm.DXF:
        return _read_dxf(name, data, reading)
    unit = _table_unit(name, reading)
    if form is OutlineForm.POINTS:
        return read_points_csv(data, unit)
    rows = read_offsets_csv(data, unit, reading.stations)
    trace = trace_offsets(rows, reading.origin, reading.bearing_udeg)
    return PlanShapes((TracedShape("baseline", trace),))


def _form_of(name: str, data: bytes) -> OutlineForm:
    """The form that a file's name tells, or for a table its first row."""
    ending = Path(name).suffix.lower()
    if ending not in _BY_ENDING:
        accepted = f"Say which form it has: {', '.join(OutlineForm)}"
        _refuse(name, f"its name ends in {ending or 'nothing'}", accepted)
    form = _BY_ENDING[ending]
    first = data[:4096].decode("utf-8", "replace").lstrip("\ufeff\r\n ").splitlines()
    is_baseline = bool(first) and "sta" in first[0].lower()
    return OutlineForm.OFFSETS if form is OutlineForm.POINTS and is_baseline else form


def _table_unit(name: str, reading: ReadingOptions) -> LengthUnit:
    """Unit of bare numbers in a table."""
    if reading.unit is None:
        return reading.job_unit
    if reading.unit not in set(LengthUnit):
        accepted = f"Give one of {', '.join(LengthUnit)}"
        _refuse(name, f"a table is not read in {reading.unit}", accepted)
    return LengthUnit(reading.unit)


def _read_dxf(name: str, data: bytes, reading: ReadingOptions) -> PlanShapes:
    """One layer of a drawing; where it has several, one has to be chosen."""
    unit = DrawingUnit(reading.unit) if reading.unit is not None else None
    layer = reading.layer
    if layer is None:
        layers = read_drawing_facts(data).layers
        if len(layers) != 1:
            listed = ", ".join(f"{one} ({count})" for one, count in layers.items()) or "none"
            why = (
                f"no layer was chosen, and it has these, with the entities on each: {listed[:500]}"
            )
            _refuse(name, why, "Choose the layer that the outline is on")
        (layer,) = layers
    return read_drawing(data, layer, unit)


def _refuse(name: str, why: str, accepted: str) -> NoReturn:
    """Refuse a file for the way it was to be read."""
    raise OutlineFormError(name=name, why=why, accepted=accepted)
