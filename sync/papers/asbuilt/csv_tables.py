"""As-built layers as CSV tables, places in the job's own plane and unit.

Text keeps its line breaks, quoted; what a spreadsheet could take for a formula has an
apostrophe before it. A point has its east and north, a line those of its ends, and every line
and area its whole shape as well-known text in the last column.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from models.units import NM_PER, LengthUnit
from sync.papers.asbuilt.features.about import about_job
from sync.papers.asbuilt.features.course import Course, Place
from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.asbuilt.layers.layer_types import Layer, LayerRow, ShapeKind
from sync.papers.asbuilt.layers.survey_layers import layers_of
from sync.papers.day.csv_file import guard_formula, plain_number
from sync.papers.tables.cells import Cell
from sync.papers.wording.measures import Measure, number, unit_of
from sync.papers.wording.safe_text import code_point

_MARK = b"\xef\xbb\xbf"
_DIGITS = 6


def build_table(job: AsBuilt, name: str) -> bytes:
    """Write one layer: UTF-8 with its mark, CRLF, quoted where needed."""
    return build_layer_table(next(one for one in layers_of(job) if one.name == name), job.is_us)


def build_layer_table(layer: Layer, is_us: bool) -> bytes:
    """Write a table of a layer that was read before."""
    unit = unit_of(Measure.LENGTH, is_us)
    head = [column.header for column in layer.columns]
    places = [name for name in _place_columns(layer.kind, unit) if name not in head]
    rows = ([*row.cells, *_places(layer, row, is_us)[: len(places)]] for row in layer.rows)
    return _written([*head, *places], rows)


def build_about_table(job: AsBuilt) -> bytes:
    """Write what the tables have in common: units, datum, plane, whose work it is."""
    return _written(["item", "said"], ([name, said] for name, said in about_job(job)))


def _written(head: list[str], rows: Iterator[list[Cell]]) -> bytes:
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(head)
    for row in rows:
        writer.writerow([_cell(cell) for cell in row])
    return _MARK + out.getvalue().encode()


def _cell(cell: Cell) -> str:
    if cell is None:
        return ""
    return guard_formula(_plain(cell)) if isinstance(cell, str) else plain_number(cell)


def _plain(text: str) -> str:
    """Text without the control characters that break a table: they are named."""
    return "".join(
        code_point(letter) if ord(letter) < 32 and letter not in "\t\n\r" else letter
        for letter in text
    )


def _place_columns(kind: ShapeKind, unit: str) -> list[str]:
    if kind is ShapeKind.POINT:
        return [f"east_{unit}", f"north_{unit}"]
    ends = [f"{end}_{way}_{unit}" for end in ("start", "end") for way in ("east", "north")]
    return {ShapeKind.LINE: [*ends, f"wkt_{unit}"], ShapeKind.AREA: [f"wkt_{unit}"]}.get(kind, [])


def _places(layer: Layer, row: LayerRow, is_us: bool) -> list[Cell]:
    if row.shape is None:
        return [None] * 5
    first = row.shape[0]
    if layer.kind is ShapeKind.POINT:
        return _east_north(first[0], is_us)
    shape = well_known_text(layer, row, is_us)
    if layer.kind is ShapeKind.AREA:
        return [shape]
    return [*_east_north(first[0], is_us), *_east_north(first[-1], is_us), shape]


def _east_north(place: Place, is_us: bool) -> list[Cell]:
    return [number(Measure.LENGTH, way, is_us) for way in (place.x_nm, place.y_nm)]


def well_known_text(layer: Layer, row: LayerRow, is_us: bool) -> str:
    """Shape of a row in the job's plane and unit; ``Z`` where it carries levels."""
    per = NM_PER[LengthUnit.FT if is_us else LengthUnit.M]
    parts = [
        ", ".join(_position(place, per, layer.has_levels) for place in _closed(layer.kind, course))
        for course in row.shape or ()
    ]
    word = f"{layer.kind.value.upper()}{' Z' * layer.has_levels}"
    if layer.kind is ShapeKind.AREA:
        return f"{word} ({', '.join(f'({part})' for part in parts)})"
    return f"{word} ({parts[0]})"


def _closed(kind: ShapeKind, course: Course) -> Course:
    return (*course, course[0]) if kind is ShapeKind.AREA else course


def _position(place: Place, per: int, has_level: bool) -> str:
    ways = (place.x_nm, place.y_nm, *([place.level_nm or 0] if has_level else []))
    return " ".join(plain_number(round(way / per, _DIGITS)) for way in ways)
